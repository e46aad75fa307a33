import type { Command, Output } from '../command.ts';
import { COMMANDS, type CommandName, loadCommand } from '../commands.ts';

const CLOSING = `PHOTO is a JPEG, HEIC, PNG, WebP, AVIF or TIFF file. FILE holds JSON; with --json the answer is JSON too, lengths in metres.
Exit code 0 with an answer, 2 when usage or input is at fault, 1 when the program is.`;

const lineOf = async (name: CommandName): Promise<string> => {
  const { usage, summary } = await loadCommand(name);
  return `  ${usage.padEnd(36)}${summary}`;
};

/** Tells what commands there are. */
export const command: Command = {
  usage: 'help',
  summary: 'this list',
  run: async (_, output: Output) => {
    const lines = await Promise.all(COMMANDS.map(lineOf));
    output(
      [
        'Commands of sward, from the root of the project: npm run --silent sward -- COMMAND',
        ...lines,
        '',
        CLOSING,
      ].join('\n'),
    );
  },
};

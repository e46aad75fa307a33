import type { Command, Output } from '../command.ts';
import { COMMANDS, loadCommand } from '../commands.ts';

const CLOSING = `PHOTO is a JPEG, HEIC, PNG, WebP, AVIF or TIFF file. FILE holds JSON; with --json the answer is JSON too, lengths in metres.
Exit code 0 with an answer, 2 when usage or input is at fault, 1 when the program is.`;

/** Tells what commands there are. */
export const command: Command = {
  usage: 'help',
  summary: 'this list',
  run: async (_, output: Output) => {
    const commands = await Promise.all(COMMANDS.map(loadCommand));
    const width = Math.max(...commands.map(({ usage }) => usage.length));
    const lines = commands.map(({ usage, summary }) => `  ${usage.padEnd(width)}  ${summary}`);
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

import { InputError } from '../errors.ts';
import type { Output } from './command.ts';
import { COMMANDS, type CommandName, loadCommand } from './commands.ts';

/** Exit codes: an answer was given; the program is at fault; usage or input is. */
export const EXIT = { answered: 0, fault: 1, input: 2 } as const;

const ALIASES: Readonly<Record<string, CommandName>> = {
  '--help': 'help',
  '-h': 'help',
  '--version': 'version',
};

const commandNamed = (word: string | undefined): CommandName => {
  const name = ALIASES[word ?? ''] ?? COMMANDS.find((command) => command === word);
  if (name) return name;
  const found = word === undefined ? 'No command was given' : `There is no command "${word}"`;
  throw new InputError(
    'usage',
    `${found}: use ${COMMANDS.slice(0, -1).join(', ')} or ${COMMANDS.at(-1)}.`,
    400,
  );
};

const oneLine = (text: string): string => text.replaceAll(/\s*\n\s*/g, ' ').trim();

/** Faults of the input keep their sentence; anything else is the program's and is said to be so. */
const explain = (error: unknown): { readonly code: number; readonly line: string } => {
  if (error instanceof InputError) {
    return { code: error.status < 500 ? EXIT.input : EXIT.fault, line: oneLine(error.message) };
  }
  // What a thread throws need not come over as an Error.
  const message = (error as { message?: unknown } | null)?.message ?? error;
  return {
    code: EXIT.fault,
    line: `Sward itself failed (${oneLine(String(message))}): this is a fault of the program.`,
  };
};

/**
 * Runs the command line `words` (what follows the program's name): the answer goes to `answer`, one line about a fault to `complain`.
 * Returns the exit code.
 */
export const runCommandLine = async (
  words: readonly string[],
  answer: Output,
  complain: Output,
): Promise<number> => {
  try {
    const [word, ...rest] = words;
    const name = rest.includes('--help') ? 'help' : commandNamed(word);
    const command = await loadCommand(name);
    await command.run(rest, answer);
    return EXIT.answered;
  } catch (error) {
    const { code, line } = explain(error);
    complain(line);
    return code;
  }
};

import { parseArgs } from 'node:util';
import { InputError } from '../errors.ts';

/** Where a command writes: the answer and nothing else. Faults are thrown. */
export type Output = (text: string) => void;

/** A command of the command line. */
export type Command = {
  /** What may follow the command's name: `PHOTO --marks FILE [--json]`. */
  readonly usage: string;
  /** What it does, in one line. */
  readonly summary: string;
  /** Carries it out. Throws an `InputError` for wrong usage or input. */
  run(words: readonly string[], output: Output): Promise<void>;
};

/** A checked command line: the file that it is about, and its options. */
export type Given = { readonly file: string; readonly marks: string | undefined; readonly json: boolean };

const misuse = (message: string): InputError => new InputError('usage', message, 400);

const OPTIONS = { marks: { type: 'string' }, json: { type: 'boolean', default: false } } as const;

/** Node names the option that it stumbled over between quotes. */
const parse = (words: readonly string[], usage: string) => {
  try {
    return parseArgs({ args: [...words], options: OPTIONS, allowPositionals: true });
  } catch (error) {
    const option = /'(-[^' ]*)/.exec((error as Error).message)?.[1] ?? words.join(' ');
    throw misuse(`The option "${option}" cannot be used so: the command is sward ${usage}.`);
  }
};

/** The words after a command that is about one file. `marked` commands need marks, the others take none. */
export const givenTo = (usage: string, words: readonly string[], marked: boolean): Given => {
  const { values, positionals } = parse(words, usage);
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) {
    throw misuse(`${positionals.length} files were named and one is needed: the command is sward ${usage}.`);
  }
  if (marked === (values.marks === undefined)) {
    const found = marked ? 'No marks were given and they are needed' : 'Marks were given and none are taken';
    throw misuse(`${found}: the command is sward ${usage}.`);
  }
  return { file, marks: values.marks, json: values.json };
};

import { readFile } from 'node:fs/promises';
import { InputError } from '../errors.ts';

const WHY: Readonly<Record<string, string>> = {
  ENOENT: 'was not found',
  EISDIR: 'is a folder',
  EACCES: 'may not be read',
  ENOTDIR: 'was not found',
};

/** The bytes of a file that the user named; `what` says what it is for. Throws an `InputError`. */
export const readNamed = async (path: string, what: string): Promise<Uint8Array> => {
  try {
    return await readFile(path);
  } catch (error) {
    const why = WHY[(error as NodeJS.ErrnoException).code ?? ''];
    if (!why) throw error;
    throw new InputError(
      'file-unreadable',
      `The ${what} "${path}" ${why}: name a file that can be read.`,
      400,
    );
  }
};

/** The text of a file that the user named. Throws an `InputError`. */
export const readNamedText = async (path: string, what: string): Promise<string> =>
  new TextDecoder().decode(await readNamed(path, what));

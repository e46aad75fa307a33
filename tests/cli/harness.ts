import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runCommandLine } from '../../server/cli/run.ts';

/** What a command line did. */
export type Outcome = { readonly code: number; readonly out: string[]; readonly err: string[] };

/** Runs a command line in this process. */
export const sward = async (...words: string[]): Promise<Outcome> => {
  const out: string[] = [];
  const err: string[] = [];
  const code = await runCommandLine(
    words,
    (text) => out.push(text),
    (text) => err.push(text),
  );
  return { code, out, err };
};

/** A folder for a test's files. */
export const openFolder = async () => {
  const folder = await mkdtemp(join(tmpdir(), 'sward-cli-'));
  return {
    /** Writes a file and gives its path; anything but bytes and text is written as JSON. */
    put: async (name: string, content: unknown): Promise<string> => {
      const path = join(folder, name);
      const raw = typeof content === 'string' || content instanceof Uint8Array;
      await writeFile(path, raw ? content : JSON.stringify(content));
      return path;
    },
    path: folder,
    close: () => rm(folder, { recursive: true, force: true }),
  };
};

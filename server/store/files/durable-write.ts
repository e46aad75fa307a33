import { randomUUID } from 'node:crypto';
import { open, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';

/** Ending of files that are being written; whatever bears it after an interruption is rubbish. */
export const UNFINISHED = '.unfinished';

/** Flushes a folder, so that the names in it survive a loss of power. */
export const flushFolder = async (path: string): Promise<void> => {
  const folder = await open(path, 'r');
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
};

/**
 * Writes `bytes` to `path` so that after a crash there is either the whole file or none: into a file beside it, flushed, renamed,
 * and the folder flushed. Resolved when all of it is on the disk.
 */
export const writeDurably = async (path: string, bytes: Uint8Array): Promise<void> => {
  const unfinished = join(dirname(path), `${randomUUID()}${UNFINISHED}`);
  try {
    const file = await open(unfinished, 'wx', 0o600);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(unfinished, path);
  } catch (error) {
    await rm(unfinished, { force: true });
    throw error;
  }
  await flushFolder(dirname(path));
};

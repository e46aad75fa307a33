import { mkdir, readdir, readFile, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { isId } from '../../contract/identifiers.ts';
import { flushFolder, UNFINISHED, writeDurably } from './durable-write.ts';
import type { PhotoFiles } from './photo-files.ts';

const ORIGINAL = 'original';

const readOrNull = async (path: string): Promise<Uint8Array | null> => {
  try {
    return await readFile(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
};

/** Photo files under `root`: one folder a photo, named by its id. `root` is made when there is none. */
export const openDiskFiles = async (root: string): Promise<PhotoFiles> => {
  await mkdir(root, { recursive: true, mode: 0o700 });

  /** An id that is not one would be a path; the caller's mistake, never a client's, who is answered 404 before. */
  const folderOf = (id: string): string => {
    if (!isId(id)) throw new Error(`Expected an id for photo but received "${id}"`);
    return join(root, id);
  };

  const keep = async (id: string, bytes: Uint8Array): Promise<void> => {
    await mkdir(folderOf(id), { mode: 0o700 });
    await writeDurably(join(folderOf(id), ORIGINAL), bytes);
    await flushFolder(root);
  };

  const remove = async (id: string): Promise<void> => {
    await rm(folderOf(id), { recursive: true, force: true });
    await flushFolder(root);
  };

  const derived: PhotoFiles['derived'] = async (id, name, make) => {
    const path = join(folderOf(id), name);
    const before = await readOrNull(path);
    if (before !== null) return before;
    const original = await readOrNull(join(folderOf(id), ORIGINAL));
    if (original === null) return null;
    const made = await make(original);
    // A photo removed meanwhile takes its folder along; what was made is then good for this answer alone.
    await writeDurably(path, made).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'ENOENT') throw error;
    });
    return made;
  };

  const isOlder = async (path: string, instant: Date): Promise<boolean> =>
    (await stat(path)).mtimeMs < instant.getTime();

  const sweepUnfinished = async (id: string, instant: Date): Promise<void> => {
    for (const name of await readdir(join(root, id))) {
      const path = join(root, id, name);
      if (name.endsWith(UNFINISHED) && (await isOlder(path, instant))) await rm(path, { force: true });
    }
  };

  const sweep: PhotoFiles['sweep'] = async (known, instant) => {
    const names = await readdir(root);
    if (names.length > 0 && !names.some((name) => known.has(name))) return -1;
    let removed = 0;
    for (const name of names) {
      if (known.has(name)) await sweepUnfinished(name, instant);
      else if (await isOlder(join(root, name), instant)) {
        await rm(join(root, name), { recursive: true, force: true });
        removed += 1;
      }
    }
    return removed;
  };

  return { keep, original: (id) => readOrNull(join(folderOf(id), ORIGINAL)), derived, remove, sweep };
};

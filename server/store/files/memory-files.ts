import type { PhotoFiles } from './photo-files.ts';

type Folder = {
  readonly keptAt: number;
  readonly original: Uint8Array;
  readonly derived: Map<string, Uint8Array>;
};

/** Photo files in memory. */
export const openMemoryFiles = (): PhotoFiles => {
  const folders = new Map<string, Folder>();
  return {
    keep: async (id, bytes) => {
      if (folders.has(id)) throw new Error(`The files of photo ${id} are kept already`);
      folders.set(id, { keptAt: Date.now(), original: Uint8Array.from(bytes), derived: new Map() });
    },
    original: async (id) => folders.get(id)?.original ?? null,
    derived: async (id, name, make) => {
      const folder = folders.get(id);
      if (folder === undefined) return null;
      const made = folder.derived.get(name) ?? (await make(folder.original));
      folder.derived.set(name, made);
      return made;
    },
    remove: async (id) => {
      folders.delete(id);
    },
    sweep: async (known, instant) => {
      if (folders.size > 0 && ![...folders.keys()].some((id) => known.has(id))) return -1;
      const orphans = [...folders].filter(([id, { keptAt }]) => !known.has(id) && keptAt < instant.getTime());
      for (const [id] of orphans) folders.delete(id);
      return orphans.length;
    },
  };
};

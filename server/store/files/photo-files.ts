/** Names of the pictures that are made from a photo and kept beside it. */
export const DERIVED = ['upright.jpg', 'thumbnail.jpg', 'overhead.jpg'] as const;
/** A picture made from a photo. It can be made again at any time. */
export type DerivedName = (typeof DERIVED)[number] | `overhead-${string}.jpg`;

/** The files of photos. A file's place follows from the photo's own id, never from the name it was uploaded under. */
export interface PhotoFiles {
  /** Keeps `bytes` as the original of photo `id`; resolved only when they are on the disk. */
  keep(id: string, bytes: Uint8Array): Promise<void>;
  /** The original; null when there is none. */
  original(id: string): Promise<Uint8Array | null>;
  /** A picture made from the photo, from where it was kept or made now by `make` and kept. Null when there is no such photo. */
  derived(
    id: string,
    name: DerivedName,
    make: (original: Uint8Array) => Promise<Uint8Array>,
  ): Promise<Uint8Array | null>;
  /** Removes the original and all that was made from it. */
  remove(id: string): Promise<void>;
  /**
   * Removes what belongs to none of the `known` photos and was kept before `instant`: younger files may be waiting for their row. Returns
   * how many photos' files that were. When none at all is known, the folder belongs to another database: nothing is removed, and the
   * answer is −1.
   */
  sweep(known: ReadonlySet<string>, instant: Date): Promise<number>;
}

import type { CourtCheck } from '../contract/court-check.ts';
import type { Marks } from '../contract/marks.ts';
import type { Reading } from '../contract/reading.ts';
import type { Sighting } from '../contract/sight.ts';
import { type PhotoHeader, readHeader } from '../photo/read-header.ts';
import type { JobWatch, Pool } from './pool.ts';

/** The jobs that read a photo, each in a worker thread. Each rejects as `Pool.run` does. */
export const readersIn = (pool: Pool) => ({
  read: (photo: Uint8Array, marks: Marks, watch?: JobWatch): Promise<Reading> =>
    pool.run('read', { photo, marks }, watch),
  sight: (photo: Uint8Array, marks: Marks, watch?: JobWatch): Promise<Sighting> =>
    pool.run('sight', { photo, marks }, watch),
  /** `tolerance` in metres. */
  check: (photo: Uint8Array, marks: Marks, tolerance: number, watch?: JobWatch): Promise<CourtCheck> =>
    pool.run('check', { photo, marks: { ...marks, tolerance } }, watch),
});

/** Photos as the page needs them: the header is read here, every pixel in a worker thread. */
export const photosIn = (pool: Pool) => ({
  facts: (photo: Uint8Array): Promise<PhotoHeader> => readHeader(photo),
  /** The upright picture as a JPEG; decoding every pixel, it finds out a file that is cut off. */
  upright: (photo: Uint8Array): Promise<Uint8Array> => pool.run('upright', { photo }),
  /** A small upright JPEG of at most `side` px a side. */
  thumbnail: (photo: Uint8Array, side: number): Promise<Uint8Array> => pool.run('thumbnail', { photo, side }),
});

import type { PhotoRoom, Readers } from '../http/deps.ts';
import { readHeader } from '../photo/read-header.ts';
import type { Pool } from '../reading/pool.ts';

/** Readings in the worker threads of `pool`. */
export const openReaders = (pool: Pool): Readers => ({
  read: (photo, marks, job) => pool.run('read', { photo, marks }, job),
  sight: (photo, marks, job) => pool.run('sight', { photo, marks }, job),
  check: (photo, marks, job) => pool.run('check', { photo, marks }, job),
  trace: (photo, marks, job) => pool.run('trace', { photo, marks }, job),
  guess: (photo, former, job) => pool.run('guess', { photo, former }, job),
  overhead: (photo, { camera, photo: size, marks }, job) =>
    pool.run('overhead', { photo, reading: { camera, photo: size, marks } }, job),
});

/** Photos opened in the worker threads of `pool`; only headers are read here. */
export const openPhotoRoom = (pool: Pool): PhotoRoom => ({
  facts: readHeader,
  upright: (photo) => pool.run('upright', { photo }),
  thumbnail: (photo, side) => pool.run('thumbnail', { photo, side }),
});

import type { PhotoRecord } from '../../contract/record.ts';

/** A record as clients see it: without the camera's covariances, which serve corrections only. */
export const shown = (record: PhotoRecord): PhotoRecord => {
  if (record.kind === 'check') return record;
  const { pose: _, ...rest } = record;
  return rest;
};

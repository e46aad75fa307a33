import type { Camera } from '../../server/camera/types.ts';
import type { LawnRecord, SightingRecord } from '../../server/contract/record.ts';
import type { Court } from '../../server/lawn/court.ts';
import { ballPictureOf, type PicturedBall } from '../balls/ball-picture.ts';
import type { Size } from '../photo/view.ts';

/** A photo with what was solved of it. */
export type SeenLawn = {
  readonly photoId: string;
  readonly size: Size;
  readonly camera: Camera;
  readonly court: Court;
  readonly line: { readonly axis: 'x' | 'y'; readonly at: number } | null;
  readonly balls: readonly PicturedBall[];
};

/** The photo of a record with what was solved of it; null when its camera was not kept. */
export const seenLawnOf = (record: LawnRecord | SightingRecord): SeenLawn | null => {
  const picture = ballPictureOf(record);
  if (!picture) return null;
  const { size, camera, court, line, balls } = picture;
  return { photoId: record.photoId, size, camera, court, line, balls };
};

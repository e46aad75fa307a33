import readExifTags from 'exif-reader';
import { type Pixels, pixels } from '../units/numbers.ts';

/** What a photo says about how it was taken. */
export type TakenWith = {
  /** Focal length as the equivalent on 35 mm film, mm; `null` when not stated, or when the picture was cropped since. */
  readonly focal35: number | null;
  /** When it was taken: a UTC instant when the photo states its time zone, else the camera's own clock without a zone; `null` when not stated. */
  readonly takenAt: string | null;
};

const UNKNOWN: TakenWith = { focal35: null, takenAt: null };

/** Diagonal of the 36 mm × 24 mm film frame, mm. */
const FILM_DIAGONAL = Math.hypot(36, 24);

/**
 * Focal length in px of a photo of `width` × `height` px from its 35 mm equivalent. The equivalence is by the frame's diagonal, 43.27 mm
 * (CIPA DCG-001), which does not depend on the orientation; some makers compare the long sides instead, which on a 4 : 3 picture
 * is 4 % away. So this is a prior for a solved camera, never a measurement.
 */
export const focalFrom35 = (focal35: number, width: number, height: number): Pixels =>
  pixels((focal35 / FILM_DIAGONAL) * Math.hypot(width, height));

type Tags = ReturnType<typeof readExifTags>;

/** A broken block of tags tells nothing; it does not spoil the picture. */
const tagsOf = (block: Buffer): Tags | null => {
  try {
    return readExifTags(block);
  } catch {
    return null;
  }
};

/** Smallest and largest focal length that a 35 mm equivalent can sensibly state, mm. */
const FOCAL35_RANGE = [5, 2000] as const;

/** Proportions further apart than this (1 %) mean that the picture was cropped after it was taken: its equivalent no longer holds. */
const SAME_SHAPE = 0.01;

const wasCropped = (photo: NonNullable<Tags['Photo']>, width: number, height: number): boolean => {
  const [x, y] = [Number(photo.PixelXDimension), Number(photo.PixelYDimension)];
  if (!(x > 0 && y > 0)) return false;
  const then = Math.max(x, y) / Math.min(x, y);
  const now = Math.max(width, height) / Math.min(width, height);
  return Math.abs(Math.log(then / now)) > SAME_SHAPE;
};

const focal35Of = (tags: Tags, width: number, height: number): number | null => {
  const stated = Number(tags.Photo?.FocalLengthIn35mmFilm);
  if (!tags.Photo || !(stated >= FOCAL35_RANGE[0] && stated <= FOCAL35_RANGE[1])) return null;
  return wasCropped(tags.Photo, width, height) ? null : stated;
};

const takenAtOf = (tags: Tags): string | null => {
  const taken = tags.Photo?.DateTimeOriginal;
  if (!(taken instanceof Date) || Number.isNaN(taken.getTime())) return null;
  // The tag is a clock reading; the reader hands it over as though the clock ran on UTC.
  const clock = taken.toISOString().slice(0, 19);
  const offset = /^[+-]\d\d:\d\d/.exec(String(tags.Photo?.OffsetTimeOriginal ?? ''))?.[0];
  const instant = offset ? new Date(`${clock}${offset}`) : null;
  return instant && !Number.isNaN(instant.getTime()) ? instant.toISOString() : clock;
};

/** Reads a photo's EXIF block (CIPA DC-008). `width` and `height` in px, in either orientation. Nothing is known without a block. */
export const readTakenWith = (block: Buffer | undefined, width: number, height: number): TakenWith => {
  const tags = block ? tagsOf(block) : null;
  return tags ? { focal35: focal35Of(tags, width, height), takenAt: takenAtOf(tags) } : UNKNOWN;
};

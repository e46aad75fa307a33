import type { MarkedPoint } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import type { Court } from '../lawn/court.ts';
import { POINT_NAMES } from '../lawn/named-points.ts';
import { metres, type Pixels, pixels } from '../units/numbers.ts';
import { imagePoint } from '../units/points.ts';

/** The court that the marks describe. */
export const courtOf = (marks: Marks): Court => ({
  width: metres(marks.lawn.width),
  length: metres(marks.lawn.length),
});

/** The marked points in the fixed order of their names, so that the order in a file changes nothing. */
export const markedPoints = (marks: Marks): MarkedPoint[] =>
  POINT_NAMES.flatMap((name) => {
    const pair = marks.points[name];
    return pair ? [{ name, image: imagePoint(pair[0], pair[1]) }] : [];
  });

/** What the photo's own data say about the focal length: `focal` in px, `sd` of its natural logarithm. */
export type FocalPrior = { readonly focal: Pixels; readonly sd: number };

/** Sides of the 35 mm film frame in mm. */
const FILM = { width: 36, diagonal: Math.hypot(36, 24) } as const;

/** Rounding to whole mm and the spread between makers, as a standard deviation of the natural logarithm. */
const MAKER_SPREAD = 0.02;

/**
 * The 35 mm equivalent as a prior on the focal length in px. Two conventions are in use, equal diagonals (CIPA DCG-001) and equal long
 * sides; they differ by 4 % on a 4 : 3 picture. The prior stands halfway between, with half their distance in its width.
 */
export const focalPriorOf = (
  focal35: number | null,
  width: number,
  height: number,
): FocalPrior | undefined => {
  if (focal35 === null || focal35 < 8 || focal35 > 600) return undefined;
  const byDiagonal = (focal35 / FILM.diagonal) * Math.hypot(width, height);
  const bySide = (focal35 / FILM.width) * Math.max(width, height);
  const half = Math.abs(Math.log(byDiagonal / bySide)) / 2;
  return { focal: pixels(Math.sqrt(byDiagonal * bySide)), sd: Math.hypot(half, MAKER_SPREAD) };
};

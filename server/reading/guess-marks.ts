import type { Marks } from '../contract/marks.ts';
import type { Guess } from '../contract/photo.ts';
import { STANDARD_COURT } from '../lawn/court.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import { guessCorners } from '../vision/lines/guess-corners.ts';
import { courtOf, focalPriorOf } from './from-marks.ts';
import type { Progress } from './progress.ts';

const FOUND =
  'These corners were guessed from the white lines. The nearer short side is taken for south: turn them if it is another side.';
const NOT_FOUND = 'No court could be made out from white lines; put the four corners on the photo by hand.';

/**
 * The page's own first guess of the corners from the white lines alone, px; points are null when no four lines qualify. `marks` gives the size of the court
 * where it is not the standard one.
 */
export const guessMarks = (
  photo: UprightPhoto,
  marks: Marks | null,
  progress: Progress = () => {},
): Guess => {
  progress('find', 'Looking for the white lines.');
  const { width, height } = photo.raster;
  const court = marks ? courtOf(marks) : STANDARD_COURT;
  const guess = guessCorners(photo.raster, { court, focalPrior: focalPriorOf(photo.focal35, width, height) });
  if (guess === null) return { points: null, message: NOT_FOUND, followed: false };
  const points = Object.fromEntries(
    Object.entries(guess.points).map(([name, { x, y }]) => [name, [x, y] as [number, number]]),
  );
  return { points, message: FOUND, followed: false };
};

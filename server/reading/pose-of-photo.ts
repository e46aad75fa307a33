import { solveCamera } from '../camera/solve-camera.ts';
import type { MarkedPoint, SolvedCamera } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import { InputError } from '../errors.ts';
import type { Court } from '../lawn/court.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import type { PhotoHeader } from '../photo/read-header.ts';
import { pixels } from '../units/numbers.ts';
import type { Raster } from '../units/raster.ts';
import { traceAndRefine } from '../vision/lines/trace-and-refine.ts';
import type { TracedSide } from '../vision/types.ts';
import { courtOf, focalPriorOf, markedPoints } from './from-marks.ts';
import type { Progress } from './progress.ts';

/** Where a photo was taken from as its marks tell it, with what else is known to refine that. */
export type MarkedPose = {
  readonly court: Court;
  readonly points: readonly MarkedPoint[];
  readonly focalPrior: ReturnType<typeof focalPriorOf>;
  readonly unevenness: number;
  readonly start: SolvedCamera;
};

/** Where a photo was taken from, and what of the boundary was followed to know it. */
export type PhotoPose = {
  readonly court: Court;
  readonly points: readonly MarkedPoint[];
  readonly solved: SolvedCamera;
  readonly sides: readonly TracedSide[];
};

/** Solves the camera from the marks alone, which needs no pixel. Throws `InputError` with the camera's fault when they cannot be used. */
export const markedPose = (
  { width, height, focal35 }: Pick<PhotoHeader, 'width' | 'height' | 'focal35'>,
  marks: Marks,
  progress: Progress,
): MarkedPose => {
  progress('solve', 'Working out where the picture was taken from.');
  const court = courtOf(marks);
  const points = markedPoints(marks);
  const focalPrior = focalPriorOf(focal35, width, height);
  const { unevenness } = marks.lawn;
  const known = { points, court, focalPrior, unevenness };
  const start = solveCamera({ ...known, width: pixels(width), height: pixels(height) });
  if (!start.ok) throw new InputError(start.error.code, start.error.message);
  return { ...known, start: start.value };
};

/** Refines the camera of the marks on the traced boundary lines. */
export const refinedPose = (raster: Raster, marked: MarkedPose, progress: Progress): PhotoPose => {
  progress('trace', 'Following the four boundary lines.');
  const { court, points, start } = marked;
  return { court, points, ...traceAndRefine(raster, start, marked) };
};

/** `markedPose`, refined. */
export const poseOf = ({ raster, focal35 }: UprightPhoto, marks: Marks, progress: Progress): PhotoPose => {
  const { width, height } = raster;
  return refinedPose(raster, markedPose({ width, height, focal35 }, marks, progress), progress);
};

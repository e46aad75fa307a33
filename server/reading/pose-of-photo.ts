import { solveCamera } from '../camera/solve-camera.ts';
import type { Camera, MarkedPoint, SolvedCamera } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import { InputError } from '../errors.ts';
import type { Court } from '../lawn/court.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import { pixels } from '../units/numbers.ts';
import { traceAndRefine } from '../vision/lines/trace-and-refine.ts';
import type { TracedSide } from '../vision/types.ts';
import { courtOf, focalPriorOf, markedPoints } from './from-marks.ts';
import type { Progress } from './progress.ts';

/** Where a photo was taken from, and what of the boundary was followed to know it. */
export type PhotoPose = {
  readonly court: Court;
  readonly points: readonly MarkedPoint[];
  readonly solved: SolvedCamera;
  readonly sides: readonly TracedSide[];
};

/**
 * Solves the camera from the marks and refines it on the traced boundary lines. Throws `InputError` with the camera's fault when the marks
 * cannot be used. `begun` hears of the first camera before the lines are traced, so that other work can go on beside.
 */
export const poseOf = (
  photo: UprightPhoto,
  marks: Marks,
  progress: Progress,
  begun: (start: Camera, court: Court) => void = () => {},
): PhotoPose => {
  const { raster } = photo;
  const court = courtOf(marks);
  const points = markedPoints(marks);
  const focalPrior = focalPriorOf(photo.focal35, raster.width, raster.height);
  const known = { points, court, focalPrior, unevenness: marks.lawn.unevenness };
  progress('solve', 'Working out where the picture was taken from.');
  const start = solveCamera({ ...known, width: pixels(raster.width), height: pixels(raster.height) });
  if (!start.ok) throw new InputError(start.error.code, start.error.message);
  begun(start.value.camera, court);
  progress('trace', 'Following the four boundary lines.');
  return { court, points, ...traceAndRefine(raster, start.value, known) };
};

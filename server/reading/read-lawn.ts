import type { Marks } from '../contract/marks.ts';
import type { Reading } from '../contract/reading.ts';
import type { ComingPhoto, UprightPhoto } from '../photo/open-photo.ts';
import type { Raster } from '../units/raster.ts';
import { findBalls } from '../vision/balls/find-balls.ts';
import { callBalls } from './call-balls.ts';
import { describeCamera } from './describe-camera.ts';
import { type LookAhead, type Looking, lookHere } from './look-ahead.ts';
import { placeBall } from './place-ball.ts';
import { type MarkedPose, markedPose, refinedPose } from './pose-of-photo.ts';
import { describePose } from './pose-record.ts';
import type { Progress } from './progress.ts';
import { readingWarnings } from './reading-warnings.ts';
import { suggestSettlements } from './settle.ts';

/** Reads the balls of a lawn-wide photo of which the camera is known from the marks. */
const readFrom = (
  raster: Raster,
  marks: Marks,
  marked: MarkedPose,
  progress: Progress,
  looking: Looking,
): Reading => {
  const { width, height } = raster;
  const pose = refinedPose(raster, marked, progress);
  const { court, points, solved, sides } = pose;
  progress('find', 'Looking for the balls.');
  const sightings = findBalls(raster, solved.camera, court, {
    colours: marks.balls,
    look: looking.end(),
    share: looking.share,
  });
  progress('locate', 'Placing the balls on the lawn.');
  const balls = sightings.flatMap((seen) => placeBall(pose, marks, seen, 'found'));
  const missing = marks.balls.filter((colour) => !balls.some((ball) => ball.colour === colour));
  const call = callBalls(balls, court, marks);
  return {
    photo: { width, height },
    camera: describeCamera(solved, sides, points, court),
    balls,
    missing,
    ...(call && { call: suggestSettlements(call, pose, balls, marks) }),
    warnings: readingWarnings(marks, solved, sides, balls, missing),
    pose: describePose(solved),
  };
};

/**
 * Reads a lawn-wide photo: solves the camera from the marks, refines it on the boundary lines, finds the balls, places them on the lawn
 * and, when a point was scored, calls each against the halfway line. What may be a ball is looked for with the camera from the marks, by `lookAhead`: that can
 * be another thread while this one traces.
 *
 * Positions in metres (lawn frame) and px (upright photo). Throws `InputError` with the camera's fault when the marks cannot be used.
 */
export const readLawn = (
  { raster, focal35 }: UprightPhoto,
  marks: Marks,
  progress: Progress = () => {},
  lookAhead: LookAhead = lookHere,
): Reading => {
  const { width, height } = raster;
  const marked = markedPose({ width, height, focal35 }, marks, progress);
  const looking = lookAhead(raster, marked.start.camera, marked.court);
  return readFrom(raster, marks, marked, progress, looking);
};

/**
 * `readLawn` of a photo that is still being decoded: the camera is solved from the marks meanwhile, which needs the header alone, and the look ahead begins on the part that comes first. A fault of
 * the photo comes before one of the marks.
 */
export const readComing = async (
  { header, upper, photo }: ComingPhoto,
  marks: Marks,
  progress: Progress = () => {},
  lookAhead: LookAhead = lookHere,
): Promise<Reading> => {
  let marked: MarkedPose;
  try {
    marked = markedPose(header, marks, progress);
  } catch (fault) {
    await photo;
    throw fault;
  }
  const { camera } = marked.start;
  const part = await upper;
  const begun = part && lookAhead(part.raster, camera, marked.court, part.rows);
  let raster: Raster;
  try {
    ({ raster } = await photo);
  } catch (fault) {
    begun?.giveUp();
    throw fault;
  }
  begun?.complete();
  return readFrom(raster, marks, marked, progress, begun ?? lookAhead(raster, camera, marked.court));
};

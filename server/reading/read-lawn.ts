import type { Marks } from '../contract/marks.ts';
import type { Reading } from '../contract/reading.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import { findBalls } from '../vision/balls/find-balls.ts';
import type { FirstLook } from '../vision/balls/first-look.ts';
import { callBalls } from './call-balls.ts';
import { describeCamera } from './describe-camera.ts';
import { type LookAhead, lookHere } from './look-ahead.ts';
import { placeBall } from './place-ball.ts';
import { poseOf } from './pose-of-photo.ts';
import { describePose } from './pose-record.ts';
import type { Progress } from './progress.ts';
import { readingWarnings } from './reading-warnings.ts';
import { suggestSettlements } from './settle.ts';

/**
 * Reads a lawn-wide photo: solves the camera from the marks, refines it on the boundary lines, finds the balls, places them on the lawn
 * and, when a point was scored, calls each against the halfway line. What may be a ball is looked for with the camera from the marks, by `lookAhead`: that can
 * be another thread while this one traces.
 *
 * Positions in metres (lawn frame) and px (upright photo). Throws `InputError` with the camera's fault when the marks cannot be used.
 */
export const readLawn = (
  photo: UprightPhoto,
  marks: Marks,
  progress: Progress = () => {},
  lookAhead: LookAhead = lookHere,
): Reading => {
  const { raster } = photo;
  const { width, height } = raster;
  let look = (): FirstLook | null => null;
  const pose = poseOf(photo, marks, progress, (start, court) => {
    look = lookAhead(raster, start, court);
  });
  const { court, points, solved, sides } = pose;
  progress('find', 'Looking for the balls.');
  const sightings = findBalls(raster, solved.camera, court, { colours: marks.balls, look: look() });
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

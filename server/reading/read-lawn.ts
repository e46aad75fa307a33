import { positionBound } from '../camera/bound.ts';
import { locateBall } from '../camera/locate-ball.ts';
import { solveCamera } from '../camera/solve-camera.ts';
import type { MarkedPoint, SolvedCamera } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import type { FoundBall, Reading } from '../contract/reading.ts';
import { InputError } from '../errors.ts';
import type { Court } from '../lawn/court.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import { metres, pixels } from '../units/numbers.ts';
import { lawnPoint } from '../units/points.ts';
import { findBalls } from '../vision/balls/find-balls.ts';
import { traceAndRefine } from '../vision/lines/trace-and-refine.ts';
import type { BallSighting, TracedSide } from '../vision/types.ts';
import { callBalls } from './call-balls.ts';
import { describeCamera } from './describe-camera.ts';
import { courtOf, type FocalPrior, focalPriorOf, markedPoints } from './from-marks.ts';
import { describePose } from './pose-record.ts';
import { readingWarnings } from './reading-warnings.ts';
import { suggestSettlements } from './settle.ts';

/** What a reading is doing, for whoever waits. */
export type ReadingStep = 'solve' | 'trace' | 'find' | 'locate';
/** Told at the start of each step, with a sentence for people. */
export type Progress = (step: ReadingStep, message: string) => void;

/** All that the steps of one reading share. */
type Job = {
  readonly photo: UprightPhoto;
  readonly marks: Marks;
  readonly court: Court;
  readonly points: readonly MarkedPoint[];
  readonly focalPrior: FocalPrior | undefined;
};

const startCamera = ({ photo, court, points, focalPrior }: Job): SolvedCamera => {
  const solved = solveCamera({
    points,
    court,
    width: pixels(photo.raster.width),
    height: pixels(photo.raster.height),
    ...(focalPrior && { focalPrior }),
  });
  if (!solved.ok) throw new InputError(solved.error.code, solved.error.message);
  return solved.value;
};

const trace = (job: Job, start: SolvedCamera) =>
  traceAndRefine(job.photo.raster, start, {
    points: job.points,
    court: job.court,
    ...(job.focalPrior && { focalPrior: job.focalPrior }),
  });

const place = (
  job: Job,
  solved: SolvedCamera,
  sides: readonly TracedSide[],
  seen: BallSighting,
): FoundBall[] => {
  const unevenness = metres(job.marks.lawn.unevenness);
  const located = locateBall(solved, seen.image, seen.covariance, { unevenness });
  if (located === null) return [];
  const { point, covariance } = located;
  const sdX = Math.sqrt(covariance.xx);
  const sdY = Math.sqrt(covariance.yy);
  const bound = positionBound(solved.camera, {
    points: job.points,
    court: job.court,
    ball: lawnPoint(point.x, point.y),
    unevenness,
  });
  return [
    {
      colour: seen.colour,
      x: point.x,
      y: point.y,
      sdX,
      sdY,
      correlation: covariance.xy / (sdX * sdY),
      image: [seen.image.x, seen.image.y],
      confidence: seen.confidence,
      visible: seen.visible,
      origin: 'found',
      budget: Object.fromEntries(
        Object.entries(located.budget).map(([source, part]) => [
          source,
          { sdX: Math.sqrt(Math.max(0, part.xx)), sdY: Math.sqrt(Math.max(0, part.yy)) },
        ]),
      ) as FoundBall['budget'],
      bound: { sdX: bound.sdX, sdY: bound.sdY },
    },
  ];
};

/**
 * Reads a lawn-wide photo: solves the camera from the marks, refines it on the boundary lines, finds the balls, places them on the lawn
 * and, when a point was scored, calls each against the halfway line.
 *
 * Positions in metres (lawn frame) and px (upright photo). Throws `InputError` with the camera's fault when the marks cannot be used.
 */
export const readLawn = (photo: UprightPhoto, marks: Marks, progress: Progress = () => {}): Reading => {
  const court = courtOf(marks);
  const { width, height } = photo.raster;
  const job: Job = {
    photo,
    marks,
    court,
    points: markedPoints(marks),
    focalPrior: focalPriorOf(photo.focal35, width, height),
  };
  progress('solve', 'Working out where the picture was taken from.');
  const start = startCamera(job);
  progress('trace', 'Following the four boundary lines.');
  const { solved, sides } = trace(job, start);
  progress('find', 'Looking for the balls.');
  const sightings = findBalls(photo.raster, solved.camera, court, { colours: marks.balls });
  progress('locate', 'Placing the balls on the lawn.');
  const balls = sightings.flatMap((seen) => place(job, solved, sides, seen));
  const missing = marks.balls.filter((colour) => !balls.some((ball) => ball.colour === colour));
  const call = callBalls(balls, court, marks);
  return {
    photo: { width, height },
    camera: describeCamera(solved, sides, job.points, court),
    balls,
    missing,
    ...(call && {
      call: suggestSettlements(call, { solved, sides, balls, marks, court, points: job.points }),
    }),
    warnings: readingWarnings(marks, solved, sides, balls, missing),
    pose: describePose(solved),
  };
};

import { projectPoint } from '../camera/camera-model.ts';
import type { Marks } from '../contract/marks.ts';
import type { FoundBall, Reading } from '../contract/reading.ts';
import type { BallCorrection, Corrections } from '../contract/record.ts';
import { InputError } from '../errors.ts';
import { BALL_RADIUS } from '../lawn/ball.ts';
import type { BallColour } from '../lawn/colours.ts';
import { SIDES } from '../lawn/court.ts';
import { type ImagePoint, imagePoint, lawnPoint3 } from '../units/points.ts';
import type { TracedSide } from '../vision/types.ts';
import { callBalls } from './call-balls.ts';
import { courtOf, markedPoints } from './from-marks.ts';
import { placeBall } from './place-ball.ts';
import type { PhotoPose } from './pose-of-photo.ts';
import { solvedFromReading } from './pose-record.ts';
import { readingWarnings } from './reading-warnings.ts';
import { suggestSettlements } from './settle.ts';

/** A ball's centre put on the photo by hand, with a magnifier, px (one standard deviation). */
export const PLACED_SD = 1.5;

/** A kept reading with the marks it was read with. */
export type KeptReading = Reading & { readonly marks: Marks };

const poseOfRecord = (record: KeptReading): PhotoPose => {
  const solved = solvedFromReading(record);
  if (solved === null)
    throw new InputError(
      'pose-missing',
      'This reading holds no camera to place balls with; read the photo again, then correct the balls.',
    );
  const sides: TracedSide[] = SIDES.map((side) => ({
    side,
    samples: [],
    share: record.camera.traced[side],
    paintWidth: null,
  }));
  return { court: courtOf(record.marks), points: markedPoints(record.marks), solved, sides };
};

const placeByHand = (pose: PhotoPose, marks: Marks, colour: BallColour, image: ImagePoint): FoundBall => {
  const covariance = { xx: PLACED_SD ** 2, xy: 0, yy: PLACED_SD ** 2 };
  const [ball] = placeBall(pose, marks, { colour, image, covariance, confidence: 1, visible: 1 }, 'placed');
  if (ball === undefined)
    throw new InputError(
      'above-horizon',
      `The ${colour} ball was put above the horizon of the picture, where there is no lawn; put it on the grass.`,
    );
  return ball;
};

/** Where the photo shows the centre of a ball that lies at (x, y) metres. */
const seenAt = (pose: PhotoPose, colour: BallColour, x: number, y: number): ImagePoint => {
  const image = projectPoint(pose.solved.camera, lawnPoint3(x, y, BALL_RADIUS));
  if (image !== null) return image;
  throw new InputError(
    'not-in-view',
    `The ${colour} ball was put behind the camera; put it on the part of the lawn that the picture shows.`,
  );
};

const newPlace = (pose: PhotoPose, correction: BallCorrection): ImagePoint | null => {
  const pair = correction.place ?? correction.image;
  if (pair) return imagePoint(...pair);
  const { colour, x, y } = correction;
  return x === undefined || y === undefined ? null : seenAt(pose, colour, x, y);
};

/** Gives a ball another colour. When another ball has it, the two change colours. */
const recolour = (balls: readonly FoundBall[], from: BallColour, to: BallColour): FoundBall[] =>
  balls.map((ball) => {
    if (ball.colour === from) return { ...ball, colour: to, confidence: 1 };
    return ball.colour === to ? { ...ball, colour: from, confidence: 1 } : ball;
  });

const correctBall = (
  pose: PhotoPose,
  marks: Marks,
  balls: readonly FoundBall[],
  correction: BallCorrection,
): FoundBall[] => {
  const { colour, remove, recolour: to } = correction;
  const image = newPlace(pose, correction);
  const known = balls.some((ball) => ball.colour === colour);
  if (!known && image === null)
    throw new InputError(
      'no-such-ball',
      `There is no ${colour} ball in this reading; give its place in the photo to add it.`,
    );
  if (remove) return balls.filter((ball) => ball.colour !== colour);
  const moved = image
    ? [...balls.filter((ball) => ball.colour !== colour), placeByHand(pose, marks, colour, image)]
    : [...balls];
  return to === undefined || to === colour ? moved : recolour(moved, colour, to);
};

/** The marks of a record with its question corrected. */
export const correctedMarks = (marks: Marks, corrections: Corrections): Marks => {
  const { hoopScored, certainty, inPlay } = corrections;
  const { hoopScored: before, ...rest } = marks;
  const scored = hoopScored === undefined ? before : (hoopScored ?? undefined);
  return {
    ...rest,
    ...(scored !== undefined && { hoopScored: scored }),
    ...(certainty !== undefined && { certainty }),
    ...(inPlay && { balls: inPlay }),
  };
};

/**
 * A kept reading with corrections of its balls, the point scored, the certainty or the balls in play: places, call and warnings are
 * worked out again from the kept camera, without the photo. A ball put by hand gets a hand's uncertainty; a confirmed or changed colour
 * counts as certain. Throws `InputError` when a correction names a ball that is not there or a place off the lawn's view.
 */
export const reEvaluate = <T extends KeptReading>(record: T, corrections: Corrections): T => {
  const pose = poseOfRecord(record);
  const marks = correctedMarks(record.marks, corrections);
  const corrected = (corrections.balls ?? []).reduce<readonly FoundBall[]>(
    (balls, correction) => correctBall(pose, marks, balls, correction),
    record.balls,
  );
  const asked = new Set<BallColour>([...marks.balls, ...(corrections.balls ?? []).map(addedColour)]);
  const balls = corrected.filter(({ colour }) => asked.has(colour));
  const missing = marks.balls.filter((colour) => !balls.some((ball) => ball.colour === colour));
  const call = callBalls(balls, pose.court, marks);
  const { call: _, ...rest } = record;
  return {
    ...rest,
    marks,
    balls,
    missing,
    ...(call && { call: suggestSettlements(call, pose, balls, marks) }),
    warnings: readingWarnings(marks, pose.solved, pose.sides, balls, missing),
  } as unknown as T;
};

const addedColour = ({ colour, recolour: to }: BallCorrection): BallColour => to ?? colour;

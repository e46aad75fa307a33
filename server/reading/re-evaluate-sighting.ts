import { projectPoint } from '../camera/camera-model.ts';
import type { SolvedCamera } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import type { BallCorrection, Corrections } from '../contract/record.ts';
import type { Sighting } from '../contract/sight.ts';
import { InputError } from '../errors.ts';
import { BALL_RADIUS } from '../lawn/ball.ts';
import type { BallColour } from '../lawn/colours.ts';
import { type HalfwayLine, halfwayLine } from '../lawn/halfway-lines.ts';
import { metres } from '../units/numbers.ts';
import { type ImagePoint, imagePoint, lawnPoint3 } from '../units/points.ts';
import { courtOf } from './from-marks.ts';
import { lineEnds, scoredPoint } from './line-ends.ts';
import { placeInSighting, type SightedBall, seenAgain } from './place-in-sighting.ts';
import { solvedFromReading } from './pose-record.ts';
import { correctedMarks, PLACED_SD } from './re-evaluate.ts';
import { type ChosenBall, tapped } from './sight-choice.ts';
import { bluntWarnings } from './sighting-warnings.ts';

/** A kept sighting with the marks it was read with. */
export type KeptSighting = Sighting & { readonly marks: Marks };

const poseOfRecord = (record: KeptSighting): SolvedCamera => {
  const solved = solvedFromReading(record);
  if (solved) return solved;
  throw new InputError(
    'pose-missing',
    'This sighting holds no camera to place balls with; read the photo again, then correct the balls.',
  );
};

/** The line after the point scored: another point may be named when its line has the same two ends, since those are what was marked. */
const lineOf = (record: KeptSighting, marks: Marks): HalfwayLine => {
  const scored = scoredPoint(marks);
  const line = halfwayLine(courtOf(marks), scored);
  if (line.axis === record.line.axis && Math.abs(line.at - record.line.at) < 1e-6) return line;
  const ends = lineEnds(line, scored).map((name) => name.slice('marker'.length));
  throw new InputError(
    'other-line',
    `The line after hoop ${scored} runs from ${ends.join(' to ')}, and the picture was taken along another one; take a picture along that line.`,
  );
};

const byHand = (colour: BallColour, image: ImagePoint): ChosenBall => ({
  colour,
  image,
  covariance: { xx: PLACED_SD ** 2, xy: 0, yy: PLACED_SD ** 2 },
  confidence: 1,
  visible: 1,
  origin: 'placed',
});

const newPlace = (solved: SolvedCamera, { colour, ...to }: BallCorrection): ImagePoint | null => {
  const pair = to.place ?? to.image;
  if (pair) return imagePoint(...pair);
  if (to.x === undefined || to.y === undefined) return null;
  const image = projectPoint(solved.camera, lawnPoint3(to.x, to.y, BALL_RADIUS));
  if (image) return image;
  throw new InputError(
    'not-in-view',
    `The ${colour} ball was put behind the phone; put it on the part of the lawn that the picture shows.`,
  );
};

/** Gives a ball another colour; the one that had it takes the former. */
const recolour = (balls: readonly KeptBall[], from: BallColour, to: BallColour): KeptBall[] =>
  balls.map((ball) => {
    if (ball.colour === from) return { ...ball, colour: to, confidence: 1 };
    return ball.colour === to ? { ...ball, colour: from, confidence: 1 } : ball;
  });

const correctBall = (
  solved: SolvedCamera,
  balls: readonly KeptBall[],
  correction: BallCorrection,
): KeptBall[] => {
  const { colour, remove, recolour: to } = correction;
  const image = newPlace(solved, correction);
  if (!image && !balls.some((ball) => ball.colour === colour))
    throw new InputError(
      'no-such-ball',
      `There is no ${colour} ball in this sighting; give its place in the photo to add it.`,
    );
  const others = balls.filter((ball) => ball.colour !== colour);
  if (remove) return others;
  const moved = image ? [...others, byHand(colour, image)] : [...balls];
  return to === undefined ? moved : recolour(moved, colour, to);
};

/** A ball of the record, with the part of its budget that the kept camera no longer tells. */
type KeptBall = ChosenBall & { readonly known?: SightedBall['known'] };

const keptBalls = (record: KeptSighting): KeptBall[] =>
  record.balls.flatMap((ball) => {
    const seen = seenAgain(ball);
    return seen ? [{ ...seen, origin: ball.origin, known: ball.known }] : [];
  });

const place = (solved: SolvedCamera, line: HalfwayLine, marks: Marks, ball: KeptBall): SightedBall => {
  const [placed] = placeInSighting(solved, line, marks, ball, ball.origin ?? 'found');
  if (placed) return ball.known ? { ...placed, known: ball.known } : placed;
  throw new InputError(
    'above-horizon',
    `The ${ball.colour} ball was put above the horizon of the picture, where there is no lawn; put it on the grass.`,
  );
};

const withTap = (marks: Marks, { tap }: Corrections): Marks => {
  if (tap === undefined) return marks;
  const { tap: _, ...rest } = marks;
  return tap === null ? rest : { ...rest, tap };
};

/**
 * A kept sighting with corrections: balls put elsewhere, added, recoloured or taken away, the ball that was tapped, the certainty, the balls in play, and another
 * point scored along the same line. Places, calls and advice are worked out again from the kept camera, without the photo. A ball put by hand gets a hand's
 * uncertainty. Throws `InputError` when a correction names a ball that is not there, a place off the lawn's view or another line.
 */
export const reEvaluateSighting = <T extends KeptSighting>(record: T, corrections: Corrections): T => {
  const solved = poseOfRecord(record);
  const marks = withTap(correctedMarks(record.marks, corrections), corrections);
  const line = lineOf(record, marks);
  const changes = corrections.balls ?? [];
  const corrected = changes.reduce((balls, change) => correctBall(solved, balls, change), keptBalls(record));
  const asked = new Set([...marks.balls, ...changes.map(({ colour, recolour: to }) => to ?? colour)]);
  const chosen = corrections.tap ? tapped(corrected, corrections.tap, marks.balls) : corrected;
  const balls = chosen
    .filter(({ colour }) => asked.has(colour))
    .map((ball) => place(solved, { ...line, at: metres(line.at) }, marks, ball));
  return {
    ...record,
    marks,
    line,
    balls,
    missing: marks.balls.filter((colour) => !balls.some((ball) => ball.colour === colour)),
    warnings: [...record.warnings.filter(({ code }) => code !== 'sighting-blunt'), ...bluntWarnings(balls)],
  };
};

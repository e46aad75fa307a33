import { type Combined, combineViews, type View } from '../camera/combine-views.ts';
import { agreementOf, type Disagreement, explainMisfit } from '../camera/explain-misfit.ts';
import { GRASS_SD } from '../camera/locate-ball.ts';
import type { Combination, CombinedBall } from '../contract/combine.ts';
import type { Marks } from '../contract/marks.ts';
import type { Call, Reading } from '../contract/reading.ts';
import type { Sighting } from '../contract/sight.ts';
import { InputError } from '../errors.ts';
import { BALL_COLOURS, type BallColour } from '../lawn/colours.ts';
import { callBalls } from './call-balls.ts';
import { combineWarnings } from './combine-warnings.ts';
import { courtOf } from './from-marks.ts';
import { statedSd } from './place-ball.ts';
import { type Shown, showView } from './show-view.ts';

/** One picture's answer with the marks it was read with; `name` is what warnings call it. */
export type PictureAnswer = { readonly name: string; readonly reading?: string; readonly marks: Marks } & (
  | { readonly kind: 'lawn'; readonly answer: Reading }
  | { readonly kind: 'sighting'; readonly answer: Sighting }
);

const SAME_LAWN = 0.001;

/** The marks that hold for all pictures: size of the lawn, certainty, balls asked for, and the point scored. */
const commonMarks = (pictures: readonly PictureAnswer[], scored: number | null | undefined): Marks => {
  const [first, ...others] = pictures.map(({ marks }) => marks) as [Marks, ...Marks[]];
  for (const { lawn } of others)
    if (
      Math.max(Math.abs(lawn.width - first.lawn.width), Math.abs(lawn.length - first.lawn.length)) > SAME_LAWN
    )
      throw new InputError(
        'lawns-differ',
        `The pictures show lawns of different size, ${first.lawn.width} m × ${first.lawn.length} m and ${lawn.width} m × ${lawn.length} m; combine pictures of one lawn.`,
      );
  const { hoopScored: _, ...rest } = first;
  const hoopScored = scored === undefined ? agreedPoint(pictures) : (scored ?? undefined);
  return {
    ...rest,
    ...(hoopScored !== undefined && { hoopScored }),
    balls: BALL_COLOURS.filter((colour) => pictures.some(({ marks }) => marks.balls.includes(colour))),
    certainty: Math.max(...pictures.map(({ marks }) => marks.certainty)),
  };
};

const agreedPoint = (pictures: readonly PictureAnswer[]): number | undefined => {
  const points = [...new Set(pictures.flatMap(({ marks: { hoopScored } }) => hoopScored ?? []))];
  if (points.length > 1)
    throw new InputError(
      'points-differ',
      `The pictures were read for hoops ${points.join(' and ')}; say which of them was just scored.`,
    );
  return points[0];
};

/** Standard deviation of a ball's height, metres: what a traced lawn showed of its own unevenness, else what its owner says, and the grass. */
const heightSdOf = (pictures: readonly PictureAnswer[], shown: readonly Shown[]): number => {
  const learned = shown.flatMap(({ view: { solved } }, i) =>
    pictures[i]!.kind === 'lawn' && solved.unevenness !== undefined ? [solved.unevenness] : [],
  );
  const stated = pictures.map(({ marks }) => marks.lawn.unevenness);
  return Math.hypot(Math.min(...(learned.length ? learned : stated)), GRASS_SD);
};

const isOdd = (disagreement: Disagreement | null, colour: BallColour): boolean =>
  disagreement !== null &&
  (disagreement.kind === 'view' || disagreement.balls.some((ball) => ball.colour === colour));

const placed = (
  combined: Combined,
  shown: readonly Shown[],
  disagreement: Disagreement | null,
): CombinedBall[] =>
  combined.balls.map(({ colour, point, covariance }) => {
    const seen = shown.flatMap(({ balls }, picture) =>
      balls.flatMap((ball) => (ball.colour === colour ? [{ picture, ...ball }] : [])),
    );
    return {
      colour,
      x: point.x,
      y: point.y,
      ...statedSd(covariance),
      confidence: Math.max(...seen.map(({ confidence }) => confidence)),
      visible: Math.max(...seen.map(({ visible }) => visible)),
      seen: seen.map(({ picture, image }) => ({ picture, image })),
      fits: !isOdd(disagreement, colour),
    };
  });

/** A ball of which it is not sure where it lay is not called. */
const callFitting = (balls: readonly CombinedBall[], marks: Marks): Call | undefined => {
  const found = balls.map((ball) => ({ ...ball, image: ball.seen[0]!.image }));
  const call = callBalls(found, courtOf(marks), marks);
  return (
    call && {
      ...call,
      balls: call.balls.map((one, i) => (balls[i]!.fits ? one : { ...one, lies: 'tooClose' as const })),
    }
  );
};

/**
 * One answer from two or more pictures of balls that have not moved: balls and cameras by weighted least squares, each camera held to what its own
 * picture says of it. Positions in metres. A ball seen in one picture alone is placed from that one. When the pictures contradict each other beyond
 * chance, a warning names ball and picture (or the mark that fits worst) and the ball gets no firm call. `scored` overrides the point that the pictures
 * were read for, null asks for no call. Throws `InputError` when fewer than two pictures are given, when one holds no camera, or when lawns or points
 * differ.
 */
export const combineReadings = (pictures: readonly PictureAnswer[], scored?: number | null): Combination => {
  if (pictures.length < 2)
    throw new InputError(
      'pictures-missing',
      `Found ${pictures.length} picture and two or more are needed; choose another picture of the same position.`,
    );
  const marks = commonMarks(pictures, scored);
  const shown = pictures.map(showView);
  const heightSd = heightSdOf(pictures, shown);
  const views = shown.map(({ view }): View => view);
  const combined = combineViews(views, heightSd);
  const disagreement = explainMisfit(views, heightSd);
  const balls = placed(combined, shown, disagreement);
  const call = callFitting(balls, marks);
  return {
    pictures: pictures.map(({ name, kind, reading }) => ({ name, kind, ...(reading && { reading }) })),
    certainty: marks.certainty,
    balls,
    missing: marks.balls.filter((colour) => !balls.some((ball) => ball.colour === colour)),
    ...(call && { call }),
    misfits: combined.misfits.map(({ view, colour, px, deviations }) => ({
      picture: view,
      colour,
      px,
      deviations,
      fits: !isOdd(disagreement, colour),
    })),
    agreement: {
      chiSquare: combined.chiSquare,
      degrees: combined.degrees,
      probability: agreementOf(combined),
    },
    warnings: combineWarnings(pictures, views, combined, disagreement),
  };
};

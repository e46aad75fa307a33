import { BALL_RADIUS } from '../lawn/ball.ts';
import type { HalfwayLine } from '../lawn/halfway-lines.ts';
import { type Metres, metres } from '../units/numbers.ts';
import type { Covariance2, LawnPoint } from '../units/points.ts';
import { normalCdf } from '../units/statistics.ts';

/** Where a ball lies: all of it past the line, not all of it past the line, or undecided at the certainty asked for. */
export const LIES = ['beyond', 'short', 'tooClose'] as const;
/** Where a ball lies with respect to a halfway line. */
export type Lies = (typeof LIES)[number];

/** A ball's centre projected on the ground, with the covariance of its two coordinates (m²). */
export type PlacedBall = { readonly point: LawnPoint; readonly covariance: Covariance2 };

/**
 * The call on one ball. `beyond`: metres by which the ball's nearest point is past the line towards the next hoop, negative when it is
 * not; `sd`: its standard deviation, metres; `probability`: that all of the ball is past the line.
 */
export type BallCall = {
  readonly beyond: Metres;
  readonly sd: Metres;
  readonly probability: number;
  readonly lies: Lies;
};

/** How far the nearest point of a ball with its centre at `point` is past `line` towards the next hoop; positive: all of it is across. */
export const beyondLine = (point: LawnPoint, line: HalfwayLine): Metres =>
  metres(line.nextHoopSide * (point[line.axis] - line.at) - BALL_RADIUS);

/** Probability that a normal variable with this mean and standard deviation is positive. Without spread a ball that just touches the line is not across. */
export const probabilityPositive = (mean: number, sd: number): number => {
  if (sd > 0) return normalCdf(mean / sd);
  return mean > 0 ? 1 : 0;
};

/** `beyond` from probability ≥ `certainty`, `short` from probability ≤ 1 − `certainty`, bounds included; in between too close. */
export const liesAt = (probability: number, certainty: number): Lies => {
  if (probability >= certainty) return 'beyond';
  return probability <= 1 - certainty ? 'short' : 'tooClose';
};

/**
 * Whether all of `ball` is past `line`, at `certainty` (0.5 ≤ certainty < 1). Only the covariance along the line's axis matters. Across
 * means all of the ball: its nearest point decides, not its centre (common practice, no source). A coordinate that is not a number is
 * too close.
 */
export const callBall = (ball: PlacedBall, line: HalfwayLine, certainty: number): BallCall => {
  const beyond = beyondLine(ball.point, line);
  const variance = line.axis === 'x' ? ball.covariance.xx : ball.covariance.yy;
  const sd = metres(Math.sqrt(Math.max(0, variance)));
  const known = Number.isFinite(beyond) && Number.isFinite(variance);
  const probability = known ? probabilityPositive(beyond, sd) : 0.5;
  return { beyond, sd, probability, lies: known ? liesAt(probability, certainty) : 'tooClose' };
};

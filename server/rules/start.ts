import type { BallColour } from '../lawn/colours.ts';
import type { Court } from '../lawn/court.ts';
import { insideStart, type StartArea } from '../lawn/start-area.ts';
import { type PlacedBall, probabilityPositive } from './all-across.ts';
import { BALL_ORDER, type ColourSet } from './ball-order.ts';
import { type Edition, ruleOf } from './editions.ts';
import { type Ruling, sentence } from './ruling.ts';

/** Every ground of a ruling on the start. */
export const START_CODES = ['inside', 'outside', 'tooClose', 'alreadyInPlay'] as const;
export type StartCode = (typeof START_CODES)[number];

/** The balls that have not had their first stroke, in order of play, when `played` have. */
export const ballsToStart = (set: ColourSet, played: readonly BallColour[]): BallColour[] =>
  BALL_ORDER[set].filter((ball) => !played.includes(ball));

/** Largest standard deviation of a place in any direction, metres: the root of the covariance's larger eigenvalue. */
const largestSd = ({ covariance: { xx, xy, yy } }: PlacedBall): number =>
  Math.sqrt(Math.max(0, (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy)));

/**
 * Whether `ball`, before its first stroke, lies in the start area: within a yard of corner 4, bounds included (golf croquet outline,
 * epsom-remuera). `area` `strip` is the wider area of friendly games. The place's uncertainty is taken in its worst direction.
 */
export const checkStart = (
  court: Court,
  ball: BallColour,
  place: PlacedBall,
  given: {
    readonly edition: Edition;
    readonly area: StartArea;
    readonly played: readonly BallColour[];
    readonly certainty: number;
  },
): Ruling<StartCode> => {
  const { edition, certainty } = given;
  const ruling = (code: StartCode, reason: string): Ruling<StartCode> => ({
    code,
    rule: ruleOf('start', edition),
    edition,
    reason: sentence(reason),
  });
  if (given.played.includes(ball))
    return ruling('alreadyInPlay', `${ball} has been played before and is played from where it lies.`);
  const inside = insideStart(court, given.area, place.point);
  const sd = largestSd(place);
  const probability = sd > 0 || inside !== 0 ? probabilityPositive(inside, sd) : 1;
  if (probability >= certainty) return ruling('inside', `${ball} lies within the start area at corner 4.`);
  if (probability <= 1 - certainty)
    return ruling('outside', `${ball} lies outside the start area at corner 4.`);
  return ruling('tooClose', `Whether ${ball} lies within the start area is too close to call.`);
};

import type { Court } from '../lawn/court.ts';
import {
  inPenaltyArea,
  PENALTY_RADIUS,
  type PenaltySide,
  penaltyCentre,
  toPenaltyCentre,
} from '../lawn/penalty-area.ts';
import { type Metres, metres } from '../units/numbers.ts';
import type { LawnPoint } from '../units/points.ts';
import { type Edition, ruleOf } from './editions.ts';
import type { Ruling } from './ruling.ts';

/** Every ground of a ruling on the place of a directed ball. */
export const PENALTY_CODES = ['onSpot', 'offSpot', 'inArea', 'outsideArea'] as const;
export type PenaltyCode = (typeof PENALTY_CODES)[number];

/** How near the spot a ball must lie to count as on it, one ball's radius: a spot has no size. No source. */
const ON_SPOT = 0.046;

/**
 * Radius within which a directed ball is played: a yard since the 5th edition, a single spot before it ("Golf croquet rules updated",
 * tunbridgewellscroquet.org.uk). `radius` is the club's setting.
 */
export const penaltyRadius = (edition: Edition, radius: Metres = PENALTY_RADIUS): Metres =>
  edition === '2013' ? metres(0) : radius;

/** Where a directed ball is put at once: on the midpoint of the boundary. Since the 5th edition its owner may then place it in the area. */
export const directedPlace = (court: Court, side: PenaltySide): LawnPoint => penaltyCentre(court, side);

/** Whether a directed ball with its centre at `point` lies where it may be played from. */
export const checkPenaltyPlace = (
  court: Court,
  side: PenaltySide,
  point: LawnPoint,
  edition: Edition,
  radius: Metres = PENALTY_RADIUS,
): Ruling<PenaltyCode> => {
  const rule = ruleOf('penaltyArea', edition);
  if (edition === '2013') {
    const on = toPenaltyCentre(court, side, point) <= ON_SPOT;
    return {
      code: on ? 'onSpot' : 'offSpot',
      rule,
      edition,
      reason: `The ball lies ${on ? 'on' : 'off'} the ${side} penalty spot, the midpoint of the ${side} boundary.`,
    };
  }
  const inside = inPenaltyArea(court, side, point, radius);
  return {
    code: inside ? 'inArea' : 'outsideArea',
    rule,
    edition,
    reason: `The ball lies ${inside ? 'in' : 'outside'} the ${side} penalty area, the half circle of ${radius.toFixed(2)} m on the midpoint of the ${side} boundary.`,
  };
};

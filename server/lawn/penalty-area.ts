import { type Metres, metres, yards } from '../units/numbers.ts';
import { type LawnPoint, lawnPoint } from '../units/points.ts';
import { alongCourt, type Court } from './court.ts';

/** The two penalty areas, by the boundary on which they lie. */
export const PENALTY_SIDES = ['west', 'east'] as const;
/** A penalty area, by its boundary. */
export type PenaltySide = (typeof PENALTY_SIDES)[number];

/**
 * Radius of a penalty area: 1 yd ("Golf croquet rules updated", tunbridgewellscroquet.org.uk). A setting: "Essential rules simplified" no. 1
 * (hpcc.ie) gives one yard across.
 */
export const PENALTY_RADIUS: Metres = yards(1);

/** Middle of a penalty area: the midpoint of its boundary, on the inner edge. */
export const penaltyCentre = (court: Court, side: PenaltySide): LawnPoint =>
  lawnPoint(side === 'west' ? 0 : court.width, alongCourt(court, 17.5));

/** Whether a ball with its centre at `point` may be played from the area: within `radius` of the middle and inside the court, bounds included. */
export const inPenaltyArea = (
  court: Court,
  side: PenaltySide,
  point: LawnPoint,
  radius: Metres = PENALTY_RADIUS,
): boolean => {
  const { x, y } = penaltyCentre(court, side);
  const inside = point.x >= 0 && point.x <= court.width;
  return inside && Math.hypot(point.x - x, point.y - y) <= radius;
};

/** The outline of a penalty area as `segments` + 1 points from its south end to its north end, without the boundary itself. */
export const penaltyOutline = (
  court: Court,
  side: PenaltySide,
  radius: Metres = PENALTY_RADIUS,
  segments = 24,
): LawnPoint[] => {
  const { x, y } = penaltyCentre(court, side);
  const inward = side === 'west' ? 1 : -1;
  return Array.from({ length: segments + 1 }, (_, i) => {
    const angle = -Math.PI / 2 + (Math.PI * i) / segments;
    return lawnPoint(x + inward * radius * Math.cos(angle), y + radius * Math.sin(angle));
  });
};

/** Distance from `point` to the middle of the penalty area on `side`. */
export const toPenaltyCentre = (court: Court, side: PenaltySide, point: LawnPoint): Metres => {
  const { x, y } = penaltyCentre(court, side);
  return metres(Math.hypot(point.x - x, point.y - y));
};

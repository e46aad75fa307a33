import { type Metres, yards } from '../units/numbers.ts';
import type { LawnPoint } from '../units/points.ts';
import type { Court } from './court.ts';
import { hoopPlace } from './hoops.ts';

/** Distance from corner 4 within which each ball's first stroke is played: one yard (golf croquet outline, epsom-remuera). */
export const START_RADIUS: Metres = yards(1);

/** Where first strokes are played from: within a yard of corner 4, or the wider strip that friendly games use to spare the corner. */
export const START_AREAS = ['corner', 'strip'] as const;
/** A start area. */
export type StartArea = (typeof START_AREAS)[number];

/**
 * How far the centre of a ball at `point` is inside the start area; negative outside. `corner`: within a yard of corner 4; `strip`: within
 * a yard of the east boundary from corner 4 to level with hoop 4 (both from the golf croquet outline, epsom-remuera).
 */
export const insideStart = (court: Court, area: StartArea, point: LawnPoint): number => {
  const onCourt = Math.min(point.y, court.width - point.x);
  if (area === 'corner') return Math.min(onCourt, START_RADIUS - Math.hypot(court.width - point.x, point.y));
  const north = hoopPlace(court, 4).y;
  return Math.min(onCourt, START_RADIUS - (court.width - point.x), north - point.y);
};

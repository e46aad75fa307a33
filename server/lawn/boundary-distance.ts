import { type Metres, metres } from '../units/numbers.ts';
import type { LawnPoint } from '../units/points.ts';
import type { Court, Side } from './court.ts';

/** Distance from `point` to the inner edge of the boundary on `side`; negative outside the court. */
export const toBoundary = (court: Court, side: Side, point: LawnPoint): Metres => {
  const distances: Record<Side, number> = {
    south: point.y,
    west: point.x,
    north: court.length - point.y,
    east: court.width - point.x,
  };
  return metres(distances[side]);
};

/** Way until a coordinate that changes by `rate` a metre leaves the range 0 to `size`. */
const wayOut = (at: number, rate: number, size: number): number => {
  if (rate === 0) return Number.POSITIVE_INFINITY;
  return rate > 0 ? (size - at) / rate : -at / rate;
};

/**
 * Free distance from a point inside the court to its boundary in the direction (`dx`, `dy`), of any length: how far a ball cleared that
 * way can be sent. A direction without length gives ∞.
 */
export const freeDistance = (court: Court, from: LawnPoint, dx: number, dy: number): Metres => {
  const length = Math.hypot(dx, dy) || 1;
  return metres(
    Math.max(
      0,
      Math.min(wayOut(from.x, dx / length, court.width), wayOut(from.y, dy / length, court.length)),
    ),
  );
};

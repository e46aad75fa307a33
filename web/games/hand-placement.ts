import type { Placement } from '../../server/games/events.ts';

/** Standard deviation of a place shown by a finger on the plan: a quarter of a metre, about a finger's width on a phone. No source. */
export const HAND_SD = 0.25;

/** A ball put on the plan by hand at (x, y) metres. */
export const byHand = (x: number, y: number): Placement => ({
  x: Math.round(x * 1000) / 1000,
  y: Math.round(y * 1000) / 1000,
  sdX: HAND_SD,
  sdY: HAND_SD,
  correlation: 0,
  origin: 'placed',
});

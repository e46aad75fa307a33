import { type Metres, metres, yards } from '../units/numbers.ts';
import { type LawnPoint, lawnPoint } from '../units/points.ts';

/** A rectangular court. `width` runs west–east along x, `length` south–north along y; both are measured between the inner edges of the boundary. */
export type Court = { readonly width: Metres; readonly length: Metres };

/** Width and length of the standard court in yards (Laws of Association Croquet, 6th edition, Law 2: one court for both games). */
export const STANDARD_YARDS = { width: 28, length: 35 } as const;

/** The standard court, 28 yd by 35 yd: 25.6032 m × 32.004 m. */
export const STANDARD_COURT: Court = {
  width: yards(STANDARD_YARDS.width),
  length: yards(STANDARD_YARDS.length),
};

/**
 * The place that has coordinates (`xYards`, `yYards`) on the standard court, on a court of any size: a smaller lawn keeps the
 * proportions (common practice, no source).
 */
export const courtPoint = (court: Court, xYards: number, yYards: number): LawnPoint =>
  lawnPoint((xYards / STANDARD_YARDS.width) * court.width, (yYards / STANDARD_YARDS.length) * court.length);

/** `xYards` of the standard court's width, scaled to this court. */
export const acrossCourt = (court: Court, xYards: number): Metres =>
  metres((xYards / STANDARD_YARDS.width) * court.width);
/** `yYards` of the standard court's length, scaled to this court. */
export const alongCourt = (court: Court, yYards: number): Metres =>
  metres((yYards / STANDARD_YARDS.length) * court.length);

/** The four boundaries, named whatever the real orientation (Law 2; Western Australia's sports dimensions guide). */
export const SIDES = ['south', 'west', 'north', 'east'] as const;
/** The name of a boundary. */
export type Side = (typeof SIDES)[number];

/** The two ends of a boundary's inner edge, the west or south end first. */
export const sideEnds = (court: Court, side: Side): readonly [LawnPoint, LawnPoint] => {
  const { width, length } = court;
  switch (side) {
    case 'south':
      return [lawnPoint(0, 0), lawnPoint(width, 0)];
    case 'west':
      return [lawnPoint(0, 0), lawnPoint(0, length)];
    case 'north':
      return [lawnPoint(0, length), lawnPoint(width, length)];
    case 'east':
      return [lawnPoint(width, 0), lawnPoint(width, length)];
  }
};

/** Unit vector on the lawn that points out of the court across `side`. */
export const outwardNormal = (side: Side): readonly [number, number] =>
  ({ south: [0, -1], west: [-1, 0], north: [0, 1], east: [1, 0] })[side] as unknown as readonly [
    number,
    number,
  ];

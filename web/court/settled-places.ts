import type { Stands } from '../../server/contract/stands.ts';
import { BALL_DIAMETER, BALL_RADIUS } from '../../server/lawn/ball.ts';
import { normalQuantile } from '../../server/units/statistics.ts';

type Cell = Stands['cells'][number];

/** What can be called from a place: a ball half its width past the line or short of it, only one a whole width off, or not even that. */
export const SETTLINGS = ['half', 'whole', 'less'] as const;
export type Settling = (typeof SETTLINGS)[number];

/**
 * What a place settles at `certainty` (0.5 to 1, exclusive): a ball `d` past the line is called when Φ(d ÷ sd) reaches the certainty, that is from
 * d = z · sd on. Half a ball is 46 mm, a whole one 92 mm; a distance exactly on the limit is settled.
 */
export const settles = (sd: number, certainty: number): Settling => {
  const least = normalQuantile(certainty) * sd;
  if (least <= BALL_RADIUS) return 'half';
  return least <= BALL_DIAMETER ? 'whole' : 'less';
};

/** The smallest distance from the line, metres, at which every ball can be called from a place of this standard deviation. */
export const leastCalled = (sd: number, certainty: number): number => normalQuantile(certainty) * sd;

/** Corners of a plan's area, metres, x east and y north. */
export type Area = {
  readonly west: number;
  readonly east: number;
  readonly south: number;
  readonly north: number;
};

/** The square that stands for a place of a grid of `step` metres. */
export const squareOf = ({ x, y }: Pick<Cell, 'x' | 'y'>, step: number): Area => ({
  west: x - step / 2,
  east: x + step / 2,
  south: y - step / 2,
  north: y + step / 2,
});

/** A stretch of an area's edge, metres: from, to. */
export type Edge = readonly [number, number, number, number];

/**
 * The outer edges of the area that these grid places cover together: every side of a square on whose other side there is no place of the list.
 * The places lie on one grid of `step` metres.
 */
export const outerEdges = (cells: readonly Pick<Cell, 'x' | 'y'>[], step: number): Edge[] => {
  const key = (x: number, y: number): string => `${Math.round((2 * x) / step)} ${Math.round((2 * y) / step)}`;
  const covered = new Set(cells.map(({ x, y }) => key(x, y)));
  return cells.flatMap(({ x, y }) => {
    const { west, east, south, north } = squareOf({ x, y }, step);
    const sides: [boolean, Edge][] = [
      [covered.has(key(x, y + step)), [west, north, east, north]],
      [covered.has(key(x, y - step)), [west, south, east, south]],
      [covered.has(key(x - step, y)), [west, south, west, north]],
      [covered.has(key(x + step, y)), [east, south, east, north]],
    ];
    return sides.filter(([inner]) => !inner).map(([, edge]) => edge);
  });
};

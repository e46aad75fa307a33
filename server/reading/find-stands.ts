import type { Camera } from '../camera/types.ts';
import type { Stands, StandsRequest } from '../contract/stands.ts';
import type { Court } from '../lawn/court.ts';
import { type HalfwayLine, halfwayLine, type ScoredPoint } from '../lawn/halfway-lines.ts';
import { metres, pixels } from '../units/numbers.ts';
import { type LawnPoint, lawnPoint } from '../units/points.ts';
import { boundAcross, movedTo } from './bound-across.ts';

/** Grid of places to stand and how far from the boundary they are looked at, metres. */
const GRID = { step: 2.5, out: 15 } as const;
/** Nobody stands nearer to the boundary than this for a picture, metres. */
const CLEAR = 1;
/** A phone's main camera: 4000 × 3000 px, 26 mm equivalent on the long side. Common practice, no source. */
const PHONE = { width: 4000, height: 3000, focal: (26 / 36) * 4000 } as const;
/** Balls are taken at these shares of the halfway line's length; the worst of them counts. */
const SHARES = [0.1, 0.3, 0.5, 0.7, 0.9] as const;

type Place = { readonly x: number; readonly y: number; readonly sd: number };

const phone: Camera = {
  position: [0, 0, 0],
  rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  focal: pixels(PHONE.focal),
  radial: [0, 0],
  width: pixels(PHONE.width),
  height: pixels(PHONE.height),
};

const ballsOn = (line: HalfwayLine, court: Court): LawnPoint[] =>
  SHARES.map((share) =>
    line.axis === 'y' ? lawnPoint(share * court.width, line.at) : lawnPoint(line.at, share * court.length),
  );

const outside = (court: Court, x: number, y: number): boolean =>
  x < -CLEAR || y < -CLEAR || x > court.width + CLEAR || y > court.length + CLEAR;

const places = (court: Court): [number, number][] => {
  const range = (length: number): number[] => {
    const half = length / 2 + GRID.out;
    const count = Math.floor(half / GRID.step);
    return Array.from({ length: 2 * count + 1 }, (_, i) => length / 2 + (i - count) * GRID.step);
  };
  return range(court.width).flatMap((x) => range(court.length).map((y): [number, number] => [x, y]));
};

const worstFrom = (
  position: readonly [number, number, number],
  balls: readonly LawnPoint[],
  line: HalfwayLine,
  court: Court,
  unevenness: number,
): number => {
  const middle = lawnPoint(court.width / 2, court.length / 2);
  const camera = movedTo(phone, position, middle);
  return Math.max(...balls.map((ball) => boundAcross(camera, court, ball, line.axis, unevenness)));
};

/**
 * From which places around the lawn, with the phone `height` metres above it, a call on the line after `hoopScored` can be settled: the standard
 * deviation across the line for the worst of five balls along it, by the bound of an ideal reader and with the lawn's unevenness. Places from which the
 * lawn is not seen are left out.
 */
export const findStands = ({ hoopScored, height, lawn }: StandsRequest): Stands => {
  const court: Court = { width: metres(lawn.width), length: metres(lawn.length) };
  const line = halfwayLine(court, hoopScored as ScoredPoint);
  const balls = ballsOn(line, court);
  const cells = places(court)
    .filter(([x, y]) => outside(court, x, y))
    .map(([x, y]): Place => ({ x, y, sd: worstFrom([x, y, height], balls, line, court, lawn.unevenness) }))
    .filter(({ sd }) => Number.isFinite(sd));
  const best = cells.reduce((a, b) => (b.sd < a.sd ? b : a));
  return { line, height, step: GRID.step, cells, best };
};

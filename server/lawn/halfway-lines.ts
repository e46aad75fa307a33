import type { Metres } from '../units/numbers.ts';
import { acrossCourt, alongCourt, type Court } from './court.ts';
import { HOOP_POINTS, type HoopPoint } from './hoops.ts';

/** A halfway line: all points with `axis` coordinate `at`; the next hoop lies where that coordinate is larger (`nextHoopSide` 1) or smaller (−1). */
export type HalfwayLine = { readonly axis: 'x' | 'y'; readonly at: Metres; readonly nextHoopSide: 1 | -1 };

/** Points after which a halfway line is used: 1 to 12; after 13 the game is over. */
export const SCORED_POINTS = HOOP_POINTS.slice(0, 12) as readonly ScoredPoint[];
/** A point that is followed by another hoop. */
export type ScoredPoint = Exclude<HoopPoint, 13>;

/**
 * Line, yard and side of the next hoop after each point. Published for the lines between hoops 1–2, 3–4, 2–3, 1–4, 1–5, 2–6, 3–6 and
 * 4–5 ("Essential rules simplified" no. 2, hpcc.ie); the line after 12 is from memory.
 */
const LINES: Readonly<Record<ScoredPoint, readonly ['x' | 'y', number, 1 | -1]>> = {
  1: ['y', 17.5, 1],
  2: ['x', 14, 1],
  3: ['y', 17.5, -1],
  4: ['x', 17.5, -1],
  5: ['y', 17.5, 1],
  6: ['x', 10.5, -1],
  7: ['y', 17.5, -1],
  8: ['x', 14, 1],
  9: ['y', 17.5, 1],
  10: ['x', 17.5, -1],
  11: ['y', 17.5, -1],
  12: ['x', 17.5, 1],
};

/** The halfway line that is used when point `scored` has just been scored. */
export const halfwayLine = (court: Court, scored: ScoredPoint): HalfwayLine => {
  const [axis, yard, nextHoopSide] = LINES[scored];
  return { axis, at: axis === 'x' ? acrossCourt(court, yard) : alongCourt(court, yard), nextHoopSide };
};

/** The point contested after `scored`. */
export const nextPoint = (scored: ScoredPoint): HoopPoint => (scored + 1) as HoopPoint;

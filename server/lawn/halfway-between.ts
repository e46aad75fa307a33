import { acrossCourt, alongCourt, type Court } from './court.ts';
import type { HalfwayLine } from './halfway-lines.ts';
import { type HoopNumber, hoopPlace } from './hoops.ts';

type Pair = `${HoopNumber}-${HoopNumber}`;

/**
 * The halfway line between two hoops, lower number first, in yards from the west (x) or south (y) boundary. Published for 1–2, 3–4,
 * 2–3, 1–4, 1–5, 2–6, 3–6 and 4–5 ("Essential rules simplified" no. 2, hpcc.ie). From memory: 3–5 (before the last hoop of a 13-point
 * game) and, by turning the lawn half round, 1–6 (before the last hoop of a 7-point game); 5–6 by the line through the peg.
 */
const LINES_BETWEEN: Readonly<Partial<Record<Pair, readonly ['x' | 'y', number]>>> = {
  '1-2': ['y', 17.5],
  '3-4': ['y', 17.5],
  '5-6': ['y', 17.5],
  '2-3': ['x', 14],
  '1-4': ['x', 14],
  '1-5': ['x', 10.5],
  '2-6': ['x', 10.5],
  '1-6': ['x', 10.5],
  '3-6': ['x', 17.5],
  '4-5': ['x', 17.5],
  '3-5': ['x', 17.5],
};

/** The halfway line from hoop `from` towards hoop `to`, or null when none is known for the two: a referee says where it is. */
export const lineBetween = (court: Court, from: HoopNumber, to: HoopNumber): HalfwayLine | null => {
  const pair: Pair = `${Math.min(from, to) as HoopNumber}-${Math.max(from, to) as HoopNumber}`;
  const entry = LINES_BETWEEN[pair];
  if (entry === undefined) return null;
  const [axis, yard] = entry;
  const at = axis === 'x' ? acrossCourt(court, yard) : alongCourt(court, yard);
  return { axis, at, nextHoopSide: hoopPlace(court, to)[axis] > at ? 1 : -1 };
};

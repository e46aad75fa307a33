import { describe, expect, it } from 'vitest';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { halfwayLine, SCORED_POINTS, type ScoredPoint } from '../../server/lawn/halfway-lines.ts';
import { callBall, type Lies } from '../../server/rules/all-across.ts';
import { lawnPoint } from '../../server/units/points.ts';

/**
 * The line, in yards from the west or south boundary, and the direction of the next hoop, after each point. Sources: "Essential rules
 * simplified" no. 2 (hpcc.ie) for the lines between hoops 1–2, 2–3, 3–4, 1–4, 1–5, 2–6, 3–6 and 4–5; from memory after 12.
 */
const LINES: Record<ScoredPoint, readonly ['x' | 'y', number, 1 | -1]> = {
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
const YARD = 0.9144;
const SD = 0.01;
/** Ball radius 46 mm: half of 3 5/8 in rounded to 92 mm (from memory). */
const RADIUS = 0.046;

/** Centre past the line (m) and what must be said at 99 %: 2.3263 standard deviations of 10 mm are 23.3 mm. */
const PLACES: readonly (readonly [string, number, Lies])[] = [
  ['a yard past', 0.9144, 'beyond'],
  ['nearest point 24 mm past', RADIUS + 0.024, 'beyond'],
  ['nearest point 22 mm past', RADIUS + 0.022, 'tooClose'],
  ['nearest point on the line', RADIUS, 'tooClose'],
  ['nearest point 22 mm short', RADIUS - 0.022, 'tooClose'],
  ['nearest point 24 mm short', RADIUS - 0.024, 'short'],
  ['centre on the line', 0, 'short'],
  ['on the other side', -0.9144, 'short'],
];

const place = (axis: 'x' | 'y', coordinate: number, variance: number) => ({
  point: axis === 'x' ? lawnPoint(coordinate, 9) : lawnPoint(9, coordinate),
  covariance: axis === 'x' ? { xx: variance, xy: 0, yy: 4 } : { xx: 4, xy: 0, yy: variance },
});

describe.each(SCORED_POINTS)('after point %i', (scored) => {
  const [axis, yard, side] = LINES[scored];
  const line = halfwayLine(STANDARD_COURT, scored);

  it.each(PLACES)('a ball %s', (_name, past, lies) => {
    const call = callBall(place(axis, yard * YARD + side * past, SD * SD), line, 0.99);
    expect(call.lies).toBe(lies);
    expect(call.beyond).toBeCloseTo(past - RADIUS, 12);
    expect(call.sd).toBeCloseTo(SD, 12);
  });
});

describe('callBall', () => {
  const line = halfwayLine(STANDARD_COURT, 1);
  const at = (past: number, variance: number) => callBall(place('y', line.at + past, variance), line, 0.99);

  // NIST/SEMATECH e-Handbook, table 1.3.6.7.1: Φ(1) = 0.84134, Φ(2) = 0.97725.
  it('gives the normal probability of being across', () => {
    expect(at(RADIUS + SD, SD * SD).probability).toBeCloseTo(0.84134, 5);
    expect(at(RADIUS - 2 * SD, SD * SD).probability).toBeCloseTo(1 - 0.97725, 5);
  });

  it.each([
    ['past by a hair', RADIUS + 1e-6, 1, 'beyond'],
    ['short by a hair', RADIUS - 1e-6, 0, 'short'],
  ] as const)('is firm without uncertainty: %s', (_name, past, probability, lies) => {
    expect(at(past, 0)).toMatchObject({ probability, lies });
  });

  it('never makes a firm call of a place that is not known', () => {
    expect(
      callBall({ point: lawnPoint(1, Number.NaN), covariance: { xx: 0, xy: 0, yy: 0 } }, line, 0.99).lies,
    ).toBe('tooClose');
    expect(at(5, Number.NaN).lies).toBe('tooClose');
  });
});

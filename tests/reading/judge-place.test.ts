import { describe, expect, it } from 'vitest';
import { sdOfDistance, withinAlong, withinPlane, worstSd } from '../../server/reading/judge-place.ts';

const TOLERANCE = 0.15;

describe('whether one coordinate is within the tolerance', () => {
  // One-sided 99 % quantile of the normal distribution: 2.326 (NIST/SEMATECH e-Handbook 1.3.6.7.1). The far side of the tolerance is out of reach for these standard deviations.
  it.each([
    ['in its place', 0, 0.01, true],
    ['2.34 standard deviations inside', 0.15 - 2.34 * 0.01, 0.01, true],
    ['2.31 standard deviations inside', 0.15 - 2.31 * 0.01, 0.01, null],
    ['on the edge', 0.15, 0.01, null],
    ['2.31 standard deviations outside', 0.15 + 2.31 * 0.01, 0.01, null],
    ['2.34 standard deviations outside', 0.15 + 2.34 * 0.01, 0.01, false],
    ['the same to the other side', -(0.15 + 2.34 * 0.01), 0.01, false],
    // P(|x| ≤ 0.15) = 2 Φ(0.75) − 1 = 0.547.
    ['measured too roughly to say', 0, 0.2, null],
    ['exact and on the edge', 0.15, 0, true],
    ['exact and past it', 0.1501, 0, false],
  ])('%s', (_, value, sd, expected) => {
    expect(withinAlong(value, sd, TOLERANCE, 0.99)).toBe(expected);
  });
});

describe('the uncertainty of a place', () => {
  // Eigenvalues by hand: of [2.5 1.5; 1.5 2.5] they are 4 and 1, along (1, 1) and (1, −1).
  const askew = { xx: 2.5, xy: 1.5, yy: 2.5 };
  it('is worst along the longer axis', () => {
    expect(worstSd({ xx: 4, xy: 0, yy: 1 })).toBeCloseTo(2, 12);
    expect(worstSd(askew)).toBeCloseTo(2, 12);
  });
  it('of a distance is that along the displacement', () => {
    expect(sdOfDistance(3, 3, askew)).toBeCloseTo(2, 12);
    expect(sdOfDistance(3, -3, askew)).toBeCloseTo(1, 12);
    expect(sdOfDistance(1, 0, askew)).toBeCloseTo(Math.sqrt(2.5), 12);
  });
  it('of no distance is the worst', () => {
    expect(sdOfDistance(0, 0, askew)).toBeCloseTo(2, 12);
  });
});

describe('whether a place is within the tolerance', () => {
  const round = { xx: 1e-4, xy: 0, yy: 1e-4 };
  it.each([
    ['in its place', 0, 0, true],
    ['off by less than the tolerance in each coordinate but not in distance', 0.13, 0.13, false],
    ['on the edge', 0.09, 0.12, null],
    ['well inside', 0.05, -0.06, true],
  ])('%s', (_, dx, dy, expected) => {
    expect(withinPlane(dx, dy, round, TOLERANCE, 0.99)).toBe(expected);
  });
  it('cannot be told where a long thin uncertainty could hide a displacement', () => {
    // 10 mm along the displacement found, 200 mm across it.
    expect(withinPlane(0.02, 0, { xx: 1e-4, xy: 0, yy: 0.04 }, TOLERANCE, 0.99)).toBeNull();
    expect(withinPlane(0.3, 0, { xx: 1e-4, xy: 0, yy: 0.04 }, TOLERANCE, 0.99)).toBe(false);
  });
});

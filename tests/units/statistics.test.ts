import { describe, expect, it } from 'vitest';
import { logGamma } from '../../server/units/gamma.ts';
import {
  chiSquareCdf,
  chiSquareQuantile,
  normalCdf,
  normalQuantile,
  wilsonInterval,
} from '../../server/units/statistics.ts';

/** Area from 0 to z: NIST/SEMATECH e-Handbook, table 1.3.6.7.1, five decimals. */
const NORMAL_AREAS = [
  [0, 0],
  [0.1, 0.03983],
  [0.5, 0.19146],
  [1, 0.34134],
  [1.5, 0.43319],
  [1.96, 0.475],
  [2, 0.47725],
  [2.33, 0.4901],
  [3, 0.49865],
  [3.49, 0.49976],
] as const;

/** Critical values with this probability of exceeding them: NIST/SEMATECH e-Handbook, table 1.3.6.7.4, three decimals. */
const CHI_SQUARE = [
  [1, { 0.1: 2.706, 0.05: 3.841, 0.025: 5.024, 0.01: 6.635, 0.001: 10.828, 0.9: 0.016, 0.95: 0.004 }],
  [2, { 0.1: 4.605, 0.05: 5.991, 0.025: 7.378, 0.01: 9.21, 0.001: 13.816, 0.9: 0.211, 0.95: 0.103 }],
  [3, { 0.1: 6.251, 0.05: 7.815, 0.01: 11.345, 0.9: 0.584, 0.95: 0.352, 0.975: 0.216, 0.999: 0.024 }],
  [10, { 0.1: 15.987, 0.05: 18.307, 0.01: 23.209, 0.9: 4.865, 0.95: 3.94, 0.99: 2.558, 0.999: 1.479 }],
  [30, { 0.1: 40.256, 0.05: 43.773, 0.9: 20.599, 0.95: 18.493, 0.99: 14.953, 0.999: 11.588 }],
  [100, { 0.1: 118.498, 0.05: 124.342, 0.9: 82.358, 0.95: 77.929, 0.99: 70.065, 0.999: 61.918 }],
] as const;

describe('logGamma', () => {
  it.each([
    [1, 0],
    [2, 0],
    [5, Math.log(24)],
    [0.5, Math.log(Math.PI) / 2],
    [
      20.5,
      Math.log(Math.PI) / 2 + Array.from({ length: 20 }, (_, n) => Math.log(n + 0.5)).reduce((a, b) => a + b),
    ],
  ])('is exact at %d: factorials and Γ(½) = √π (DLMF 5.4)', (x, value) => {
    expect(logGamma(x)).toBeCloseTo(value, 12);
  });
});

describe('normalCdf', () => {
  it.each(NORMAL_AREAS)('gives the published area up to z = %d', (z, area) => {
    expect(Math.abs(normalCdf(z) - 0.5 - area)).toBeLessThanOrEqual(5.1e-6);
    expect(Math.abs(0.5 - normalCdf(-z) - area)).toBeLessThanOrEqual(5.1e-6);
  });

  // Leading terms of the asymptotic expansion, DLMF 7.12.1: φ(z)/z · (1 − 1/z² + 3/z⁴ − 15/z⁶), off by less than 105/z⁸.
  it.each([-12, -20, -37])('keeps its relative accuracy in the far tail at z = %d', (z) => {
    const density = Math.exp(-(z * z) / 2) / Math.sqrt(2 * Math.PI);
    const tail = (density / -z) * (1 - z ** -2 + 3 * z ** -4 - 15 * z ** -6);
    expect(Math.abs(normalCdf(z) / tail - 1)).toBeLessThan(105 / z ** 8 + 1e-13);
  });

  it('ends at 0 and 1', () => {
    expect(normalCdf(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(normalCdf(Number.POSITIVE_INFINITY)).toBe(1);
  });
});

describe('normalQuantile', () => {
  // NIST/SEMATECH e-Handbook, table 1.3.6.7.2 (Student's t, last row: infinitely many degrees of freedom), three decimals.
  it.each([
    [0.9, 1.282],
    [0.95, 1.645],
    [0.975, 1.96],
    [0.99, 2.326],
    [0.995, 2.576],
    [0.999, 3.09],
  ])('gives the published value at p = %d', (p, z) => {
    expect(Math.abs(normalQuantile(p) - z)).toBeLessThanOrEqual(5.1e-4);
  });

  it.each([1e-300, 1e-20, 1e-6, 0.01, 0.3, 0.4999999])('undoes normalCdf in both tails at p = %d', (p) => {
    expect(normalCdf(normalQuantile(p)) / p).toBeCloseTo(1, 11);
    expect(normalQuantile(1 - p)).toBeCloseTo(-normalQuantile(1 - (1 - p)), 12);
  });

  it('ends at −∞ and ∞, is 0 in the middle, and refuses what is not a probability', () => {
    expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(normalQuantile(0.5)).toBe(0);
    expect(() => normalQuantile(1.2)).toThrow('Expected a probability from 0 to 1 for p but received 1.2');
    expect(() => normalQuantile(Number.NaN)).toThrow(RangeError);
  });
});

describe('chiSquareQuantile', () => {
  const rows = CHI_SQUARE.flatMap(([degrees, row]) =>
    Object.entries(row).map(([exceeded, value]) => [degrees, Number(exceeded), value] as const),
  );
  it.each(rows)('with %d degrees of freedom, exceeded with probability %d', (degrees, exceeded, value) => {
    expect(Math.abs(chiSquareQuantile(1 - exceeded, degrees) - value)).toBeLessThanOrEqual(5.1e-4);
    expect(
      Math.abs(1 - chiSquareCdf(chiSquareQuantile(1 - exceeded, degrees), degrees) - exceeded),
    ).toBeLessThan(1e-12);
  });

  it('with two degrees of freedom is −2 log(1 − p), the exponential distribution', () => {
    for (const p of [1e-9, 0.1, 0.5, 0.9, 0.999999]) {
      expect(chiSquareQuantile(p, 2) / (-2 * Math.log1p(-p))).toBeCloseTo(1, 9);
    }
  });

  it('ends at 0 and ∞ and refuses zero degrees of freedom', () => {
    expect(chiSquareQuantile(0, 3)).toBe(0);
    expect(chiSquareQuantile(1, 3)).toBe(Number.POSITIVE_INFINITY);
    expect(() => chiSquareQuantile(0.5, 0)).toThrow('Expected a positive number for degrees but received 0');
  });
});

describe('wilsonInterval', () => {
  // NIST/SEMATECH e-Handbook, 7.2.4: 26 defectives of 200 tested against 10 % give z = 1.414. Its 7.2.4.1 defines the limits as the
  // proportions at which that test gives exactly ±z, so at the confidence of z = √2 the lower limit is 10 %.
  it('turns the published test of a proportion round', () => {
    const confidence = 2 * normalCdf(Math.SQRT2) - 1;
    expect(wilsonInterval(26, 200, confidence).lower).toBeCloseTo(0.1, 12);
  });

  it.each([
    [0, 12, 0.95],
    [4, 20, 0.9],
    [7, 7, 0.99],
  ])('%d of %d at %d solves the test at both limits', (successes, trials, confidence) => {
    const { lower, upper } = wilsonInterval(successes, trials, confidence);
    const z = normalQuantile((1 + confidence) / 2);
    for (const limit of [lower, upper]) {
      const distance = Math.abs(successes / trials - limit);
      expect(distance).toBeCloseTo(z * Math.sqrt((limit * (1 - limit)) / trials), 12);
    }
  });

  it('without trials says nothing', () => {
    expect(wilsonInterval(0, 0, 0.95)).toEqual({ lower: 0, upper: 1 });
  });
});

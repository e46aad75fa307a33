import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { region95 } from '../../web/plan/region.ts';
import { spreadDiscs } from '../../web/plan/spread-discs.ts';

// √(−2 ln 0.05) = 2.4477: the 95 % point of the Rayleigh distribution (χ² with two degrees of freedom is exponential).
describe('the 95 % region', () => {
  test('is a circle of 2.4477 standard deviations for equal ones', () => {
    const { major, minor } = region95(1, 1, 0);
    expect(major).toBeCloseTo(2.4477, 4);
    expect(minor).toBeCloseTo(2.4477, 4);
  });

  test('lies along the less certain axis', () => {
    expect(region95(0.01, 0.03, 0)).toMatchObject({ angle: 90 });
    expect(region95(0.02, 0.02, 0.5).angle).toBeCloseTo(45, 9);
  });
});

describe('discs on a plan', () => {
  test('stay where they are when none touches another', () => {
    const places = [
      { x: 0, y: 0 },
      { x: 5, y: 0 },
    ];
    expect(spreadDiscs(places, 1)).toEqual(places);
  });

  test('are parted when they cover each other, also at the very same place, without changing what was given', () => {
    const place = fc.record({
      x: fc.double({ min: 0, max: 25, noNaN: true }),
      y: fc.double({ min: 0, max: 32, noNaN: true }),
    });
    fc.assert(
      fc.property(place, place, (a, b) => {
        const given = [a, b];
        const before = structuredClone(given);
        const [one, other] = spreadDiscs(given, 0.9) as [typeof a, typeof b];
        expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThanOrEqual(1.8);
        expect(given).toEqual(before);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

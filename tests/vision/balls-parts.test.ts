import { describe, expect, it } from 'vitest';
import { ballOutline } from '../../server/camera/ball-outline.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { lawnPoint } from '../../server/units/points.ts';
import { colourChances } from '../../server/vision/balls/assign-colours.ts';
import { viewBall } from '../../server/vision/balls/ball-view.ts';
import { linear } from '../../server/vision/balls/light.ts';
import { diameterAt, lawnSpans } from '../../server/vision/balls/search-scale.ts';
import { factor, solveFactored } from '../../server/vision/small-solve.ts';
import { lookAt } from './balls-scene.ts';

const CAMERA = lookAt([12.8, -8, 6], [12.8, 15], 1500, 1200, 900);

describe('viewBall', () => {
  it.each([
    [12.8, 3],
    [4, 20],
    [24, 10],
  ])('agrees with the exact outline of a sphere at (%d, %d)', (x, y) => {
    const view = viewBall(CAMERA, x, y)!;
    // The camera room's closed form (a cone cut by the picture's plane) is the reference.
    const exact = ballOutline(CAMERA, lawnPoint(x, y))!;
    expect(view.x).toBeCloseTo(exact.centre.x, 2);
    expect(view.y).toBeCloseTo(exact.centre.y, 2);
    expect(view.x + view.centreDx).toBeCloseTo(exact.ball.x, 6);
    expect(view.radius).toBeCloseTo(Math.sqrt(exact.semiAxes[0] * exact.semiAxes[1]), 2);
    expect(diameterAt(CAMERA, exact.ball.x, exact.ball.y)).toBeCloseTo(2 * view.radius, 1);
  });
});

describe('lawnSpans', () => {
  it('holds the row and column of every ball on the lawn in view', () => {
    const spans = lawnSpans(CAMERA, STANDARD_COURT)!;
    for (const [x, y] of [
      [9, 10],
      [18, 30],
      [12.8, 16],
    ] as const) {
      const view = viewBall(CAMERA, x, y)!;
      const row = Math.floor(view.y) - spans.top;
      expect(view.x).toBeGreaterThanOrEqual(spans.from[row]!);
      expect(view.x).toBeLessThanOrEqual(spans.to[row]!);
    }
  });
});

/** All assignments one by one: the slow check of the fast sum. */
const enumerate = (odds: number[][], prior: number[]): number[][] => {
  const chances = odds.map((row) => row.map(() => 0));
  let total = 0;
  const walk = (i: number, used: Set<number>, weight: number, chosen: [number, number][]): void => {
    if (i === odds.length) {
      total += weight;
      for (const [a, c] of chosen) chances[a]![c]! += weight;
      return;
    }
    walk(i + 1, used, weight, chosen);
    odds[i]!.forEach((ln, c) => {
      if (used.has(c)) return;
      walk(i + 1, new Set([...used, c]), weight * Math.exp(ln) * prior[c]!, [...chosen, [i, c]]);
    });
  };
  walk(0, new Set(), 1, []);
  return chances.map((row) => row.map((value) => value / total));
};

describe('colourChances', () => {
  it('equals the sum over all assignments', () => {
    const odds = [
      [2, 1, -3],
      [1.5, -1, 0],
      [-2, 0.5, 0.3],
      [0, 0, 1],
    ];
    const present = [0.9, 0.3, 0.5];
    const expected = enumerate(
      odds,
      present.map((p) => p / (1 - p)),
    ).flat();
    const chances = colourChances(Float64Array.from(odds.flat()), 3, present);
    expected.forEach((value, i) => {
      expect(chances[i]).toBeCloseTo(value, 12);
    });
  });

  it('refuses rows that do not fit', () => {
    expect(() => colourChances(new Float64Array(5), 2, [0.5, 0.5])).toThrow(/Expected rows/);
  });
});

describe('linear', () => {
  it.each([
    [0, 0],
    [255, 1],
    // IEC 61966-2-1: 10 / 255 lies on the straight part, 10 / 255 / 12.92.
    [10, 0.0030353],
    // 128 / 255 on the power part: ((0.50196 + 0.055) / 1.055)^2.4.
    [128, 0.2158605],
  ])('grey level %d is %d of full light', (level, light) => {
    expect(linear(level)).toBeCloseTo(light, 6);
  });
});

describe('factor and solveFactored', () => {
  it('solve a small system by hand: 4x + 2y = 10, 2x + 3y = 9 gives (1.5, 2)', () => {
    const a = Float64Array.of(4, 2, 2, 3);
    const b = Float64Array.of(10, 9);
    expect(factor(a, 2)).toBe(true);
    solveFactored(a, 2, b, 1);
    expect([...b]).toEqual([expect.closeTo(1.5, 12), expect.closeTo(2, 12)]);
  });

  it('refuses a matrix that is not positive definite', () => {
    expect(factor(Float64Array.of(1, 2, 2, 1), 2)).toBe(false);
  });
});

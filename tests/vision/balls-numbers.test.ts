import { describe, expect, it } from 'vitest';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import { weighAssignments } from '../../server/vision/balls/assign-colours.ts';
import {
  ballDensities,
  type ColourRatio,
  lnDensity,
  lookOf,
  UNKNOWN_LOOK,
} from '../../server/vision/balls/dye-density.ts';
import { linearRgb, yccOf } from '../../server/vision/balls/light.ts';
import { roundnessAt, SIDE } from '../../server/vision/balls/roundness.ts';
import { rowProducts } from '../../server/vision/balls/row-products.ts';
import { medianOf } from '../../server/vision/selection.ts';

describe('rowProducts', () => {
  it.each([
    [1, 0],
    [2, 0],
    [5, 0],
    [9, 0],
    [12, 5],
    [18, 12],
  ])('of %d rows from row %d on are the plain sums', (rows, from) => {
    const [pitch, count] = [13, 11];
    const a = Float64Array.from({ length: rows * pitch }, (_, k) => Math.sin(1.7 * k));
    const b = Float64Array.from({ length: rows * pitch }, (_, k) => Math.cos(0.9 * k));
    const out = new Float64Array(rows * rows);
    rowProducts(a, b, pitch, from, rows, count, out, rows);
    for (let r = from; r < rows; r++)
      for (let s = 0; s <= r; s++) {
        let sum = 0;
        for (let k = 0; k < count; k++) sum += a[r * pitch + k]! * b[s * pitch + k]!;
        expect(out[r * rows + s], `${r} ${s}`).toBeCloseTo(sum, 10);
      }
  });
});

describe('medianOf', () => {
  it.each([
    [[], 0],
    [[3], 3],
    [[4, 1], 2.5],
    [[5, 1, 3], 3],
    [[2, 2, 2, 2], 2],
    [[9, 7, 1, 3, 5, 11], 6],
  ])('of %j is %d', (values, median) => {
    expect(medianOf(Float64Array.from(values), values.length)).toBe(median);
  });

  it('looks at the first numbers alone', () => {
    expect(medianOf(Float64Array.of(1, 2, 3, 100, 200), 3)).toBe(2);
  });
});

/** A window with a disc of `radius` cells at (x, y) that stands out by 1, its cells cut hard. */
const disc = (x: number, y: number, radius: number): Float64Array =>
  Float64Array.from({ length: SIDE * SIDE }, (_, k) =>
    Math.hypot((k % SIDE) + 0.5 - x, Math.floor(k / SIDE) + 0.5 - y) <= radius ? 1 : 0,
  );

describe('roundnessAt', () => {
  it('is nearly 8 on a disc of its own size and place, and less beside it or at another size', () => {
    const window = disc(14.5, 14.5, 4);
    const own = roundnessAt(window, 14.5, 14.5, 4);
    expect(own).toBeGreaterThan(7.9);
    expect(roundnessAt(window, 16.5, 14.5, 4)).toBeLessThan(own - 1);
    expect(roundnessAt(window, 14.5, 14.5, 2)).toBeLessThan(own - 4);
  });

  it('is half of it where half of the surroundings look like the disc', () => {
    const window = disc(14.5, 14.5, 4);
    for (let k = 0; k < window.length; k++) if (k % SIDE >= 15) window[k] = 1;
    expect(roundnessAt(window, 14.5, 14.5, 4)).toBeCloseTo(4, 0);
  });

  it('is 0 where the window ends', () => {
    expect(roundnessAt(disc(2, 2, 4), 2, 2, 4)).toBe(0);
  });
});

describe('the look that the balls of a picture share', () => {
  const usual = ballDensities(UNKNOWN_LOOK);
  const EXACT = new Float64Array(6);
  const dimmed = (colour: number, by: number): ColourRatio =>
    usual[colour]!.mean.map((ln) => ln - by) as unknown as ColourRatio;
  const red = BALL_COLOURS.indexOf('red');
  const yellow = BALL_COLOURS.indexOf('yellow');
  const brown = BALL_COLOURS.indexOf('brown');

  it('is the usual one without witnesses', () => {
    const { mean, covariance } = lookOf([]);
    for (const value of mean) expect(value).toBeCloseTo(0, 12);
    covariance.forEach((value, k) => {
      expect(value).toBeCloseTo(UNKNOWN_LOOK.covariance[k]!, 12);
    });
  });

  it('follows balls that are all darker, between the usual and theirs', () => {
    const look = lookOf(
      [red, yellow].map((colour) => ({ colour, ratio: dimmed(colour, 0.8), error: EXACT, weight: 1 })),
    );
    for (const k of [0, 1, 2]) {
      expect(look.mean[k]).toBeLessThan(-0.4);
      expect(look.mean[k]).toBeGreaterThan(-0.8);
    }
  });

  it('makes a dark brown likelier than before when the others are dark as well', () => {
    const look = lookOf(
      [red, yellow].map((colour) => ({ colour, ratio: dimmed(colour, 0.8), error: EXACT, weight: 1 })),
    );
    const there = dimmed(brown, 0.8);
    expect(lnDensity(ballDensities(look)[brown]!, there)).toBeGreaterThan(lnDensity(usual[brown]!, there));
  });
});

describe('weighAssignments', () => {
  it('by hand: one candidate, two colours', () => {
    // Odds 3 and 1, present with chances 0.5 and 0.2: weights 1, 3 · 1, 1 · 0.25; evidence (1 + 3 + 0.25) · 0.5 · 0.8.
    const { chances, lnEvidence } = weighAssignments(Float64Array.of(Math.log(3), 0), 2, [0.5, 0.2]);
    expect(chances[0]).toBeCloseTo(3 / 4.25, 12);
    expect(chances[1]).toBeCloseTo(0.25 / 4.25, 12);
    expect(Math.exp(lnEvidence)).toBeCloseTo(4.25 * 0.4, 12);
  });
});

describe('yccOf', () => {
  it.each([[[0.14, 0.27, 0.07]], [[0.8, 0.8, 0.76]], [[0.001, 0.002, 0.0005]]] as const)(
    'undoes linearRgb for %j',
    (rgb) => {
      const back = linearRgb(...yccOf(rgb));
      // The factors of Y, Cb, Cr are rounded to four digits, hence the tolerance.
      back.forEach((value, i) => {
        expect(value / rgb[i]!).toBeCloseTo(1, 2);
      });
    },
  );
});

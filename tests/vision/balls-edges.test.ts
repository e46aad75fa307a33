import { describe, expect, it } from 'vitest';
import type { BallView } from '../../server/vision/balls/ball-view.ts';
import { blurAtEdge, type EdgeBlur, SHARP } from '../../server/vision/balls/edge-blur.ts';
import { makeWorkspace } from '../../server/vision/balls/fit-workspace.ts';
import { greyLevel, linear } from '../../server/vision/balls/light.ts';
import { fitOutline } from '../../server/vision/balls/outline-fit.ts';
import { type OutlineFit, sunkBy } from '../../server/vision/balls/outline-shape.ts';
import { cutPatch } from '../../server/vision/balls/patch.ts';
import { ballLight, baseColumns, COLUMN, COLUMNS } from '../../server/vision/balls/shading.ts';
import { darkUnder, skyAt, skyShare } from '../../server/vision/balls/sky-light.ts';
import { tableOf, valueAt } from '../../server/vision/balls/table.ts';
import { toneBend } from '../../server/vision/balls/tone-bend.ts';

/** A round outline of `radius` px about (`x`, `y`), seen under 17°. */
const viewOf = (radius: number, x: number, y: number): BallView => ({
  ...{ x, y, ax: 0, ay: radius, bx: radius, by: 0, centreDx: 0, centreDy: 0, radius },
  ...{ sinDown: 0.3, forwardX: 0, forwardY: 1, lawnX: 0, lawnY: 10 },
});

describe('a table', () => {
  it('is exact at its steps, at both ends, and straight between', () => {
    const squares = tableOf(10, (share) => share * share);
    expect(valueAt(squares, 0)).toBe(0);
    expect(valueAt(squares, 0.3)).toBeCloseTo(0.09, 12);
    expect(valueAt(squares, 0.35)).toBeCloseTo((0.09 + 0.16) / 2, 12);
    expect(valueAt(squares, 1)).toBe(1);
  });
});

describe('the tone curve', () => {
  it('shows half of the light as 188 of 255 (IEC 61966-2-1, from memory: 21.4 % is shown as 127.5)', () => {
    expect(greyLevel(0.5)).toBeCloseTo(187.5, 0);
    expect(greyLevel(0.214)).toBeCloseTo(127.5, 0);
    for (const level of [0, 5, 60, 200, 255]) expect(greyLevel(linear(level))).toBeCloseTo(level, 3);
  });
});

describe('what the tone curve adds to a shared cell', () => {
  const out = new Float64Array(3);
  const bend = (lawn: number[], ball: number[], w: number, wc = w): number[] => {
    const step = ball.map((value, c) => value - lawn[c]!);
    toneBend(Float64Array.from(lawn), Float64Array.from(step), 0, w, wc, 1, out);
    return [...out];
  };

  it('by hand: half black and half white shows 188, not 127.5', () => {
    const [y, cb, cr] = bend([0, 0, 0], [255, 0, 0], 0.5);
    expect(y).toBeCloseTo(187.5 - 127.5, 0);
    expect(Math.hypot(cb!, cr!)).toBeLessThan(0.2);
  });

  it('is nothing where a cell shows one of the two alone, or two of one colour', () => {
    for (const w of [0, 1])
      for (const value of bend([100, -20, 5], [40, 10, 20], w)) expect(value).toBeCloseTo(0, 1);
    for (const value of bend([100, -20, 5], [100, -20, 5], 0.5)) expect(value).toBeCloseTo(0, 1);
  });

  it('makes the brighter of the two reach over the other, whichever it is', () => {
    expect(bend([120, 0, 0], [30, 0, 0], 0.5)[0]).toBeGreaterThan(5);
    expect(bend([30, 0, 0], [120, 0, 0], 0.5)[0]).toBeGreaterThan(5);
  });

  it('works on each channel: a red ball as bright as the lawn turns yellow between them', () => {
    // Green (0, 170, 0) and red (255, 0, 0) in equal light: (188, 123, 0), where even mixing of levels gives (127.5, 85, 0).
    const ycc = (r: number, g: number): number[] => {
      const y = 0.299 * r + 0.587 * g;
      return [y, (0 - y) / 1.772, (r - y) / 1.402];
    };
    const got = bend(ycc(0, 170), ycc(255, 0), 0.5);
    const want = ycc(187.5, greyLevel(linear(170) / 2)).map((value, c) => value - ycc(127.5, 85)[c]!);
    for (const c of [0, 1, 2]) expect(got[c]).toBeCloseTo(want[c]!, 0);
  });
});

describe('what a blurred cell shows at the outline', () => {
  const at = (distance: number, blur = 1): { inward: number; outward: number; spread: number } => {
    const out = { ...SHARP };
    blurAtEdge(distance, blur, out);
    return out;
  };

  it('on it: the half-normal distribution, mean √(2/π), variance 1 − 2/π (NIST/SEMATECH e-Handbook, 1.3.6.6.1 and its half)', () => {
    const { inward, outward, spread } = at(0);
    expect(outward).toBeCloseTo(Math.sqrt(2 / Math.PI), 3);
    expect(inward).toBeCloseTo(outward, 12);
    expect(spread).toBeCloseTo(1 - 2 / Math.PI, 2);
  });

  it('grows with the blur, and is the mirror image on the other side', () => {
    expect(at(0, 0.3).outward).toBeCloseTo(0.3 * at(0).outward, 12);
    expect(at(0, 0.3).spread).toBeCloseTo(0.09 * at(0).spread, 12);
    expect(at(0.7).outward).toBeCloseTo(at(-0.7).inward, 12);
    expect(at(1.5).outward).toBeLessThan(at(0).outward);
  });

  it('far out: the lawn about the cell itself', () => {
    expect(at(4, 0.3)).toEqual({ inward: 0, outward: 0, spread: 0.09 });
  });

  it('is taken up by the columns: the lawn from farther out, the ball from farther in', () => {
    const light = ballLight(viewOf(4, 20, 20), null);
    const at = (u: number, blur: EdgeBlur): Float64Array => {
      const columns = new Float64Array(COLUMNS);
      baseColumns(light, u, 0, u, blur, columns, 0);
      return columns;
    };
    const edge = at(1, { inward: 0.2, outward: 0.3, spread: 0 });
    expect(edge[COLUMN.under]).toBeCloseTo(at(1.3, SHARP)[COLUMN.under]!, 12);
    expect(edge[COLUMN.above]).toBeCloseTo(at(0.8, SHARP)[COLUMN.above]!, 12);
    expect(edge[COLUMN.under]).toBeLessThan(at(1, SHARP)[COLUMN.under]! / 2);
    // A blur lowers the top of the darkness and widens its foot.
    expect(at(1, { ...SHARP, spread: 0.04 })[COLUMN.under]).toBeLessThan(at(1, SHARP)[COLUMN.under]!);
    expect(at(1.5, { ...SHARP, spread: 0.04 })[COLUMN.under]).toBeGreaterThan(at(1.5, SHARP)[COLUMN.under]!);
  });

  it('a disc loses σ² / 2R of its radius: by hand, 0.1 px of 3.2 px at a blur of 0.8 px', () => {
    expect(sunkBy(0.8, 3.2)).toBeCloseTo(0.1, 12);
  });
});

describe('the light of sky and lawn', () => {
  it('by hand: a horizontal top has twice the sky of an upright side, less what comes up from the lawn', () => {
    expect(skyAt(0)).toBeCloseTo(0, 4);
    expect(skyAt(1)).toBeCloseTo((2 / 1.1) ** (1 / 2.2) - 1, 4);
    expect(skyAt(-1)).toBeCloseTo((0.2 / 1.1) ** (1 / 2.2) - 1, 4);
  });

  it('matters less where the sun shines', () => {
    expect(skyAt(1, 1)).toBeLessThan(skyAt(1, 0) / 2);
    expect(skyAt(1, 0)).toBeGreaterThan(0);
  });

  it('by hand: lawn that lost half of the sky keeps 73 % of its brightness, all of it none', () => {
    expect(darkUnder(0.5)).toBeCloseTo(1 - 0.5 ** (1 / 2.2), 3);
    expect(darkUnder(1)).toBeCloseTo(1, 6);
    expect(darkUnder(0)).toBe(0);
  });

  it('is the share that a cast shadow keeps: one that takes 42 % of the brightness leaves 30 % of the light', () => {
    const sky = skyShare(0.42);
    expect(sky).toBeCloseTo(0.302, 3);
    // All of the sky and the sun hidden: what is left after the shadow took its part goes too.
    expect(darkUnder(1, sky, 1, 0.42)).toBeCloseTo(0.58, 6);
    // Sky hidden in the sun: the sun's 70 % of the light stay.
    expect(darkUnder(1, sky, 0, 0.42)).toBeCloseTo(1 - 0.698 ** (1 / 2.2), 2);
  });
});

/** A disc of `radius` px at (`x`, `y`) on even ground, mixed in light, blurred by `sigma` px and shown by the curve of IEC 61966-2-1. */
const drawnDisc = (
  radius: number,
  x: number,
  y: number,
  ball: readonly number[],
  lawn: readonly number[],
  sigma: number,
): { width: number; height: number; data: Uint8Array } => {
  const size = 40;
  const fine = 5;
  const reach = Math.ceil(3.5 * sigma * fine);
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-(((k - reach) / (sigma * fine)) ** 2) / 2),
  );
  const total = kernel.reduce((sum, value) => sum + value, 0);
  const n = size * fine;
  const inside = Float64Array.from({ length: n * n }, (_, i) => {
    const [u, v] = [((i % n) + 0.5) / fine - x, (Math.floor(i / n) + 0.5) / fine - y];
    return u * u + v * v < radius * radius ? 1 : 0;
  });
  const pass = (from: Float64Array, stride: number, other: number): Float64Array => {
    const to = new Float64Array(n * n);
    for (let a = 0; a < n; a++)
      for (let b = 0; b < n; b++) {
        let sum = 0;
        for (let k = -reach; k <= reach; k++) {
          const at = Math.max(0, Math.min(n - 1, a + k));
          sum += kernel[k + reach]! * from[at * stride + b * other]!;
        }
        to[a * stride + b * other] = sum / total;
      }
    return to;
  };
  const share = pass(pass(inside, 1, n), n, 1);
  const data = new Uint8Array(3 * size * size);
  for (let i = 0; i < size * size; i++) {
    let w = 0;
    for (let k = 0; k < fine * fine; k++) {
      const [column, row] = [
        (i % size) * fine + (k % fine),
        Math.floor(i / size) * fine + Math.floor(k / fine),
      ];
      w += share[row * n + column]! / (fine * fine);
    }
    for (const c of [0, 1, 2]) data[3 * i + c] = Math.round(greyLevel(w * ball[c]! + (1 - w) * lawn[c]!));
  }
  return { width: size, height: size, data };
};

describe('an outline in a picture whose light was blurred before the tone curve', () => {
  const LAWN = [0.16, 0.19, 0.05];
  const BLUR = 0.7;
  const fitted = (radius: number, ball: readonly number[]): { fit: OutlineFit; y: number } => {
    const [x, y] = [20.2, 19.7];
    const raster = drawnDisc(radius, x, y, ball, LAWN, BLUR);
    const view = viewOf(radius, x + 0.3, y - 0.2);
    // The view's middle is exactly that of a cell, which has no direction from it.
    const blur = { luma: Math.sqrt(BLUR ** 2 + 1 / 12), colour: 0.5, lnLumaSd: 0.1, lnColourSd: 0.4 };
    return {
      fit: fitOutline(cutPatch(raster, view), view, { sun: null, blur, steps: 8 }, makeWorkspace())!,
      y,
    };
  };

  it.each([
    ['white', 2.5, [0.6, 0.6, 0.57]],
    ['white', 4, [0.6, 0.6, 0.57]],
    ['black', 2.5, [0.01, 0.01, 0.012]],
    ['black', 4, [0.01, 0.01, 0.012]],
    ['red', 4, [0.4, 0.012, 0.016]],
    ['green', 4, [0.01, 0.15, 0.05]],
  ])('has its own size and place: a %s disc of %f px', (_, radius, ball) => {
    const { fit, y } = fitted(radius, ball);
    // Levels mixed evenly would make the black one 0.44 px too small and the white one 0.25 px too large.
    expect(Math.abs(fit.radiusOffset)).toBeLessThan(0.15);
    expect(Math.hypot(fit.x - 20.2, fit.y - y)).toBeLessThan(0.12);
  });

  it('is neither too small nor too large on the whole, at a radius where the blur of an outline that bends takes 0.11 px', () => {
    const discs = [
      [0.6, 0.6, 0.57],
      [0.01, 0.01, 0.012],
      [0.4, 0.012, 0.016],
      [0.01, 0.15, 0.05],
    ];
    const offsets = discs.map((ball) => fitted(2.5, ball).fit.radiusOffset);
    expect(Math.abs(offsets.reduce((sum, value) => sum + value, 0) / discs.length)).toBeLessThan(0.05);
  });
});

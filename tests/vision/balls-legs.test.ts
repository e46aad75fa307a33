import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseMarks } from '../../server/contract/parse.ts';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { readLawn } from '../../server/reading/read-lawn.ts';
import type { Raster } from '../../server/units/raster.ts';
import { viewBall } from '../../server/vision/balls/ball-view.ts';
import { colourRatios, lnClutterDensities } from '../../server/vision/balls/colour-model.ts';
import { clearShare, coveredBy, coveringColours } from '../../server/vision/balls/covering.ts';
import { sceneOf } from '../../server/vision/balls/first-look.ts';
import { makeWorkspace, reserve } from '../../server/vision/balls/fit-workspace.ts';
import { flattenWindow } from '../../server/vision/balls/flat-window.ts';
import { hideColumns } from '../../server/vision/balls/hidden-columns.ts';
import { type JudgedBall, judgeBall, placedAgain } from '../../server/vision/balls/judge-ball.ts';
import { columnAt, leanOf, shiftStrips } from '../../server/vision/balls/lean.ts';
import { cutPatch } from '../../server/vision/balls/patch.ts';
import { SIDE } from '../../server/vision/balls/roundness.ts';
import { sieveCandidates } from '../../server/vision/balls/sieve.ts';
import {
  isCoveredNear,
  maskColumns,
  masked,
  openWindow,
  values,
} from '../../server/vision/balls/sieve-window.ts';
import { unmixColumns } from '../../server/vision/balls/unmix-columns.ts';
import { toYcc } from '../../server/vision/ycc.ts';
import { loadFixtures } from '../accuracy/fixtures.ts';
import { scorePicture } from '../accuracy/measure.ts';
import { lookAt } from './balls-scene.ts';
import { CAMERA, LAWN, LAWN_COLOUR, type Rgb, VIEW } from './plain-lawn.ts';

const FLANNEL: Rgb = [150, 150, 150];
const RED: Rgb = [180, 40, 40];

/** A ball of 7 px in radius, whose patch shows more of what is above and below. */
const LARGE_CAMERA = lookAt([11.3, 2, 6], [11.3, 14], 2000, 120, 90);
const LARGE = viewBall(LARGE_CAMERA, 11.3, 14)!;

/** A red disc on lawn, before which a leg stands whose right edge is 0.2 radii left of the disc's middle there, and `lean` px farther right for each px upwards; two radii wide, blurred. */
const picture = (lean: number, view = VIEW, leg = FLANNEL): Raster => {
  const { width, height } = CAMERA;
  const data = new Uint8Array(3 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const edge = view.x - 0.2 * view.radius + lean * (view.y - y - 0.5);
      const right = 1 / (1 + Math.exp((x + 0.5 - edge) / 0.4));
      const left = 1 / (1 + Math.exp((edge - 2 * view.radius - x - 0.5) / 0.4));
      const share = right * left;
      const inside = Math.hypot(x + 0.5 - view.x, y + 0.5 - view.y) < view.radius;
      for (let c = 0; c < 3; c++)
        data[3 * (y * width + x) + c] = Math.round(share * leg[c]! + (1 - share) * (inside ? RED : LAWN)[c]!);
    }
  return { width, height, data };
};

/** A strip of 24 columns of lawn with a grey leg from `from` to `to`, columns, shared between the columns at its edges. */
const strip = (from: number, to: number): Float64Array => {
  const [lawn, grey] = [toYcc(...LAWN), toYcc(...FLANNEL)];
  return Float64Array.from({ length: 72 }, (_, i) => {
    const [k, c] = [Math.floor(i / 3), i % 3];
    const share = Math.max(0, Math.min(k + 1, to) - Math.max(k, from));
    return share * grey[c]! + (1 - share) * lawn[c]!;
  });
};

describe('the lean of what stands upright', () => {
  it.each([
    [0, 0],
    [0.2, 0],
    [1, 1],
    [2.5, 2.5],
    [-3, -3],
  ])('a leg that lies %f columns farther to the right above than below leans by %f', (shift, expected) => {
    expect(leanOf(strip(9 + shift, 15 + shift), strip(9, 15), 24)).toBe(expected);
  });

  it('is none where the strips show different things, or grain', () => {
    const grain = Float64Array.from({ length: 72 }, (_, i) => 100 + 3 * Math.sin(12.9898 * i));
    const other = Float64Array.from({ length: 72 }, (_, i) => 100 + 3 * Math.sin(78.233 * i));
    expect(leanOf(grain, other, 24)).toBe(0);
    expect(leanOf(strip(9, 15), strip(30, 31), 24)).toBe(0);
  });

  it('is taken out of both strips alike', () => {
    const [above, below] = [strip(11, 17), strip(9, 15)];
    shiftStrips(above, below, 24, 2);
    expect(above).toEqual(strip(10, 16));
    expect(below).toEqual(strip(10, 16));
  });

  it('is asked between columns too, and the outermost go on', () => {
    const ramp = Float64Array.from({ length: 12 }, (_, i) => Math.floor(i / 3));
    expect([-1, 0, 1.25, 3, 7].map((k) => columnAt(ramp, 4, k, 1))).toEqual([0, 0, 1.25, 3, 3]);
  });
});

/** How far the mean colour of the trusted cells right of a leg, well inside the disc, is from the ball's own. */
const missBeside = (lean: number): number => {
  const raster = picture(lean);
  const patch = cutPatch(raster, VIEW);
  hideColumns(patch, VIEW, LAWN_COLOUR);
  unmixColumns(raster, patch, VIEW, LAWN_COLOUR);
  const own = toYcc(...RED);
  let [sum, weight] = [0, 0];
  for (let i = 0; i < patch.count; i++) {
    if (Math.hypot(patch.x[i]! - VIEW.x, patch.y[i]! - VIEW.y) > 0.75 * VIEW.radius) continue;
    const miss = Math.hypot(...own.map((each, c) => patch.values[3 * i + c]! - each));
    sum += patch.trust[i]! * miss;
    weight += patch.trust[i]!;
  }
  expect(weight).toBeGreaterThan(4);
  return sum / weight;
};

describe('a leg before a ball', () => {
  // Without its lean a leg that leans by a quarter leaves cells that are 34 grey levels off.
  it.each([0, 0.15, 0.25, -0.25])('that leans by %f is taken off the cells beside it', (lean) => {
    expect(missBeside(lean)).toBeLessThan(9);
  });

  it.each([0, 0.2, -0.2])('that leans by %f vanishes from a flattened window, and the ball stays', (lean) => {
    const lawn = Float64Array.from(toYcc(...LAWN));
    const w = openWindow(picture(lean), VIEW.x, VIEW.y, VIEW.radius);
    const [x, y, r] = [(VIEW.x - w.left) / w.cell, (VIEW.y - w.top) / w.cell, VIEW.radius / w.cell];
    const contrast = (i: number, j: number): number =>
      Math.hypot(...lawn.map((each, c) => values[3 * (j * SIDE + i) + c]! - each));
    const leg = Math.floor(x - 0.2 * r - 3.5 / w.cell);
    expect(contrast(leg, Math.floor(y))).toBeGreaterThan(30);
    expect(flattenWindow(w, y, 1.7 * r, lawn)).toBe(true);
    let most = 0;
    for (let j = 2; j < w.rows - 2; j++)
      for (let i = 2; i < x - 1.3 * r; i++) most = Math.max(most, contrast(i, j));
    // Without the lean 24 grey levels are left of its edges.
    expect(most).toBeLessThan(16);
    expect(contrast(Math.floor(x + 0.4 * r), Math.floor(y))).toBeGreaterThan(60);
  });

  it('is looked for at a disc in the middle of its window only', () => {
    const w = openWindow(picture(0), VIEW.x, VIEW.y, VIEW.radius);
    const before = values.slice();
    expect(flattenWindow(w, 1, 3, Float64Array.from(toYcc(...LAWN)))).toBe(false);
    expect(values).toEqual(before);
  });

  it('covers places as near as it is', () => {
    const w = openWindow(picture(0), VIEW.x, VIEW.y, VIEW.radius);
    const [x, y, r] = [(VIEW.x - w.left) / w.cell, (VIEW.y - w.top) / w.cell, VIEW.radius / w.cell];
    maskColumns(w, y, r, 1.7, LAWN_COLOUR);
    expect(masked.includes(1)).toBe(true);
    expect([isCoveredNear(w, x, 1.6 * r), isCoveredNear(w, x + 3 * r, 1.6 * r)]).toEqual([true, false]);
  });
});

describe('what stands before a place', () => {
  const coloursOf = (raster: Raster) => {
    const patch = cutPatch(raster, LARGE);
    hideColumns(patch, LARGE, LAWN_COLOUR);
    return { patch, colours: coveringColours(patch, LARGE, LAWN_COLOUR) };
  };

  it('is seen above the ball and below it in its own colour', () => {
    const { colours } = coloursOf(picture(0, LARGE));
    expect(colours).toHaveLength(2);
    for (const colour of colours) {
      // Its edges are mixed with lawn.
      expect(Math.hypot(...toYcc(...FLANNEL).map((each, c) => each - colour[c]!))).toBeLessThan(20);
    }
  });

  it('is nothing on open lawn', () => {
    const { width, height } = CAMERA;
    const data = new Uint8Array(3 * width * height).map((_, i) => LAWN[i % 3]!);
    expect(coloursOf({ width, height, data }).colours).toEqual([]);
  });

  it('leaves of the disc what is counted', () => {
    const { patch } = coloursOf(picture(0, LARGE));
    const space = makeWorkspace();
    reserve(space, patch.count);
    let [inside, clear] = [0, 0];
    for (let i = 0; i < patch.count; i++) {
      space.rho[i] = Math.hypot(patch.x[i]! - LARGE.x, patch.y[i]! - LARGE.y) / LARGE.radius;
      if (space.rho[i]! > 1.1) continue;
      inside++;
      if (patch.trust[i]! > 0) clear++;
    }
    expect(clearShare(patch.trust, space, patch.count)).toBeCloseTo(clear / inside, 12);
    // Left of 0.2 radii left of the middle a disc has (π/2 − asin 0.2 − 0.2 · √0.96) / π = 0.37 of its area.
    expect(clear / inside).toBeGreaterThan(0.45);
    expect(clear / inside).toBeLessThan(0.75);
  });

  it.each([
    [1, 0],
    [0.85, 0],
    [0.7, 0.5],
    [0.55, 1],
    [0.1, 1],
  ])('covers a ball of which %f is clear by %f', (clear, covered) => {
    expect(coveredBy(clear)).toBeCloseTo(covered, 9);
  });

  it('makes what has its colour a part of it, and nothing else', () => {
    const ratio = (rgb: Rgb) => colourRatios(toYcc(...rgb), 4, LAWN_COLOUR.ycc, LAWN_COLOUR)[0]!.ratio;
    const sleeve = ratio([170, 35, 40]);
    const partOf = (rgb: Rgb) => lnClutterDensities(ratio(rgb), [0, 0, 0], [sleeve]).part;
    expect(lnClutterDensities(ratio(RED), [0, 0, 0]).part).toBe(Number.NEGATIVE_INFINITY);
    expect(partOf(RED)).toBeGreaterThan(lnClutterDensities(ratio(RED), [0, 0, 0]).thing + 2);
    expect(partOf([30, 60, 170])).toBeLessThan(lnClutterDensities(ratio([30, 60, 170]), [0, 0, 0]).thing - 5);
  });
});

describe('half a red ball', () => {
  const judgedBefore = (leg: Rgb) => {
    const scene = sceneOf(picture(0, LARGE, leg), LARGE_CAMERA, STANDARD_COURT, LAWN_COLOUR);
    return { scene, ball: judgeBall(scene, LARGE, null, 8)! };
  };
  const odds = ({ lnOdds }: JudgedBall) => lnOdds[BALL_COLOURS.indexOf('red')]!;

  it('is a part of red trousers rather than of grey ones', () => {
    const [red, grey] = [judgedBefore([170, 38, 42]).ball, judgedBefore(FLANNEL).ball];
    expect(red.clear).toBeLessThan(0.85);
    expect(grey.clear).toBeLessThan(0.85);
    // By hand, at their middles: ln density −2.7 of things of any colour (spreads 1 and 0.7), 0.7 of parts of what stands there (0.45 and 0.2); the legs differ a little from the ball.
    expect(red.clutter - grey.clutter).toBeGreaterThan(1.5);
  });

  // By hand: 1.5 ln odds, and half of what the outline lacks to 7, at most 6, each times how much is covered.
  it.each([
    [1, 9, 0],
    [0.55, 9, 1.5],
    [0.55, 4, 3],
    [0.7, 4, 1.5],
    [0.2, -5, 4.5],
  ])('of which %f is clear with an outline of %f ln odds is less likely by %f', (clear, outline, less) => {
    const { scene, ball } = judgedBefore(FLANNEL);
    const evidence = { ...ball.evidence, round: outline, size: 0 };
    const open = placedAgain(scene, { ...ball, evidence, clear: 1 })!;
    const covered = placedAgain(scene, { ...ball, evidence, clear })!;
    expect(odds(open) - odds(covered)).toBeCloseTo(less, 9);
  });
});

describe('half-hidden balls of the fixtures', () => {
  // Their truth files: balls of which legs leave a fifth to two fifths, and balls right behind others that leave a quarter.
  it.each([
    ['legs-south', ['blue', 'red', 'pink', 'white']],
    ['behind-east', ['green', 'yellow', 'blue']],
    ['behind-south', ['red', 'black', 'green']],
  ] as const)('%s: %s are found where they are', async (name, colours) => {
    const fixture = loadFixtures().find((each) => each.name === name)!;
    const reading = readLawn(await openPhoto(readFileSync(fixture.photo)), parseMarks(fixture.marks));
    const hidden = scorePicture(fixture, reading).matches.filter(({ visible }) => visible < 0.5);
    expect(hidden.map(({ colour }) => colour)).toEqual(expect.arrayContaining([...colours]));
    for (const { error, wrongCall } of hidden) {
      expect(error).toBeLessThan(0.35);
      expect(wrongCall).toBe(false);
    }
  });
});

describe('a crowd', () => {
  it('leaves no ball behind a leg out before it is fitted: 24 half balls beside 60 whole ones', () => {
    const camera = lookAt([12.8, -14, 9], [12.8, 14], 1800, 1600, 700);
    const [width, height] = [1600, 700];
    const data = new Uint8Array(3 * width * height);
    for (let k = 0; k < data.length; k++) data[k] = LAWN[k % 3]!;
    const paint = (x: number, y: number, rgb: Rgb): void => data.set(rgb, 3 * (y * width + x));
    const views = Array.from({ length: 84 }, (_, i) =>
      viewBall(camera, 5 + 1.3 * (i % 12), 7 + 2 * Math.floor(i / 12)),
    ).filter((view) => view !== null);
    // The whole ones fill the fifty places of those that nothing hides.
    const behind = views.slice(-24);
    for (const view of views) {
      const { x, y, radius } = view;
      const r = Math.ceil(radius);
      for (let j = Math.floor(y) - r; j <= y + r; j++)
        for (let i = Math.floor(x) - r; i <= x + r; i++)
          if (Math.hypot(i + 0.5 - x, j + 0.5 - y) < radius) paint(i, j, RED);
      if (!behind.includes(view)) continue;
      // A leg two radii wide, whose right edge is a tenth of a radius left of the middle.
      for (let j = Math.floor(y - 5 * radius); j <= y + 5 * radius; j++)
        for (let i = Math.ceil(x - 2.1 * radius); i < x - 0.1 * radius; i++) paint(i, j, FLANNEL);
    }
    const candidates = views.map(({ x, y }) => ({ x, y, score: 1 }));
    const kept = sieveCandidates({ width, height, data }, camera, candidates, LAWN_COLOUR);
    const near = behind.filter(({ x, y, radius }) =>
      kept.some((view) => Math.hypot(view.x - x, view.y - y) < radius),
    );
    expect(near).toHaveLength(24);
  });
});

import type { Raster } from '../types.ts';
import { writeYcc } from '../ycc.ts';
import type { BallView } from './ball-view.ts';
import type { FittedBall } from './fitted-ball.ts';
import { isThing } from './hidden-columns.ts';
import type { LawnColour } from './lawn-colour.ts';
import { type Bounds, boundsOf, lawnWindow, REACH, smoothed, type Window } from './lawn-window.ts';
import { cutPatch, type Patch } from './patch.ts';
import type { Sun } from './shading.ts';

/** Light and shade must each have this share of the lawn about the ball. */
const LEAST_SHARE = 0.07;
/** Brightness of shade over that of lawn in the sun, after the tone curve: lighter is a mowing stripe, darker is no lawn. Shadows of people in the rendered pictures have 0.48 to 0.68. */
const SHADE = { least: 0.35, most: 0.78 } as const;
/** The two must be so many standard deviations of either apart, or they are one uneven brightness. */
const APART = 3;
/** Rounds in which the two levels are found from each other. */
const ROUNDS = 5;
/** The share of the step from shade to sun at either end that counts as its level: grain is no light. */
const GRAIN = 0.2;
/** Lawn that a ball hides is as lit as what is seen about it, within so many radii (standard deviation), three times that at most. */
const NEAR = 0.3;
const FARTHEST = 3;
/** Lawn px below which nothing is told. */
const LEAST_PX = 40;

/** A quick look takes every so manieth px, at most so many, and asks for this share of shade. */
const PACE = 2;
const MOST_QUICK = 4096;
const QUICK_SHARE = 0.05;

/** Luma of lawn in shade and in the sun, grey levels. */
export type Levels = { readonly shade: number; readonly sun: number };

/** Sums of the values below and above a cut: count, sum, sum of squares of each. */
const sums = new Float64Array(6);

const splitAt = (luma: Float64Array, open: Uint8Array, count: number, cut: number): void => {
  sums.fill(0);
  for (let k = 0; k < count; k++) {
    if (open[k] === 0) continue;
    const o = luma[k]! < cut ? 0 : 3;
    sums[o] = sums[o]! + 1;
    sums[o + 1] = sums[o + 1]! + luma[k]!;
    sums[o + 2] = sums[o + 2]! + luma[k]! * luma[k]!;
  }
};

const meanAt = (o: number): number => sums[o + 1]! / sums[o]!;
const sdAt = (o: number): number => Math.sqrt(Math.max(0, sums[o + 2]! / sums[o]! - meanAt(o) ** 2));

/** Parts the first `count` values where `open` is 1 into two about their means, into `sums`; false where either has less than `share` of them. */
const splitInTwo = (luma: Float64Array, open: Uint8Array, count: number, share: number): boolean => {
  let least = 255;
  let most = 0;
  for (let k = 0; k < count; k++) {
    if (open[k] === 0) continue;
    if (luma[k]! < least) least = luma[k]!;
    if (luma[k]! > most) most = luma[k]!;
  }
  let cut = (least + most) / 2;
  for (let round = 0; round < ROUNDS; round++) {
    splitAt(luma, open, count, cut);
    const all = sums[0]! + sums[3]!;
    if (all < LEAST_PX || Math.min(sums[0]!, sums[3]!) < share * all) return false;
    cut = (meanAt(0) + meanAt(3)) / 2;
  }
  return true;
};

/** The two levels of brightness of the open px, whose luma is `luma`; null where they are not light and shade. */
const levelsOf = (luma: Float64Array, open: Uint8Array): Levels | null => {
  if (!splitInTwo(luma, open, luma.length, LEAST_SHARE)) return null;
  const [shade, sun] = [meanAt(0), meanAt(3)];
  const ratio = shade / sun;
  const told = sun - shade > APART * Math.max(sdAt(0), sdAt(3));
  return told && ratio > SHADE.least && ratio < SHADE.most ? { shade, sun } : null;
};

const px = new Float64Array(3);
const quickLuma = new Float64Array(MOST_QUICK);
const all = new Uint8Array(MOST_QUICK).fill(1);

/** A quick look whether the lawn px of `bounds` are as unlike in brightness as light and shade. */
const mayHaveShade = (
  { data, width: pitch }: Raster,
  { left, top, width, height }: Bounds,
  lawn: LawnColour,
): boolean => {
  let count = 0;
  for (let j = top; j < top + height; j += PACE)
    for (let i = left; i < left + width && count < MOST_QUICK; i += PACE) {
      const p = (j * pitch + i) * 3;
      writeYcc(data[p]!, data[p + 1]!, data[p + 2]!, px, 0);
      if (!isThing(px, 0, lawn)) quickLuma[count++] = px[0]!;
    }
  return splitInTwo(quickLuma, all, count, QUICK_SHARE) && meanAt(0) < SHADE.most * meanAt(3);
};

/** How far from shade (0) to sun (1) lawn of this luma is. */
const litShare = (luma: number, { shade, sun }: Levels): number =>
  Math.max(0, Math.min(1, ((luma - shade) / (sun - shade) - GRAIN) / (1 - 2 * GRAIN)));

/** How lit the lawn is about px (`i`, `j`) of the window, by the open px within `far`, each weighed by a normal distribution of `sd` px; half where none is. */
const litNear = (
  { width, height, open }: Window,
  luma: Float64Array,
  levels: Levels,
  i: number,
  j: number,
  sd: number,
): number => {
  const far = Math.ceil(FARTHEST * sd);
  let [sum, weight] = [0, 0];
  for (let b = Math.max(0, j - far); b <= Math.min(height - 1, j + far); b++)
    for (let a = Math.max(0, i - far); a <= Math.min(width - 1, i + far); a++) {
      const k = b * width + a;
      if (open[k] === 0) continue;
      const w = Math.exp(-((a - i) ** 2 + (b - j) ** 2) / (2 * sd * sd));
      sum += w * litShare(luma[k]!, levels);
      weight += w;
    }
  return weight > 0 ? sum / weight : 0.5;
};

/** Luma of the lawn in every cell of `patch`, as light and shade are told apart in `window`. */
const lawnIn = (
  patch: Patch,
  window: Window,
  luma: Float64Array,
  levels: Levels,
  sd: number,
): Float64Array => {
  const { left, top, width, open } = window;
  const lawn = new Float64Array(patch.count);
  for (let c = 0; c < patch.count; c++) {
    const [i, j] = [Math.floor(patch.x[c]!) - left, Math.floor(patch.y[c]!) - top];
    const k = j * width + i;
    const lit = open[k] === 1 ? litShare(luma[k]!, levels) : litNear(window, luma, levels, i, j, sd);
    lawn[c] = levels.shade + (levels.sun - levels.shade) * lit;
  }
  return lawn;
};

/** Mean of `values` over the trusted cells of the ball's disc; 0 where there is none. */
const meanInside = (patch: Patch, { x, y, radius }: BallView, values: Float64Array): number => {
  let [sum, count] = [0, 0];
  for (let c = 0; c < patch.count; c++) {
    if (patch.trust[c] === 0 || Math.hypot(patch.x[c]! - x, patch.y[c]! - y) > radius) continue;
    sum += values[c]!;
    count++;
  }
  return count === 0 ? 0 : sum / count;
};

/** Light and shade about the ball of `view`. */
type ToldApart = { readonly window: Window; readonly luma: Float64Array; readonly levels: Levels };

const tellApart = (
  raster: Raster,
  view: BallView,
  sun: Sun | null,
  others: readonly FittedBall[],
  lawn: LawnColour,
  radii = REACH,
): ToldApart | null => {
  const bounds = boundsOf(raster, view, radii);
  if (!mayHaveShade(raster, bounds, lawn)) return null;
  const window = lawnWindow(raster, bounds, view, sun, others, lawn);
  const luma = smoothed(window);
  const levels = levelsOf(luma, window.open);
  return levels && { window, luma, levels };
};

/** How far around a ball its shade is compared with other shade, radii. */
const FAR = 12;

/** Luma of lawn in shade and in the sun around `ball`, grey levels; null where it is evenly lit. */
export const levelsAround = (
  raster: Raster,
  { view, fit }: FittedBall,
  sun: Sun | null,
  lawn: LawnColour,
): Levels | null => tellApart(raster, { ...view, x: fit.x, y: fit.y }, sun, [], lawn, FAR)?.levels ?? null;

/**
 * Light on the lawn in every cell of `patch`, as a share of that at the ball of `view`, where the shadow of a person or a tree ends near it; null where the lawn is evenly lit. What the ball itself and the
 * balls `others` hide or shade under the picture's `sun`, if that is known, is taken to be as lit as what is seen around it.
 */
export const lawnLight = (
  raster: Raster,
  patch: Patch,
  view: BallView,
  sun: Sun | null,
  others: readonly FittedBall[],
  lawn: LawnColour,
): Float64Array | null => {
  if (patch.cell !== 1) return null;
  const told = tellApart(raster, view, sun, others, lawn);
  if (told === null) return null;
  const { window, luma, levels } = told;
  const light = lawnIn(patch, window, luma, levels, NEAR * view.radius);
  const own = meanInside(patch, view, light);
  if (own === 0) return null;
  for (let c = 0; c < light.length; c++) light[c] = light[c]! / own;
  return light;
};

/** Difference in light, as a share of that at the ball, from which shade ends there, and how far from the middle of the ball that counts, radii. */
const ENDS = 0.15;
const AT_BALL = 1.2;

/** Whether the shadow of a person or a tree ends on `ball` or right beside it. */
export const isHalfLit = (
  raster: Raster,
  { view, fit }: FittedBall,
  sun: Sun | null,
  others: readonly FittedBall[],
  lawn: LawnColour,
): boolean => {
  const here = { ...view, x: fit.x, y: fit.y };
  const patch = cutPatch(raster, here);
  const light = lawnLight(raster, patch, here, sun, others, lawn);
  if (light === null) return false;
  let [least, most] = [1, 1];
  for (let c = 0; c < patch.count; c++) {
    if (Math.hypot(patch.x[c]! - fit.x, patch.y[c]! - fit.y) > AT_BALL * view.radius) continue;
    [least, most] = [Math.min(least, light[c]!), Math.max(most, light[c]!)];
  }
  return most - least > ENDS;
};

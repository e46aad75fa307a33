import { medianOf } from '../selection.ts';
import type { FitWorkspace } from './fit-workspace.ts';
import type { Patch } from './patch.ts';
import type { StoredNoise } from './stored-noise.ts';

/** Standard deviation of the lawn's texture and the picture's noise in one cell: luma and colour, grey levels. */
export type CellNoise = { readonly luma: number; readonly colour: number };

/** The middle one of the noises of several places, since beside a leg it is the leg's. 1 of none. */
export const typicalNoise = (noises: readonly CellNoise[]): CellNoise => {
  const luma = new Float64Array(noises.length);
  const colour = new Float64Array(noises.length);
  for (let i = 0; i < noises.length; i++) {
    luma[i] = noises[i]!.luma;
    colour[i] = noises[i]!.colour;
  }
  const middle = noises.length >> 1;
  return { luma: luma.sort()[middle] ?? 1, colour: colour.sort()[middle] ?? 1 };
};

/** What the variances depend on besides the cell. */
type Appearance = {
  readonly ball: Float64Array;
  readonly lawn: Float64Array;
  readonly noise: CellNoise;
  readonly stored: StoredNoise;
};

/** Noise of the picture on a smooth ball: luma, colour, grey levels. Phones at base sensitivity show 1–3. From memory. */
const BALL_NOISE = [3, 1.5] as const;
/** Least noise of the lawn: rounding and JPEG. */
const LEAST_NOISE = [1.5, 0.7] as const;
/** Neighbouring luma cells share texture: so many cells count as one. */
export const LUMA_SHARED = 2;
/** Most that neighbours are taken to correlate by: from a patch of so few cells no more can be told. */
const MOST_CORRELATED = 0.6;
/** Colour blurred by σ shares its noise over 4πσ² cells; part of that is lawn colour which does not vary. */
const COLOUR_SHARED = 0.16;
/** Share of a ball's brightness which its shading model may miss. */
const SHADE_ERROR = 0.05;
/** Share of the contrast which the model of an edge may miss half way (sharpening, a tone curve of the phone's own). */
const EDGE_ERROR = 0.1;
/** The same along the lowest arc, where blades, the shadow under the ball and its dark side meet. */
const FOOT_ERROR = 0.3;
/** Share of the lawn's brightness which the model of its shadows may miss. */
const SHADOW_ERROR = 0.3;

/** Square of the error of an edge's model half way that the lowest arc adds, in shares of the contrast, at the cosine `down` from the outline's lowest point. */
export const footError = (down: number): number => {
  const k = Math.min(1, Math.max(0, (down - 0.3) / 0.5));
  const error = FOOT_ERROR * k * k * (3 - 2 * k);
  return error * error;
};

/** Variance of a cell covered `w` because the model of an edge errs, for a squared contrast and the lowest arc's error. */
const edgeVariance = (w: number, contrast2: number, foot: number): number => {
  const half = 4 * w * (1 - w);
  return contrast2 * half * (EDGE_ERROR * EDGE_ERROR * half + foot);
};

/**
 * Variances of luma and colour of all cells into the workspace: of the single cell (for robust weights), and with noise that neighbours share
 * counted in (for the normal equations; `blurColour` in px).
 */
export const cellVariances = (
  patch: Patch,
  space: FitWorkspace,
  { ball, lawn, noise, stored }: Appearance,
  blurColour: number,
): void => {
  const { cover, coverColour, contrast, foot, dark: hidden } = space;
  const { variance, varianceColour, shared, sharedColour } = space;
  const [lumaLawn, lumaBall] = [noise.luma ** 2, BALL_NOISE[0] ** 2];
  const [colourLawn, colourBall] = [noise.colour ** 2, BALL_NOISE[1] ** 2];
  const shade = (SHADE_ERROR * ball[0]!) ** 2;
  const shadeColour = SHADE_ERROR ** 2 * (ball[1]! ** 2 + ball[2]! ** 2);
  const dim = (SHADOW_ERROR * lawn[0]!) ** 2;
  const dimColour = SHADOW_ERROR ** 2 * (lawn[1]! ** 2 + lawn[2]! ** 2);
  const many = LUMA_SHARED * Math.max(1, (COLOUR_SHARED * 4 * Math.PI * blurColour ** 2) / patch.cell ** 2);
  for (let i = 0; i < patch.count; i++) {
    const w = cover[i]!;
    const wc = coverColour[i]!;
    const dark = (1 - w) * hidden[i]!;
    const c0 = contrast[3 * i]!;
    const c1 = contrast[3 * i + 1]!;
    const c2 = contrast[3 * i + 2]!;
    const luma = edgeVariance(w, c0 * c0, foot[i]!) + w * w * shade + dark * dark * dim;
    const colour =
      edgeVariance(wc, c1 * c1 + c2 * c2, foot[i]!) + wc * wc * shadeColour + dark * dark * dimColour;
    const n = (1 - w) * lumaLawn + w * lumaBall;
    const nc = (1 - wc) * colourLawn + wc * colourBall;
    variance[i] = n + luma;
    varianceColour[i] = nc + colour;
    shared[i] = LUMA_SHARED * n + stored.luma + luma;
    sharedColour[i] = many * nc + stored.colour + colour;
  }
};

/** Colours of ball and lawn and the lawn's noise before anything is fitted: medians inside three quarters of the radius, and beyond the outline. Null with too few cells. */
export const startColours = (
  patch: Patch,
  space: FitWorkspace,
): { ball: Float64Array; lawn: Float64Array; noise: CellNoise } | null => {
  const ball = new Float64Array(3);
  const lawn = new Float64Array(3);
  const spread = new Float64Array(3);
  const clear = 1.5 * patch.cell;
  for (let c = 0; c < 3; c++) {
    const inside = gather(patch, space, c, (i) => space.rho[i]! < 0.75);
    if (inside < 2) return null;
    ball[c] = medianOf(space.scratch, inside);
    const outside = gather(patch, space, c, (i) => space.distance[i]! > clear);
    if (outside < 12) return null;
    lawn[c] = medianOf(space.scratch, outside);
    for (let k = 0; k < outside; k++) space.scratch[k] = Math.abs(space.scratch[k]! - lawn[c]!);
    spread[c] = 1.4826 * medianOf(space.scratch, outside);
  }
  return { ball, lawn, noise: noiseOf(spread, patch.cell) };
};

const gather = (patch: Patch, space: FitWorkspace, c: number, wanted: (i: number) => boolean): number => {
  let n = 0;
  for (let i = 0; i < patch.count; i++)
    if (patch.trust[i]! > 0 && wanted(i)) space.scratch[n++] = patch.values[3 * i + c]!;
  return n;
};

const noiseOf = (spread: Float64Array, cell: number): CellNoise => ({
  luma: Math.max(LEAST_NOISE[0] / cell, spread[0]!),
  colour: Math.max(LEAST_NOISE[1] / cell, Math.sqrt((spread[1]! ** 2 + spread[2]! ** 2) / 2)),
});

/**
 * Of how many neighbouring cells the lawn's brightness counts as one: (1 + ρ) / (1 − ρ), for residuals whose neighbours along an edge correlate by ρ and fade as a
 * geometric series. Compression that smooths a lawn to patches shows here, not in the size of the residuals. At least LUMA_SHARED.
 */
export const sharedCells = (patch: Patch, space: FitWorkspace): number => {
  let product = 0;
  let square = 0;
  for (let i = 1; i < patch.count; i++) {
    if (patch.y[i] !== patch.y[i - 1] || Math.max(space.cover[i]!, space.cover[i - 1]!) > 0.02) continue;
    const [a, b] = [space.residual[3 * i - 3]!, space.residual[3 * i]!];
    const trust = Math.min(space.weight[i]!, space.weight[i - 1]!);
    product += trust * a * b;
    square += (trust * (a * a + b * b)) / 2;
  }
  const correlation = square > 0 ? Math.max(0, Math.min(MOST_CORRELATED, product / square)) : 0;
  return Math.max(LUMA_SHARED, (1 + correlation) / (1 - correlation));
};

/** The lawn's noise from the residuals beyond the outline; `before` when there are too few. */
export const estimateNoise = (patch: Patch, space: FitWorkspace, before: CellNoise): CellNoise => {
  const spread = new Float64Array(3);
  for (let c = 0; c < 3; c++) {
    let n = 0;
    for (let i = 0; i < patch.count; i++)
      if (space.cover[i]! < 0.02 && patch.trust[i]! > 0)
        space.scratch[n++] = Math.abs(space.residual[3 * i + c]!);
    if (n < 12) return before;
    spread[c] = 1.4826 * medianOf(space.scratch, n);
  }
  return noiseOf(spread, patch.cell);
};

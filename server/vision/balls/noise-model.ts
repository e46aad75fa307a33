import type { FitWorkspace } from './fit-workspace.ts';
import type { Patch } from './patch.ts';
import { COLUMN, COLUMNS } from './shading.ts';
import { medianOf } from './small-solve.ts';

/** Standard deviation of the lawn's texture and the picture's noise in one cell: luma and colour, grey levels. */
export type CellNoise = { readonly luma: number; readonly colour: number };

/** What the variances depend on besides the cell. */
type Appearance = { readonly ball: Float64Array; readonly lawn: Float64Array; readonly noise: CellNoise };

/** Noise of the picture on a smooth ball: luma, colour, grey levels. Phones at base sensitivity show 1–3. From memory. */
const BALL_NOISE = [3, 1.5] as const;
/** Least noise of the lawn: rounding and JPEG. */
const LEAST_NOISE = [1.5, 0.7] as const;
/** Neighbouring luma cells share texture: so many cells count as one. */
const LUMA_SHARED = 2;
/** Colour blurred by σ shares its noise over 4πσ² cells; part of that is lawn colour which does not vary. */
const COLOUR_SHARED = 0.16;
/** Share of a ball's brightness which its shading model may miss. */
const SHADE_ERROR = 0.05;
/** Share of the contrast which the model of an edge may miss half way (tone curve, sharpening). */
const EDGE_ERROR = 0.15;
/** The same along the lowest arc, where blades, the shadow under the ball and its dark side meet. */
const FOOT_ERROR = 0.3;
/** Share of the lawn's brightness which the model of its shadows may miss. */
const SHADOW_ERROR = 0.2;

/**
 * Variances of cell `i`, into `out`: luma and colour with shared noise counted in (for the normal equations; `blurColour` in px), then luma and
 * colour of the single cell (for robust weights).
 */
export const cellVariances = (
  patch: Patch,
  space: FitWorkspace,
  i: number,
  { ball, lawn, noise }: Appearance,
  blurColour: number,
  out: Float64Array,
): void => {
  const w = space.cover[i]!;
  const wc = space.coverColour[i]!;
  const base = i * COLUMNS;
  const dark = (1 - w) * Math.min(1, space.base[base + COLUMN.under]! + space.base[base + COLUMN.shadow]!);
  const u = space.down[i]! / space.rho[i]!;
  const k = Math.min(1, Math.max(0, (u - 0.3) / 0.5));
  const foot = FOOT_ERROR * k * k * (3 - 2 * k);
  const contrast = space.contrast[3 * i]!;
  const luma = modelVariance(w, ball[0]!, lawn[0]!, contrast, dark, foot);
  const b = Math.hypot(ball[1]!, ball[2]!);
  const l = Math.hypot(lawn[1]!, lawn[2]!);
  const c = Math.hypot(space.contrast[3 * i + 1]!, space.contrast[3 * i + 2]!);
  const colour = modelVariance(wc, b, l, c, dark, foot);
  const n = (1 - w) * noise.luma * noise.luma + w * BALL_NOISE[0] * BALL_NOISE[0];
  const nc = (1 - wc) * noise.colour * noise.colour + wc * BALL_NOISE[1] * BALL_NOISE[1];
  const shared = (COLOUR_SHARED * 4 * Math.PI * blurColour * blurColour) / (patch.cell * patch.cell);
  out[0] = LUMA_SHARED * n + luma;
  out[1] = LUMA_SHARED * Math.max(1, shared) * nc + colour;
  out[2] = n + luma;
  out[3] = nc + colour;
};

const modelVariance = (
  w: number,
  ball: number,
  lawn: number,
  contrast: number,
  dark: number,
  foot: number,
): number => {
  const shade = SHADE_ERROR * w * ball;
  const shadow = SHADOW_ERROR * dark * lawn;
  const half = w * (1 - w);
  const edge = EDGE_ERROR * 4 * half * contrast;
  const low = foot * foot * 4 * half * contrast * contrast;
  return shade * shade + shadow * shadow + edge * edge + low;
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

import { cholesky, choleskySolve } from '../../camera/normal-equations.ts';
import type { Patch } from './patch.ts';
import { huberWeights, spreadOf, textureFactor } from './sample-noise.ts';
import type { Templates } from './shape-templates.ts';
import { normalMatrix, projected, weightedSquare } from './weighted-sums.ts';

/** Brightness of the grass is a plane. */
export const PLANE = 3;
/** Spread of a part's brightness above the grass, before looking. */
const BRIGHTNESS_SD = 300;
/** Spread of a part's brightness from its middle to its edge, as a share of the white part's and in any case: a cylinder in sun from one side. */
const SHADE_SPREAD = { share: 0.3, least: 3 } as const;
/** Held: the shading stays nought while the place is still coarse. */
const NO_SHADE = 1e-3;

/** One channel's linear part at given templates: brightness of grass, layers and shadings, and what they leave. */
export type ChannelFit = {
  readonly columns: readonly Float64Array[];
  readonly coefficients: Float64Array;
  readonly residuals: Float64Array;
  readonly weights: Float64Array;
  readonly noise: number;
  readonly texture: number;
};

const planeColumns = (patch: Patch): Float64Array[] => {
  const n = patch.columns * patch.rows;
  return [
    new Float64Array(n).fill(1),
    Float64Array.from({ length: n }, (_, i) => (i % patch.columns) / patch.columns - 0.5),
    Float64Array.from({ length: n }, (_, i) => Math.floor(i / patch.columns) / patch.rows - 0.5),
  ];
};

/** Inverse variances of the coefficients before looking, in units of the residuals' own: grass free, layers wide, shadings narrow. */
export const coefficientPriors = (fit: ChannelFit, layers: number): Float64Array => {
  const white = Math.abs(fit.coefficients[PLANE] ?? 0);
  return priors(fit.columns.length, layers, Math.max(SHADE_SPREAD.least, SHADE_SPREAD.share * white));
};

const priors = (count: number, layers: number, shadeSd: number): Float64Array =>
  Float64Array.from({ length: count }, (_, k) => {
    if (k < PLANE) return 0;
    return 1 / (k < PLANE + layers ? BRIGHTNESS_SD : shadeSd) ** 2;
  });

/** Values to be explained by the linear part: what the shape hides was taken off with the ground and is put back. */
const explained = (values: Float64Array, hides: Float64Array | null): Float64Array =>
  hides ? values.map((value, i) => value + hides[i]!) : values;

const residualsOf = (
  columns: readonly Float64Array[],
  coefficients: Float64Array,
  values: Float64Array,
): Float64Array => {
  const out = Float64Array.from(values);
  columns.forEach((column, k) => {
    const c = coefficients[k]!;
    for (let i = 0; i < out.length; i++) out[i]! -= c * column[i]!;
  });
  return out;
};

/**
 * Fits one channel's brightnesses at fixed `templates` by weighted least squares, shadings held near nought. `former` gives weights, noise and texture;
 * without it all samples count alike and the shading is held at nought.
 */
export const fitChannel = (
  patch: Patch,
  channel: number,
  templates: Templates,
  layers: number,
  former: ChannelFit | null,
): ChannelFit => {
  const columns = [...(former?.columns.slice(0, PLANE) ?? planeColumns(patch)), ...templates.layers];
  const values = explained(patch.channels[channel]!, templates.hides);
  const unrest = patch.unrest?.[channel];
  const variance = former ? former.noise ** 2 * former.texture : 1;
  const weights = former
    ? huberWeights(former.residuals, former.noise, unrest)
    : Float64Array.from(values, (_, i) => 1 / (unrest?.[i] ?? 1));
  const matrix = normalMatrix(columns, weights);
  const held = former ? coefficientPriors(former, layers) : priors(columns.length, layers, NO_SHADE);
  held.forEach((information, k) => {
    matrix[k * (columns.length + 1)]! += information * variance + 1e-9;
  });
  const l = cholesky(matrix, columns.length);
  if (!l) throw new Error('Expected independent templates but received equal ones');
  const coefficients = choleskySolve(l, columns.length, projected(columns, weights, values));
  const residuals = residualsOf(columns, coefficients, values);
  const noise = spreadOf(residuals, channel);
  return {
    columns,
    coefficients,
    residuals,
    weights: huberWeights(residuals, noise, unrest),
    noise,
    texture: textureFactor(residuals, patch.columns),
  };
};

/** Xᵀ W X of all columns, and Xᵀ W v and vᵀ W v of some values. */
type Sums = { readonly matrix: Float64Array; readonly size: number };
type Explained = { readonly right: Float64Array; readonly square: number };

/** Weighted sum of squares that the columns of `chosen` places leave of the values. */
const leftBy = ({ matrix, size }: Sums, { right, square }: Explained, chosen: readonly number[]): number => {
  const m = chosen.length;
  const part = new Float64Array(m * m);
  for (let a = 0; a < m; a++)
    for (let b = 0; b <= a; b++)
      part[a * m + b] = matrix[chosen[a]! * size + chosen[b]!]! + (a === b ? 1e-9 : 0);
  const l = cholesky(part, m);
  if (!l) return 0;
  const own = chosen.map((k) => right[k]!);
  const coefficients = choleskySolve(l, m, own);
  return Math.max(0, square - own.reduce((sum, value, k) => sum + value * coefficients[k]!, 0));
};

/** What of a shape's parts speaks for it: how many of the first layers are white, of how many, and which is the shadow. */
export type Speaking = {
  readonly whites: number;
  readonly layers: number;
  readonly shadow?: number | undefined;
};

/** How much better a thing explains one channel than bare ground, in standard deviations: the root of the fall of χ². */
export type ChannelEvidence = {
  /** Its white parts and its shadow, with the sign of their brightness; for one part where all is grass that is brightness ÷ standard deviation. */
  readonly white: number;
  /** All its parts. */
  readonly whole: number;
};

/** The evidence for a fitted thing in one channel. */
export const evidenceOf = (
  patch: Patch,
  channel: number,
  fit: ChannelFit,
  templates: Templates,
  { whites, layers, shadow }: Speaking,
): ChannelEvidence => {
  const { columns, weights, noise, texture, coefficients } = fit;
  const values = patch.channels[channel]!;
  const sums = { matrix: normalMatrix(columns, weights), size: columns.length };
  const of = (v: Float64Array): Explained => ({
    right: projected(columns, weights, v),
    square: weightedSquare(weights, v),
  });
  const seen = of(values);
  const shown = templates.hides ? of(explained(values, templates.hides)) : seen;
  const places = columns.map((_, k) => k);
  const bare = leftBy(sums, seen, places.slice(0, PLANE));
  const fall = (chosen: readonly number[]): number =>
    Math.sqrt(Math.max(0, bare - leftBy(sums, shown, chosen)) / (noise * noise * texture));
  const brightness = coefficients.subarray(PLANE, PLANE + whites).reduce((sum, one) => sum + one, 0);
  return {
    white: Math.sign(brightness) * fall(places.filter((k) => k < PLANE + whites || k - PLANE === shadow)),
    whole: fall(places.slice(0, PLANE + layers)),
  };
};

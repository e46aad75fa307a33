import { cholesky, choleskySolve } from '../../camera/normal-equations.ts';
import type { Patch } from './patch.ts';
import { huberWeights, spreadOf, textureFactor } from './sample-noise.ts';
import type { Templates } from './shape-templates.ts';

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

/** Lower triangle of Xᵀ W X for the columns X, size × size. */
export const normalMatrix = (columns: readonly Float64Array[], weights: Float64Array): Float64Array => {
  const k = columns.length;
  const out = new Float64Array(k * k);
  const weighted = new Float64Array(weights.length);
  for (let a = 0; a < k; a++) {
    const x = columns[a]!;
    for (let i = 0; i < weighted.length; i++) weighted[i] = weights[i]! * x[i]!;
    for (let b = 0; b <= a; b++) {
      const y = columns[b]!;
      let sum = 0;
      for (let i = 0; i < weighted.length; i++) sum += weighted[i]! * y[i]!;
      out[a * k + b] = sum;
    }
  }
  return out;
};

/** Xᵀ W v. */
export const projected = (
  columns: readonly Float64Array[],
  weights: Float64Array,
  values: Float64Array,
): Float64Array =>
  Float64Array.from(columns, (column) => {
    let sum = 0;
    for (let i = 0; i < weights.length; i++) sum += weights[i]! * column[i]! * values[i]!;
    return sum;
  });

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

/** Weighted sum of squares that `columns` leave of `values`. */
const leftBy = (columns: readonly Float64Array[], weights: Float64Array, values: Float64Array): number => {
  const size = columns.length;
  const matrix = normalMatrix(columns, weights);
  for (let k = 0; k < size; k++) matrix[k * (size + 1)]! += 1e-9;
  const l = cholesky(matrix, size);
  if (!l) return 0;
  const coefficients = choleskySolve(l, size, projected(columns, weights, values));
  const residuals = residualsOf(columns, coefficients, values);
  return residuals.reduce((sum, r, i) => sum + weights[i]! * r * r, 0);
};

/**
 * How much better the `whites` white parts, and the shadow where one is drawn, with the grass explain the picture than the ground alone, in standard deviations: the root of the fall of χ², with
 * the sign of their brightness. For one part where all is grass that is its brightness ÷ its standard deviation.
 */
export const evidenceOf = (
  patch: Patch,
  channel: number,
  fit: ChannelFit,
  templates: Templates,
  whites: number,
  shadow: number | undefined,
): number => {
  const { columns, weights, noise, texture, coefficients } = fit;
  const values = patch.channels[channel]!;
  const bare = leftBy(columns.slice(0, PLANE), weights, values);
  const speaking = columns.filter((_, k) => k < PLANE + whites || k - PLANE === shadow);
  const withWhite = leftBy(speaking, weights, explained(values, templates.hides));
  const fall = Math.max(0, bare - withWhite) / (noise * noise * texture);
  const brightness = coefficients.subarray(PLANE, PLANE + whites).reduce((sum, one) => sum + one, 0);
  return Math.sign(brightness) * Math.sqrt(fall);
};

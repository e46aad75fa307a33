import { Matrix } from 'ml-matrix';
import { cholesky, choleskySolve, inverseRows } from '../../camera/normal-equations.ts';
import type { Camera } from '../../camera/types.ts';
import { type ChannelFit, coefficientPriors, evidenceOf, fitChannel, PLANE } from './channel-fit.ts';
import type { Patch } from './patch.ts';
import { BLUR, COLOUR_BLUR, drawShape, type Templates } from './shape-templates.ts';
import type { Shape } from './shapes.ts';
import { normalMatrix, projected } from './weighted-sums.ts';

/** A shape fitted to a patch. */
export type ShapeFit = {
  /** The shape's parameters at the best fit. */
  readonly parameters: Float64Array;
  /** Covariance of the parameters, row by row, texture of the grass included. */
  readonly covariance: Matrix;
  /** Brightness of each layer above the grass, 0 to 255 scale. */
  readonly layers: readonly number[];
  /** Brightness of the grass about it, 0 to 255 scale; of what a preparation of the patch left of it. */
  readonly grass: number;
  /** How sure it is that something white stands there: brightness and whiteness ÷ their standard deviations, together. */
  readonly evidence: number;
  /** How much better all its parts, coloured ones too, explain the picture than bare ground, in standard deviations: of two places the one where the whole thing stands. */
  readonly whole: number;
  /** How far the form had to be bent to fit, in standard deviations of what was known of it before: the most of any parameter but the place. */
  readonly strain: number;
  /** Standard deviation of what the fit leaves in brightness. */
  readonly noise: number;
};

/** Steps for the derivative of a template: metres or radians for the shape, logarithm for the blur. */
const DIFFERENCE = 5e-4;
/** How far a fit is carried: its most steps, and how many of the shape's first parameters move; the others and the blurs are held. */
export type Effort = { readonly steps: number; readonly free: number };
/** A whole fit. */
const WHOLE: Effort = { steps: 14, free: Number.POSITIVE_INFINITY };
/** A step (metres, radians) below which the fit has settled: a tenth of a millimetre. */
const SETTLED = 1e-4;
/** Longest step, metres or radians. */
const LONGEST = 0.1;
/** Whiteness from which a thing counts as white even when it is darker than the grass. */
const SURELY_WHITE = 3;

/** Whether something white stands there. A dark thing counts only when it is surely white, which a shadow is not. */
export const togetherEvidence = (light: number, white: number): number =>
  Math.hypot(white >= SURELY_WHITE ? light : Math.max(0, light), Math.max(0, white));

/** Derivatives of one channel's picture by every parameter at its brightnesses. */
const slopes = (base: Templates, moved: readonly Templates[], brightness: Float64Array): Float64Array[] =>
  moved.map(({ layers, hides }) => {
    const column = new Float64Array(layers[0]!.length);
    layers.forEach((layer, l) => {
      const scale = brightness[l]! / DIFFERENCE;
      const from = base.layers[l]!;
      for (let i = 0; i < column.length; i++) column[i]! += scale * (layer[i]! - from[i]!);
    });
    if (hides && base.hides)
      for (let i = 0; i < column.length; i++) column[i]! -= (hides[i]! - base.hides[i]!) / DIFFERENCE;
    return column;
  });

/** Equations for the parameters alone, from which one channel's brightnesses were eliminated. */
type Reduced = { readonly matrix: Float64Array; readonly right: Float64Array };

const reduceChannel = (fit: ChannelFit, byParameter: readonly Float64Array[], layers: number): Reduced => {
  const { columns, weights, residuals, noise, texture, coefficients } = fit;
  const all = [...columns, ...byParameter];
  const [m, size, p] = [columns.length, all.length, byParameter.length];
  const scale = 1 / (noise * noise * texture);
  const full = normalMatrix(all, weights).map((value) => value * scale);
  const right = projected(all, weights, residuals).map((value) => value * scale);
  coefficientPriors(fit, layers).forEach((information, k) => {
    full[k * size + k]! += information + 1e-9 * scale;
    right[k]! -= information * coefficients[k]!;
  });
  const linear = new Float64Array(m * m);
  for (let a = 0; a < m; a++) for (let b = 0; b <= a; b++) linear[a * m + b] = full[a * size + b]!;
  const l = cholesky(linear, m);
  if (!l) throw new Error('Expected independent templates but received equal ones');
  const solved = choleskySolve(l, m, right.subarray(0, m));
  const out = { matrix: new Float64Array(p * p), right: new Float64Array(p) };
  for (let a = 0; a < p; a++) {
    const cross = full.subarray((m + a) * size, (m + a) * size + m);
    const eliminated = choleskySolve(l, m, cross);
    out.right[a] = right[m + a]! - dot(cross, solved);
    for (let b = 0; b <= a; b++) {
      const other = full.subarray((m + b) * size, (m + b) * size + m);
      out.matrix[a * p + b] = full[(m + a) * size + m + b]! - dot(eliminated, other);
    }
  }
  return out;
};

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
};

/** Priors of the shape's parameters and the two blurs. */
const priorsOf = (shape: Shape) => ({
  means: [...shape.start, BLUR.mean, COLOUR_BLUR.mean],
  spreads: [...shape.spread, BLUR.sd, COLOUR_BLUR.sd],
});

const sumWithPriors = (
  reduced: readonly Reduced[],
  shape: Shape,
  parameters: Float64Array,
  size: number,
): { matrix: Float64Array; right: Float64Array } => {
  const matrix = new Float64Array(size * size);
  const right = new Float64Array(size);
  for (const channel of reduced) {
    for (let i = 0; i < matrix.length; i++) matrix[i]! += channel.matrix[i]!;
    for (let i = 0; i < size; i++) right[i]! += channel.right[i]!;
  }
  const { means, spreads } = priorsOf(shape);
  means.slice(0, size).forEach((mean, k) => {
    const information = 1 / spreads[k]! ** 2;
    matrix[k * (size + 1)]! += information;
    right[k]! += information * (mean - parameters[k]!);
  });
  return { matrix, right };
};

const within = (value: number, least: number, most: number): number =>
  Math.min(Math.log(most), Math.max(Math.log(least), value));

const moveBy = (parameters: Float64Array, step: Float64Array, own: number): number => {
  const largest = step.subarray(0, own).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const damp = Math.min(1, LONGEST / Math.max(1e-9, largest));
  for (let k = 0; k < step.length; k++) parameters[k]! += damp * step[k]!;
  parameters[own] = within(parameters[own]!, BLUR.least, BLUR.most);
  parameters[own + 1] = within(parameters[own + 1]!, COLOUR_BLUR.least, COLOUR_BLUR.most);
  return largest;
};

/**
 * Robust Gauss–Newton over place, form, blur and brightness together in both channels, from `start` (the shape's parameters). Brightness of the grass is a plane; brightnesses are eliminated exactly. The covariance is that of the
 * parameters that were free. Null when the equations cannot be solved.
 */
export const fitShape = (
  camera: Camera,
  shape: Shape,
  patch: Patch,
  start: ArrayLike<number>,
  effort: Effort = WHOLE,
): ShapeFit | null => {
  const own = shape.start.length;
  const parameters = Float64Array.from([...Array.from(start), BLUR.mean, COLOUR_BLUR.mean]);
  const size = Math.min(parameters.length, effort.free);
  let templates = drawShape(camera, shape, patch, parameters);
  let fits = templates.map((channel, c) => fitChannel(patch, c, channel, shape.layers, null));
  let inverse: Float64Array | null = null;
  for (let iteration = 0; iteration < effort.steps; iteration++) {
    const moved = Array.from({ length: size }, (_, k) => {
      const beside = Float64Array.from(parameters);
      beside[k]! += DIFFERENCE;
      return drawShape(camera, shape, patch, beside);
    });
    const reduced = fits.map((fit, c) => {
      const beside = moved.map((channels) => channels[c]!);
      return reduceChannel(
        fit,
        slopes(templates[c]!, beside, fit.coefficients.subarray(PLANE)),
        shape.layers,
      );
    });
    const { matrix, right } = sumWithPriors(reduced, shape, parameters, size);
    const l = cholesky(matrix, size);
    if (!l) return null;
    inverse = inverseRows(l, size, Math.min(size, own));
    const largest = moveBy(parameters, choleskySolve(l, size, right), own);
    templates = drawShape(camera, shape, patch, parameters);
    fits = templates.map((channel, c) => fitChannel(patch, c, channel, shape.layers, fits[c]!));
    if (largest < SETTLED) break;
  }
  const light = fits[0]!;
  const found = fits.map((fit, c) => evidenceOf(patch, c, fit, templates[c]!, shape));
  return {
    parameters: parameters.slice(0, own),
    covariance: ownCovariance(inverse!, size, Math.min(size, own)),
    layers: [...light.coefficients.subarray(PLANE, PLANE + shape.layers)],
    grass: light.coefficients[0]!,
    evidence: togetherEvidence(found[0]!.white, found[1]!.white),
    whole: Math.hypot(...found.map(({ whole }) => whole)),
    strain: strainOf(shape, parameters),
    noise: light.noise,
  };
};

/** The first two parameters are the place. */
const strainOf = (shape: Shape, parameters: Float64Array): number =>
  shape.start.reduce(
    (most, mean, k) => (k < 2 ? most : Math.max(most, Math.abs(parameters[k]! - mean) / shape.spread[k]!)),
    0,
  );

const ownCovariance = (rows: Float64Array, size: number, own: number): Matrix => {
  const covariance = Matrix.zeros(own, own);
  for (let a = 0; a < own; a++) for (let b = 0; b < own; b++) covariance.set(a, b, rows[a * size + b]!);
  return covariance;
};

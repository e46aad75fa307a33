import { Matrix, pseudoInverse } from 'ml-matrix';
import type { Camera } from '../../camera/types.ts';
import type { Patch } from './patch.ts';
import { coverRod, seeRod } from './rod.ts';
import type { Shape } from './shapes.ts';

/** A shape fitted to a patch. */
export type ShapeFit = {
  /** The shape's parameters at the best fit. */
  readonly parameters: Float64Array;
  /** Covariance of the parameters, row by row, texture of the grass included. */
  readonly covariance: Matrix;
  /** Brightness of each layer above the grass, 0 to 255 scale. */
  readonly layers: readonly number[];
  /** White layer's brightness ÷ its standard deviation: how sure it is that something white stands there. */
  readonly evidence: number;
  /** Standard deviation of what the fit leaves. */
  readonly noise: number;
};

/** Blur of a phone picture as a Gaussian, px: prior of the fitted blur's natural logarithm. */
const BLUR = { mean: Math.log(0.9), sd: 0.35 } as const;
/** Steps for the derivative of a template: metres or radians for the shape, logarithm for the blur. */
const DIFFERENCE = 5e-4;
const PLANE = 3;
const ITERATIONS = 12;
/** Residuals beyond this many standard deviations lose weight. Wide, since the object itself is a small part of the patch and stands out of it until the fit has closed in. */
const HUBER = 3;

type Templates = readonly Float64Array[];

/** Spread of a part's brightness from its middle to its edge, as a share of the white part's: a cylinder in sun from one side. */
const SHADE_SPREAD = 0.3;

/** Coverage of each layer at these parameters (the shape's own, then ln blur), then the shading across each layer. */
const draw = (camera: Camera, shape: Shape, patch: Patch, parameters: Float64Array): Templates => {
  const layers = Array.from({ length: 2 * shape.layers }, () => new Float64Array(patch.values.length));
  const blur = Math.exp(parameters[shape.start.length]!);
  const sigma = Math.hypot(blur, patch.step / Math.sqrt(12));
  for (const rod of shape.rods(parameters)) {
    const seen = seeRod(camera, rod);
    const shade = shape.shaded ? layers[shape.layers + rod.layer] : undefined;
    if (seen !== null) coverRod(seen, patch, sigma, layers[rod.layer]!, shade);
  }
  return layers;
};

/** Columns of the linear part: a plane of brightness for the grass, then one template a layer, then the shading. */
const linearColumns = (patch: Patch, templates: Templates): Float64Array[] => {
  const n = patch.values.length;
  const ones = new Float64Array(n).fill(1);
  const across = Float64Array.from({ length: n }, (_, i) => (i % patch.columns) / patch.columns - 0.5);
  const down = Float64Array.from({ length: n }, (_, i) => Math.floor(i / patch.columns) / patch.rows - 0.5);
  return [ones, across, down, ...templates];
};

const normal = (columns: readonly Float64Array[], weights: Float64Array): Matrix => {
  const k = columns.length;
  const out = Matrix.zeros(k, k);
  for (let a = 0; a < k; a++)
    for (let b = a; b < k; b++) {
      const x = columns[a]!;
      const y = columns[b]!;
      let sum = 0;
      for (let i = 0; i < weights.length; i++) sum += weights[i]! * x[i]! * y[i]!;
      out.set(a, b, sum);
      out.set(b, a, sum);
    }
  return out;
};

const project = (columns: readonly Float64Array[], weights: Float64Array, values: Float64Array): Matrix =>
  Matrix.columnVector(
    columns.map((column) => {
      let sum = 0;
      for (let i = 0; i < weights.length; i++) sum += weights[i]! * column[i]! * values[i]!;
      return sum;
    }),
  );

const subtractFit = (
  columns: readonly Float64Array[],
  coefficients: ArrayLike<number>,
  values: Float64Array,
) => {
  const out = Float64Array.from(values);
  columns.forEach((column, k) => {
    const c = coefficients[k]!;
    for (let i = 0; i < out.length; i++) out[i]! -= c * column[i]!;
  });
  return out;
};

/** Standard deviation from the median absolute residual (1.4826 for the normal distribution). */
const spreadOf = (residuals: Float64Array): number => {
  const sorted = residuals.map(Math.abs).sort();
  return Math.max(0.3, 1.4826 * sorted[sorted.length >> 1]!);
};

const huberWeights = (residuals: Float64Array, sd: number): Float64Array =>
  residuals.map((r) => Math.min(1, (HUBER * sd) / Math.max(1e-9, Math.abs(r))));

/** By how much neighbouring residuals' correlation multiplies the variance of a mean: the sum of the autocorrelation over a 5 × 5 neighbourhood, at least 1. */
export const textureFactor = (residuals: Float64Array, columns: number): number => {
  const rows = residuals.length / columns;
  let variance = 0;
  for (const r of residuals) variance += r * r;
  let sum = 1;
  for (let dj = 0; dj <= 2; dj++)
    for (let di = -2; di <= 2; di++) {
      if (dj === 0 && di <= 0) continue;
      let product = 0;
      for (let j = 0; j + dj < rows; j++)
        for (let i = Math.max(0, -di); i < columns - Math.max(0, di); i++)
          product += residuals[j * columns + i]! * residuals[(j + dj) * columns + i + di]!;
      sum += (2 * product) / variance;
    }
  return Math.min(12, Math.max(1, sum));
};

/** Brightnesses of the grass, the layers and the shadings by weighted least squares; shadings are held near zero by `shadeInformation` (in units of the residuals' variance). */
const solveLinear = (
  columns: readonly Float64Array[],
  weights: Float64Array,
  values: Float64Array,
  layers: number,
  shadeInformation: number,
): number[] => {
  const matrix = normal(columns, weights);
  for (let at = PLANE + layers; at < columns.length; at++)
    matrix.set(at, at, matrix.get(at, at) + shadeInformation);
  return pseudoInverse(matrix)
    .mmul(project(columns, weights, values))
    .to1DArray();
};

/** So large that the shading stays nought while the place is still coarse. */
const NO_SHADE = 1e12;

/** Derivatives of the picture by every non-linear parameter at these brightnesses. */
const slopes = (
  camera: Camera,
  shape: Shape,
  patch: Patch,
  parameters: Float64Array,
  templates: Templates,
  brightness: readonly number[],
): Float64Array[] =>
  Array.from(parameters, (_, k) => {
    const moved = Float64Array.from(parameters);
    moved[k]! += DIFFERENCE;
    const shifted = draw(camera, shape, patch, moved);
    const column = new Float64Array(patch.values.length);
    shifted.forEach((layer, l) => {
      const scale = brightness[l]! / DIFFERENCE;
      const base = templates[l]!;
      for (let i = 0; i < column.length; i++) column[i]! += scale * (layer[i]! - base[i]!);
    });
    return column;
  });

/** Robust Gauss–Newton over place, form, blur and brightness together, from `start` (the shape's parameters). Brightness of the grass is a plane. */
export const fitShape = (camera: Camera, shape: Shape, patch: Patch, start: ArrayLike<number>): ShapeFit => {
  const own = shape.start.length;
  const means = [...shape.start, BLUR.mean];
  const spreads = [...shape.spread, BLUR.sd];
  const parameters = Float64Array.from([...Array.from(start), BLUR.mean]);
  let weights: Float64Array = new Float64Array(patch.values.length).fill(1);
  let templates = draw(camera, shape, patch, parameters);
  let linear = linearColumns(patch, templates);
  let coefficients = solveLinear(linear, weights, patch.values, shape.layers, NO_SHADE);
  let residuals = subtractFit(linear, coefficients, patch.values);
  let noise = spreadOf(residuals);
  let inverse = Matrix.eye(1);
  let texture = 1;
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    weights = huberWeights(residuals, noise);
    texture = textureFactor(residuals, patch.columns);
    const brightness = coefficients.slice(PLANE);
    const all = [...linear, ...slopes(camera, shape, patch, parameters, templates, brightness)];
    const matrix = normal(all, weights);
    const right = project(all, weights, residuals);
    means.forEach((mean, k) => {
      const at = linear.length + k;
      const information = texture * (noise / spreads[k]!) ** 2;
      matrix.set(at, at, matrix.get(at, at) + information);
      right.set(at, 0, right.get(at, 0) + information * (mean - parameters[k]!));
    });
    const shadeInformation = texture * (noise / (SHADE_SPREAD * Math.max(10, brightness[0]!))) ** 2;
    for (let at = PLANE + shape.layers; at < linear.length; at++) {
      matrix.set(at, at, matrix.get(at, at) + shadeInformation);
      right.set(at, 0, right.get(at, 0) - shadeInformation * coefficients[at]!);
    }
    inverse = pseudoInverse(matrix);
    const step = inverse.mmul(right).to1DArray().slice(linear.length);
    const largest = Math.max(...step.slice(0, own).map(Math.abs));
    const damp = Math.min(1, 0.1 / Math.max(1e-9, largest));
    for (let k = 0; k < parameters.length; k++) parameters[k]! += damp * step[k]!;
    parameters[own] = Math.min(Math.log(3), Math.max(Math.log(0.4), parameters[own]!));
    templates = draw(camera, shape, patch, parameters);
    linear = linearColumns(patch, templates);
    coefficients = solveLinear(linear, weights, patch.values, shape.layers, shadeInformation);
    residuals = subtractFit(linear, coefficients, patch.values);
    noise = spreadOf(residuals);
    if (largest < 1e-5) break;
  }
  const scale = noise * noise * texture;
  const covariance = inverse
    .subMatrix(linear.length, linear.length + own - 1, linear.length, linear.length + own - 1)
    .mul(scale);
  // Place and form held: whether something stands there is asked of its brightness alone.
  const whiteSd = Math.sqrt(
    Math.max(1e-12, pseudoInverse(normal(linear, weights)).get(PLANE, PLANE) * scale),
  );
  return {
    parameters: parameters.slice(0, own),
    covariance,
    layers: coefficients.slice(PLANE, PLANE + shape.layers),
    evidence: coefficients[PLANE]! / whiteSd,
    noise,
  };
};

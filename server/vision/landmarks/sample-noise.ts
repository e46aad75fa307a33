import { selectAt } from '../selection.ts';

/** Residuals beyond this many standard deviations lose weight. Wide, since the object itself is a small part of the patch and stands out of it until the fit has closed in. */
const HUBER = 3;
/** Rounding to whole numbers and JPEG leave no less than this in brightness and in colours, which JPEG keeps coarser, 0 to 255 scale. */
const LEAST_NOISE = [0.5, 1.5] as const;
/** Texture is never taken to be more correlated than this: the patch itself is not much larger. */
const MOST_TEXTURE = 12;

/** Standard deviation of a channel's residuals from the median absolute residual (1.4826 for the normal distribution). */
export const spreadOf = (residuals: Float64Array, channel: number): number => {
  const sizes = residuals.map(Math.abs);
  return Math.max(LEAST_NOISE[channel]!, 1.4826 * selectAt(sizes, sizes.length, sizes.length >> 1));
};

/** Robust weights, 1 near the fit on quiet ground; `unrest` multiplies the variance of a sample's ground. */
export const huberWeights = (
  residuals: Float64Array,
  sd: number,
  unrest: Float64Array | undefined,
): Float64Array =>
  residuals.map((r, i) => {
    const factor = unrest?.[i] ?? 1;
    return Math.min(1, (HUBER * sd * Math.sqrt(factor)) / Math.max(1e-9, Math.abs(r))) / factor;
  });

/** By how much neighbouring residuals' correlation multiplies the variance of a mean: the sum of the autocorrelation over a 5 × 5 neighbourhood, at least 1. */
export const textureFactor = (residuals: Float64Array, columns: number): number => {
  const rows = residuals.length / columns;
  let variance = 1e-12;
  for (const r of residuals) variance += r * r;
  let sum = 1;
  for (let dj = 0; dj <= 2; dj++)
    for (let di = -2; di <= 2; di++)
      if (dj > 0 || di > 0) sum += (2 * lagged(residuals, columns, rows, di, dj)) / variance;
  return Math.min(MOST_TEXTURE, Math.max(1, sum));
};

const lagged = (r: Float64Array, columns: number, rows: number, di: number, dj: number): number => {
  let product = 0;
  for (let j = 0; j + dj < rows; j++)
    for (let i = Math.max(0, -di); i < columns - Math.max(0, di); i++)
      product += r[j * columns + i]! * r[(j + dj) * columns + i + di]!;
  return product;
};

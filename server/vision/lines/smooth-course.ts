import { biweight, coreSpread } from '../../camera/robust-weights.ts';
import { solveSmall } from '../small-solve.ts';

/** Terms of the polynomial that stands for a smooth course: prediction errors and a lawn's long waves, not paint. */
const TERMS = 5;
const ROUNDS = 8;
/** Settled when no place moves by more than this many of its standard deviations. */
const SETTLED = 0.02;

/** A smooth course along a line: its value at each place, and the spread of the data about it in units of their standard deviations. */
export type Course = { readonly value: Float64Array; readonly spread: number };

/**
 * Robust polynomial of degree 4 through `values` at `t` (0 to 1) with standard deviations `sds`; entries with an infinite `sd` count for
 * nothing. With fewer than 2 × TERMS entries the degree is lower. Null when there is no entry.
 */
export const smoothCourse = (
  t: ArrayLike<number>,
  values: ArrayLike<number>,
  sds: ArrayLike<number>,
): Course | null => {
  const n = t.length;
  let known = 0;
  for (let i = 0; i < n; i++) if (Number.isFinite(sds[i]!)) known++;
  if (known === 0) return null;
  const terms = Math.max(1, Math.min(TERMS, known >> 1));
  const value = new Float64Array(n);
  const standardized = new Float64Array(n);
  const weight = new Float64Array(n);
  for (let i = 0; i < n; i++) weight[i] = Number.isFinite(sds[i]!) ? 1 / sds[i]! ** 2 : 0;
  let spread = 1;
  for (let round = 0; round < ROUNDS; round++) {
    // The first rounds bend little, so that a cluster of outliers cannot drag the course along.
    const solution = leastSquares(t, values, weight, round < 2 ? Math.min(terms, 3) : terms);
    if (!solution) return null;
    let moved = 0;
    for (let i = 0; i < n; i++) {
      const before = value[i]!;
      value[i] = evaluate(solution, t[i]!);
      if (Number.isFinite(sds[i]!)) moved = Math.max(moved, Math.abs(value[i]! - before) / sds[i]!);
      standardized[i] = Number.isFinite(sds[i]!) ? (values[i]! - value[i]!) / sds[i]! : Number.NaN;
    }
    spread = Math.max(0.3, coreSpread(standardized));
    if (round > 2 && moved < SETTLED) break;
    for (let i = 0; i < n; i++)
      weight[i] = Number.isNaN(standardized[i]!) ? 0 : biweight(standardized[i]! / spread) / sds[i]! ** 2;
  }
  return { value, spread };
};

const evaluate = (solution: Float64Array, t: number): number => {
  const x = 2 * t - 1;
  let sum = 0;
  for (let k = solution.length - 1; k >= 0; k--) sum = sum * x + solution[k]!;
  return sum;
};

const leastSquares = (
  t: ArrayLike<number>,
  values: ArrayLike<number>,
  weight: Float64Array,
  terms: number,
): Float64Array | null => {
  const matrix = new Float64Array(terms * terms);
  const right = new Float64Array(terms);
  const power = new Float64Array(terms);
  let total = 0;
  for (let i = 0; i < t.length; i++) {
    const w = weight[i]!;
    if (w === 0) continue;
    total += w;
    const x = 2 * t[i]! - 1;
    for (let p = 0, v = 1; p < terms; p++, v *= x) power[p] = v;
    for (let p = 0; p < terms; p++) {
      right[p] = right[p]! + w * power[p]! * values[i]!;
      for (let q = 0; q <= p; q++) matrix[p * terms + q] = matrix[p * terms + q]! + w * power[p]! * power[q]!;
    }
  }
  // A trace of ridge keeps the degree from running wild where the data leave a gap.
  for (let p = 0; p < terms; p++) matrix[p * terms + p] = matrix[p * terms + p]! + 1e-6 * total + 1e-12;
  return solveSmall(matrix, right, terms) ? right : null;
};

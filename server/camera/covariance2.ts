import type { Covariance2 } from '../units/points.ts';

/** A 2 × 2 matrix row by row. */
export type Matrix2 = readonly [number, number, number, number];

/** Inverse of a 2 × 2 matrix; null when it is singular. */
export const inverse2 = ([a, b, c, d]: Matrix2): Matrix2 | null => {
  const det = a * d - b * c;
  return Math.abs(det) > 1e-300 ? [d / det, -b / det, -c / det, a / det] : null;
};

/** A S Aᵀ. */
export const transform2 = ([a, b, c, d]: Matrix2, { xx, xy, yy }: Covariance2): Covariance2 => ({
  xx: a * (a * xx + b * xy) + b * (a * xy + b * yy),
  xy: c * (a * xx + b * xy) + d * (a * xy + b * yy),
  yy: c * (c * xx + d * xy) + d * (c * xy + d * yy),
});

/** v vᵀ times `variance`. */
export const outer2 = (x: number, y: number, variance: number): Covariance2 => ({
  xx: x * x * variance,
  xy: x * y * variance,
  yy: y * y * variance,
});

/** Sum of covariances. */
export const sum2 = (...parts: readonly Covariance2[]): Covariance2 => {
  let [xx, xy, yy] = [0, 0, 0];
  for (const part of parts) {
    xx += part.xx;
    xy += part.xy;
    yy += part.yy;
  }
  return { xx, xy, yy };
};

/** G C Gᵀ for G with two rows of `count` numbers and the `count` × `count` covariance C. */
export const propagate2 = (
  first: Float64Array,
  second: Float64Array,
  covariance: Float64Array,
): Covariance2 => {
  const count = first.length;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) {
      const c = covariance[i * count + j]!;
      xx += first[i]! * c * first[j]!;
      xy += first[i]! * c * second[j]!;
      yy += second[i]! * c * second[j]!;
    }
  return { xx, xy, yy };
};

/** A symmetric 3 × 3 matrix as xx xy xz yy yz zz. */
export type Symmetric3 = Float64Array<ArrayBuffer>;

/** The inverse of `m` (xx xy xz yy yz zz, positive definite) and the determinant of `m`. */
export const invert3 = (
  m: ArrayLike<number>,
): { readonly inverse: Symmetric3; readonly determinant: number } => {
  const [a, b, c, d, e, f] = [m[0]!, m[1]!, m[2]!, m[3]!, m[4]!, m[5]!];
  const determinant = a * (d * f - e * e) - b * (b * f - c * e) + c * (b * e - c * d);
  const inverse = Float64Array.of(
    (d * f - e * e) / determinant,
    (c * e - b * f) / determinant,
    (b * e - c * d) / determinant,
    (a * f - c * c) / determinant,
    (b * c - a * e) / determinant,
    (a * d - b * b) / determinant,
  );
  return { inverse, determinant };
};

/** The square of (x, y, z) in the measure `n`: with an inverse covariance, its squared Mahalanobis length. */
export const squared = (n: Symmetric3, x: number, y: number, z: number): number =>
  x * x * n[0]! + y * y * n[3]! + z * z * n[5]! + 2 * (x * y * n[1]! + x * z * n[2]! + y * z * n[4]!);

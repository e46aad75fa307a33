/** Normal equations of a weighted least-squares step: `matrix` (size × size, row by row, symmetric) · step = `right`; `cost` is the sum of weighted squares. */
export type NormalEquations = {
  readonly size: number;
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  cost: number;
};

/** Empty normal equations for `size` unknowns. */
export const emptyEquations = (size: number): NormalEquations => ({
  size,
  matrix: new Float64Array(size * size),
  right: new Float64Array(size),
  cost: 0,
});

/**
 * Adds one observation: `residual` = observed − computed, `row` = derivatives of the computed value by the first `row.length` unknowns,
 * `weight` = 1 / variance. Only the lower triangle is filled; `completeTriangle` mirrors it.
 */
export const addObservation = (
  equations: NormalEquations,
  row: Float64Array,
  residual: number,
  weight: number,
): void => {
  const { size, matrix, right } = equations;
  const count = row.length;
  for (let i = 0; i < count; i++) {
    const a = weight * row[i]!;
    if (a === 0) continue;
    right[i]! += a * residual;
    const base = i * size;
    for (let j = 0; j <= i; j++) matrix[base + j]! += a * row[j]!;
  }
  equations.cost += weight * residual * residual;
};

/** Copies the lower triangle of a symmetric matrix into its upper one. */
export const completeTriangle = (matrix: Float64Array, size: number): void => {
  for (let i = 0; i < size; i++) for (let j = 0; j < i; j++) matrix[j * size + i] = matrix[i * size + j]!;
};

/** Lower Cholesky factor of a symmetric positive definite matrix, of which only the lower triangle is read; null when it is not positive definite. */
export const cholesky = (matrix: Float64Array, size: number): Float64Array | null => {
  const l = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= l[i * size + k]! * l[j * size + k]!;
      if (i === j) {
        if (!(sum > 0)) return null;
        l[i * size + i] = Math.sqrt(sum);
      } else l[i * size + j] = sum / l[j * size + j]!;
    }
  }
  return l;
};

/** Solves L Lᵀ x = right. */
export const choleskySolve = (l: Float64Array, size: number, right: ArrayLike<number>): Float64Array => {
  const x = Float64Array.from(right);
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < i; k++) x[i]! -= l[i * size + k]! * x[k]!;
    x[i]! /= l[i * size + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = i + 1; k < size; k++) x[i]! -= l[k * size + i]! * x[k]!;
    x[i]! /= l[i * size + i]!;
  }
  return x;
};

/** The first `count` rows of the inverse of L Lᵀ, row by row (count × size). */
export const inverseRows = (l: Float64Array, size: number, count: number): Float64Array => {
  const rows = new Float64Array(count * size);
  for (let i = 0; i < count; i++) {
    const unit = new Float64Array(size);
    unit[i] = 1;
    rows.set(choleskySolve(l, size, unit), i * size);
  }
  return rows;
};

/** Natural logarithm of the determinant of L Lᵀ. */
export const logDeterminant = (l: Float64Array, size: number): number => {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += 2 * Math.log(l[i * size + i]!);
  return sum;
};

/**
 * Solves the symmetric positive definite system of `n` unknowns in place by Cholesky's method: `matrix` (row by row, lower triangle used)
 * becomes its factor, `right` the solution. False, with both spoilt, when the matrix is not positive definite.
 */
export const solveSmall = (matrix: Float64Array, right: Float64Array, n: number): boolean => {
  if (!factor(matrix, n)) return false;
  for (let i = 0; i < n; i++) {
    let sum = right[i]!;
    for (let k = 0; k < i; k++) sum -= matrix[i * n + k]! * right[k]!;
    right[i] = sum / matrix[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = right[i]!;
    for (let k = i + 1; k < n; k++) sum -= matrix[k * n + i]! * right[k]!;
    right[i] = sum / matrix[i * n + i]!;
  }
  return true;
};

/** Replaces the lower triangle of a symmetric matrix by its Cholesky factor; false when it is not positive definite. */
export const factor = (matrix: Float64Array, n: number): boolean => {
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= matrix[i * n + k]! * matrix[j * n + k]!;
      if (i === j) {
        if (!(sum > 0)) return false;
        matrix[i * n + i] = Math.sqrt(sum);
      } else matrix[i * n + j] = sum / matrix[j * n + j]!;
    }
  return true;
};

/** Entry (i, i) of the inverse of the matrix whose Cholesky factor is `lower`. */
export const inverseDiagonal = (lower: Float64Array, n: number, i: number): number => {
  // Forward substitution of the unit vector: the sum of squares is the entry.
  const y = new Float64Array(n);
  let total = 0;
  for (let r = i; r < n; r++) {
    let sum = r === i ? 1 : 0;
    for (let k = i; k < r; k++) sum -= lower[r * n + k]! * y[k]!;
    y[r] = sum / lower[r * n + r]!;
    total += y[r]! ** 2;
  }
  return total;
};

/**
 * Cholesky factor of the symmetric positive definite `n` × `n` matrix `a` (row by row), left in its lower triangle. Only the lower triangle is
 * read. False (and `a` spoilt) when the matrix is not positive definite.
 */
export const factor = (a: Float64Array, n: number): boolean => {
  for (let j = 0; j < n; j++) {
    let d = a[j * n + j]!;
    for (let k = 0; k < j; k++) d -= a[j * n + k]! * a[j * n + k]!;
    if (!(d > 0)) return false;
    d = Math.sqrt(d);
    a[j * n + j] = d;
    for (let i = j + 1; i < n; i++) {
      let s = a[i * n + j]!;
      for (let k = 0; k < j; k++) s -= a[i * n + k]! * a[j * n + k]!;
      a[i * n + j] = s / d;
    }
  }
  return true;
};

/** Replaces `count` right-hand sides of length `n`, one after the other in `b`, by the solutions, given `factor`'s result in `l`. */
export const solveFactored = (l: Float64Array, n: number, b: Float64Array, count: number): void => {
  for (let o = 0; o < count * n; o += n) {
    for (let i = 0; i < n; i++) {
      let s = b[o + i]!;
      for (let k = 0; k < i; k++) s -= l[i * n + k]! * b[o + k]!;
      b[o + i] = s / l[i * n + i]!;
    }
    for (let i = n - 1; i >= 0; i--) {
      let s = b[o + i]!;
      for (let k = i + 1; k < n; k++) s -= l[k * n + i]! * b[o + k]!;
      b[o + i] = s / l[i * n + i]!;
    }
  }
};

/** Solves the symmetric positive definite system of `n` unknowns in place: `matrix` becomes its factor, `right` the solution. False, with both spoilt, when the matrix is not positive definite. */
export const solveSmall = (matrix: Float64Array, right: Float64Array, n: number): boolean => {
  if (!factor(matrix, n)) return false;
  solveFactored(matrix, n, right, 1);
  return true;
};

/** Room for the solution in `inverseDiagonal`: it runs at every station of every line. */
const unit = new Float64Array(16);

/** Entry (i, i) of the inverse of the matrix whose Cholesky factor is `lower`. */
export const inverseDiagonal = (lower: Float64Array, n: number, i: number): number => {
  // Forward substitution of the unit vector: the sum of squares is the entry.
  const y = n <= unit.length ? unit : new Float64Array(n);
  let total = 0;
  for (let r = i; r < n; r++) {
    let sum = r === i ? 1 : 0;
    for (let k = i; k < r; k++) sum -= lower[r * n + k]! * y[k]!;
    y[r] = sum / lower[r * n + r]!;
    total += y[r]! ** 2;
  }
  return total;
};

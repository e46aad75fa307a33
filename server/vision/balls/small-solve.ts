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

/** Median of the first `count` numbers of `values`, which are left partly sorted; 0 of none. */
export const medianOf = (values: Float64Array, count: number): number => {
  if (count === 0) return 0;
  const part = values.subarray(0, count).sort();
  return count % 2 === 1 ? part[count >> 1]! : (part[(count >> 1) - 1]! + part[count >> 1]!) / 2;
};

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

/** Puts the number that sorting would put at `k` there, none larger before it, none smaller after it, among the first `count` (Hoare's selection). */
const select = (values: Float64Array, count: number, k: number): number => {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const held = values[i]!;
      values[i++] = values[j]!;
      values[j--] = held;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else break;
  }
  return values[k]!;
};

/** Median of the first `count` numbers of `values`, which are left in another order; 0 of none. */
export const medianOf = (values: Float64Array, count: number): number => {
  if (count === 0) return 0;
  const middle = count >> 1;
  const upper = select(values, count, middle);
  if (count % 2 === 1) return upper;
  let lower = values[0]!;
  for (let i = 1; i < middle; i++) lower = Math.max(lower, values[i]!);
  return (lower + upper) / 2;
};

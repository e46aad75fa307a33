/** Puts the number that sorting would put at `k` there, none larger before it, none smaller after it, among the first `count` of `values`; returns it (C. A. R. Hoare's selection, 1961). */
export const selectAt = (values: Float64Array, count: number, k: number): number => {
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
  const upper = selectAt(values, count, middle);
  if (count % 2 === 1) return upper;
  let lower = values[0]!;
  for (let i = 1; i < middle; i++) lower = Math.max(lower, values[i]!);
  return (lower + upper) / 2;
};

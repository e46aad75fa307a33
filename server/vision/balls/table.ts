/** The values of `of` at 0, 1 / `steps`, … 1, and one more of the last, so that 1 itself may be asked for. */
export const tableOf = (steps: number, of: (share: number) => number): Float64Array =>
  Float64Array.from({ length: steps + 2 }, (_, k) => of(Math.min(1, k / steps)));

/** What a table of `tableOf` has at step `at`, 0 to its number of steps, on the straight line between neighbours. */
export const stepOf = (table: Float64Array, at: number): number => {
  const k = at | 0;
  return table[k]! + (at - k) * (table[k + 1]! - table[k]!);
};

/** What a table of `tableOf` has at `share`, 0 to 1. */
export const valueAt = (table: Float64Array, share: number): number =>
  stepOf(table, share * (table.length - 2));

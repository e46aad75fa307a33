/** The values of `of` at 0, 1 / `steps`, … 1, and one more of the last, so that `valueAt` may ask for 1 itself. */
export const tableOf = (steps: number, of: (share: number) => number): Float64Array =>
  Float64Array.from({ length: steps + 2 }, (_, k) => of(Math.min(1, k / steps)));

/** What a table of `tableOf` has at `share`, 0 to 1, on the straight line between neighbours. */
export const valueAt = (table: Float64Array, share: number): number => {
  const at = share * (table.length - 2);
  const k = Math.floor(at);
  return table[k]! + (at - k) * (table[k + 1]! - table[k]!);
};

/** Columns by which what stands upright may be shifted from a strip below a place to one above it, in steps of half a column. */
const MOST_SHIFT = 4;
const STEP = 0.5;
/** A shift must leave less than this share of the squared differences that the strips have without one. */
const BETTER = 0.7;
/** Columns that must overlap. */
const LEAST = 6;

/** Value of channel `c` at column `k` of a strip (Y, Cb, Cr by column), between columns too. */
export const between = (strip: Float64Array, count: number, k: number, c: number): number => {
  const at = Math.max(0, Math.min(count - 1, k));
  const low = Math.floor(at);
  const high = Math.min(count - 1, low + 1);
  return strip[3 * low + c]! + (at - low) * (strip[3 * high + c]! - strip[3 * low + c]!);
};

/** Mean squared difference of the strips when the one above lies `shift` columns to the right of the one below. */
const difference = (above: Float64Array, below: Float64Array, count: number, shift: number): number => {
  const margin = Math.ceil(Math.abs(shift) / 2);
  let sum = 0;
  let n = 0;
  for (let k = margin; k < count - margin; k++, n++)
    for (let c = 0; c < 3; c++) {
      const d = between(above, count, k + shift / 2, c) - between(below, count, k - shift / 2, c);
      sum += d * d;
    }
  return n < LEAST ? Number.POSITIVE_INFINITY : sum / n;
};

/** By how many columns what stands upright lies farther to the right in the strip above a place than in the one below it: legs lean, and a wide lens makes them lean. 0 when no shift makes them much more alike. */
export const leanOf = (above: Float64Array, below: Float64Array, count: number): number => {
  const upright = difference(above, below, count, 0);
  let [best, least] = [0, BETTER * upright];
  for (let shift = -MOST_SHIFT; shift <= MOST_SHIFT; shift += STEP) {
    const here = difference(above, below, count, shift);
    if (here < least) [best, least] = [shift, here];
  }
  return best;
};

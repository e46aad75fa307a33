/** Columns by which what stands upright may lie farther aside above a place than below it, in steps of half a column. */
const MOST_SHIFT = 4;
const STEP = 0.5;
/** A shift must leave less than this share of the squared differences that the strips have without one. */
const BETTER = 0.7;
/** Strips that differ by less than this without one, grey levels, are alike as they are. */
const ALIKE = 6;
/** Columns that must overlap. */
const LEAST = 6;

/** Means of the columns of a strip of rows: Y, Cb, Cr in grey levels, column by column. */
type Strip = Float64Array;

/** Channel `c` of `strip` at the column `k`, which may lie between two; the outermost ones go on. */
export const columnAt = (strip: Strip, count: number, k: number, c: number): number => {
  const at = Math.max(0, Math.min(count - 1, k));
  const low = Math.floor(at);
  const left = strip[3 * low + c]!;
  return low === at ? left : left + (at - low) * (strip[3 * low + 3 + c]! - left);
};

/** Mean squared difference of the strips when what stands upright lies `shift` columns farther to the right above. */
const difference = (above: Strip, below: Strip, count: number, shift: number): number => {
  const margin = Math.ceil(Math.abs(shift) / 2);
  let sum = 0;
  for (let k = margin; k < count - margin; k++)
    for (let c = 0; c < 3; c++) {
      const d = columnAt(above, count, k + shift / 2, c) - columnAt(below, count, k - shift / 2, c);
      sum += d * d;
    }
  const n = count - 2 * margin;
  return n < LEAST ? Number.POSITIVE_INFINITY : sum / n;
};

/**
 * By how many of the `count` columns what stands upright lies farther to the right in the strip `above` a place than in the one `below` it: legs lean, and a camera that looks down makes
 * them lean. 0 when no shift makes the strips much more alike.
 */
export const leanOf = (above: Strip, below: Strip, count: number): number => {
  const upright = difference(above, below, count, 0);
  if (upright < ALIKE * ALIKE) return 0;
  let best = 0;
  let least = BETTER * upright;
  for (let shift = -MOST_SHIFT; shift <= MOST_SHIFT; shift += STEP) {
    const here = difference(above, below, count, shift);
    if (here >= least) continue;
    best = shift;
    least = here;
  }
  return best;
};

const copies = [new Float64Array(0), new Float64Array(0)];

/** `strip` as it would be `by` columns farther to the left. */
const shiftStrip = (strip: Strip, count: number, by: number, slot: 0 | 1): void => {
  if (copies[slot]!.length < 3 * count) copies[slot] = new Float64Array(3 * count);
  const copy = copies[slot]!;
  copy.set(strip.subarray(0, 3 * count));
  for (let k = 0; k < count; k++)
    for (let c = 0; c < 3; c++) strip[3 * k + c] = columnAt(copy, count, k + by, c);
};

/** Moves both strips to where what stands upright is half way between them, when it lies `shift` columns farther to the right above. */
export const shiftStrips = (above: Strip, below: Strip, count: number, shift: number): void => {
  if (shift === 0) return;
  shiftStrip(above, count, shift / 2, 0);
  shiftStrip(below, count, -shift / 2, 1);
};

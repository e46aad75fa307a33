import { columnAt, leanOf } from './lean.ts';
import { SIDE } from './roundness.ts';
import { masked, values, type Window } from './sieve-window.ts';

/** Means of the window's columns above the disc and below it. */
const above = new Float64Array(3 * SIDE);
const below = new Float64Array(3 * SIDE);

const meanRows = ({ columns }: Window, from: number, to: number, out: Float64Array): void => {
  for (let i = 0; i < columns; i++)
    for (let c = 0; c < 3; c++) {
      let sum = 0;
      for (let j = from; j < to; j++) sum += values[3 * (j * SIDE + i) + c]!;
      out[3 * i + c] = sum / (to - from);
    }
};

const takeColumns = (w: Window, lawn: Float64Array): void => {
  for (let k = 0; k < 3 * w.columns; k++) above[k] = lawn[k % 3]! - (above[k]! + below[k]!) / 2;
  for (let j = 0; j < w.rows; j++)
    for (let k = 0, o = 3 * j * SIDE; k < 3 * w.columns; k++, o++) values[o] = values[o]! + above[k]!;
};

/** The same of columns that lie `lean` farther to the right for each cell upwards; `high` and `low` are the heights at which they were measured. */
const takeLeaning = (w: Window, lawn: Float64Array, lean: number, high: number, low: number): void => {
  for (let j = 0; j < w.rows; j++)
    for (let i = 0; i < w.columns; i++)
      for (let c = 0; c < 3; c++) {
        const k = 3 * (j * SIDE + i) + c;
        const a = columnAt(above, w.columns, i + lean * (j + 0.5 - high), c);
        const b = columnAt(below, w.columns, i + lean * (j + 0.5 - low), c);
        values[k] = values[k]! + lawn[c]! - (a + b) / 2;
      }
};

/**
 * Takes off every column of the window what it shows above and below the disc at height `y`, of which nothing shows `clear` cells and more from there, and puts `lawn` (Y, Cb, Cr) in its place: what stands
 * upright there vanishes with its soft edges, leaning or not, and what is seen of a ball beside it stays. Takes the masks off. False, and nothing done, when the disc is too near the picture's edge.
 */
export const flattenWindow = (w: Window, y: number, clear: number, lawn: Float64Array): boolean => {
  const top = Math.min(w.rows, Math.floor(y - clear));
  const bottom = Math.max(0, Math.ceil(y + clear));
  if (top < 1 || bottom >= w.rows) return false;
  meanRows(w, 0, top, above);
  meanRows(w, bottom, w.rows, below);
  const [high, low] = [top / 2, (bottom + w.rows) / 2];
  const lean = leanOf(above, below, w.columns) / (low - high);
  if (lean === 0) takeColumns(w, lawn);
  else takeLeaning(w, lawn, lean, high, low);
  masked.fill(0);
  return true;
};

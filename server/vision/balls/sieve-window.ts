import type { Raster } from '../types.ts';
import { writeYcc } from '../ycc.ts';
import { isThing, MOST_OF } from './hidden-columns.ts';
import type { LawnColour } from './lawn-colour.ts';
import { SIDE } from './roundness.ts';

/** Cells a ball's radius is reduced to at most. */
const RADIUS_CELLS = 4;
/** A window of which more columns are masked shows other ground, not things before it. */
const MOST_MASKED = 0.75;

/** Y, Cb, Cr of the cells of the window that was opened last, SIDE × SIDE; and 1 for each of its columns in which a thing stands before the place that is looked at. */
export const values = new Float64Array(3 * SIDE * SIDE);
export const masked = new Uint8Array(SIDE);

/** The patch that is being looked at: cells of `cell` px, the first at (left, top), `columns` by `rows` of the SIDE × SIDE that are kept. */
export type Window = { cell: number; left: number; top: number; columns: number; rows: number };

/** Opens the window about (`x`, `y`) px for a ball of `radius` px. */
export const openWindow = (raster: Raster, x: number, y: number, radius: number): Window => {
  const cell = Math.max(1, Math.ceil(radius / RADIUS_CELLS));
  const half = Math.min((SIDE - 1) / 2, Math.ceil((2.6 * radius) / cell) + 1);
  const left = Math.max(0, Math.floor(x / cell) - half) * cell;
  const top = Math.max(0, Math.floor(y / cell) - half) * cell;
  const columns = Math.min(2 * half + 1, Math.floor((raster.width - left) / cell));
  const rows = Math.min(2 * half + 1, Math.floor((raster.height - top) / cell));
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++)
      readMean(raster, left + i * cell, top + j * cell, cell, 3 * (j * SIDE + i));
  return { cell, left, top, columns, rows };
};

const readMean = (raster: Raster, x: number, y: number, cell: number, o: number): void => {
  let r = 0;
  let g = 0;
  let b = 0;
  for (let j = 0; j < cell; j++)
    for (let i = 0, p = ((y + j) * raster.width + x) * 3; i < cell; i++, p += 3) {
      r += raster.data[p]!;
      g += raster.data[p + 1]!;
      b += raster.data[p + 2]!;
    }
  const n = cell * cell;
  writeYcc(r / n, g / n, b / n, values, o);
};

/** Masks the columns in which something else than lawn is seen both above and below the disc of `radius` cells at height `y`: a thing that stands before the place. */
export const maskColumns = (w: Window, y: number, radius: number, clear: number, known: LawnColour): void => {
  masked.fill(0);
  const top = Math.min(w.rows, Math.floor(y - clear * radius));
  const bottom = Math.max(0, Math.ceil(y + clear * radius));
  if (top < 1 || bottom >= w.rows) return;
  let count = 0;
  for (let i = 0; i < w.columns; i++)
    if (othersIn(i, 0, top, known) > MOST_OF && othersIn(i, bottom, w.rows, known) > MOST_OF) {
      masked[i] = 1;
      count++;
    }
  if (count > MOST_MASKED * w.columns) masked.fill(0);
};

/** Share of the cells of column `i`, rows `from`–`to` (not included), that show something else than lawn. */
const othersIn = (i: number, from: number, to: number, known: LawnColour): number => {
  let others = 0;
  for (let j = from; j < to; j++) if (isThing(values, 3 * (j * SIDE + i), known)) others++;
  return others / (to - from);
};

/** Whether a masked column of the window is within `reach` cells of `x`. */
export const isCoveredNear = (w: Window, x: number, reach: number): boolean => {
  const last = Math.min(w.columns - 1, Math.floor(x + reach));
  for (let i = Math.max(0, Math.floor(x - reach)); i <= last; i++) if (masked[i] === 1) return true;
  return false;
};

/** A place in the picture, px. */
export type Place = { readonly x: number; readonly y: number };

/** How far outside the edge of a thing that stands before it the middle of what is seen of a ball lies, radii. */
const PEEPS = 0.4;

/** The places beside the thing whose columns hide the middle of the disc that was looked at last: where a ball may peep out from behind it, on either side. */
export const besideThing = (w: Window, x: number, y: number, radius: number): Place[] => {
  const middle = Math.floor((x - w.left) / w.cell);
  if (masked[middle] !== 1) return [];
  let [from, to] = [middle, middle];
  while (from > 0 && masked[from - 1] === 1) from--;
  while (to < w.columns - 1 && masked[to + 1] === 1) to++;
  const found: Place[] = [];
  if (from > 0) found.push({ x: w.left + from * w.cell - PEEPS * radius, y });
  if (to < w.columns - 1) found.push({ x: w.left + (to + 1) * w.cell + PEEPS * radius, y });
  return found;
};

import type { Raster } from '../types.ts';

/**
 * Summed areas of a part of a picture, reduced by a whole factor. Cell (i, j) is the mean of `factor` × `factor` px whose first px is
 * (left + i·factor, top + j·factor), in sixteenths of a grey level; `sums` holds (columns + 1) × (rows + 1) × 3 running sums,
 * red green blue beside each other.
 */
export type SummedBand = {
  readonly factor: number;
  readonly left: number;
  readonly top: number;
  readonly columns: number;
  readonly rows: number;
  readonly sums: Uint32Array;
};

/** Fixed-point scale of a cell: fine enough that rounding stays below a tenth of one grey level. */
const CELL_SCALE = 16;
/** Most cells of a band, so that the running sums (at most 255 · 16 each) stay below 2³². */
export const MOST_CELLS = 1_000_000;

/** The reduced, summed picture of columns `left`–`right` and rows `top`–`bottom` (ends not included, inside the picture). Cells cut by an end are left out. */
export const sumBand = (
  raster: Raster,
  factor: number,
  left: number,
  top: number,
  right: number,
  bottom: number,
  buffer: Uint32Array,
): SummedBand => {
  const columns = Math.max(0, Math.floor((right - left) / factor));
  const rows = Math.max(0, Math.floor((bottom - top) / factor));
  const stride = (columns + 1) * 3;
  const sums = buffer.length >= stride * (rows + 1) ? buffer : new Uint32Array(stride * (rows + 1));
  sums.fill(0, 0, stride);
  const row = new Uint32Array(columns * 3);
  const add = factor === 2 ? addRowOf2 : factor === 3 ? addRowOf3 : addRow;
  for (let j = 0; j < rows; j++) {
    row.fill(0);
    for (let r = 0; r < factor; r++)
      add(raster.data, ((top + j * factor + r) * raster.width + left) * 3, row, factor);
    runSums(row, CELL_SCALE / (factor * factor), sums, j * stride, (j + 1) * stride);
  }
  return { factor, left, top, columns, rows, sums };
};

/** Adds one row of px, starting at byte `at`, to the cells of `row`. */
const addRow = (data: Uint8Array, at: number, row: Uint32Array, factor: number): void => {
  let p = at;
  for (let c = 0; c < row.length; c += 3) {
    let red = 0;
    let green = 0;
    let blue = 0;
    for (let k = 0; k < factor; k++) {
      red += data[p] as number;
      green += data[p + 1] as number;
      blue += data[p + 2] as number;
      p += 3;
    }
    row[c] = (row[c] as number) + red;
    row[c + 1] = (row[c + 1] as number) + green;
    row[c + 2] = (row[c + 2] as number) + blue;
  }
};

/** `addRow` for a factor of 2: the small factors are what most of a picture is reduced by, and loops of two turns cost more than they add. */
const addRowOf2 = (data: Uint8Array, at: number, row: Uint32Array): void => {
  for (let c = 0, p = at; c < row.length; c += 3, p += 6) {
    row[c] = row[c]! + data[p]! + data[p + 3]!;
    row[c + 1] = row[c + 1]! + data[p + 1]! + data[p + 4]!;
    row[c + 2] = row[c + 2]! + data[p + 2]! + data[p + 5]!;
  }
};

/** `addRow` for a factor of 3. */
const addRowOf3 = (data: Uint8Array, at: number, row: Uint32Array): void => {
  for (let c = 0, p = at; c < row.length; c += 3, p += 9) {
    row[c] = row[c]! + data[p]! + data[p + 3]! + data[p + 6]!;
    row[c + 1] = row[c + 1]! + data[p + 1]! + data[p + 4]! + data[p + 7]!;
    row[c + 2] = row[c + 2]! + data[p + 2]! + data[p + 5]! + data[p + 8]!;
  }
};

/** Appends one row of cells to the running sums. */
const runSums = (row: Uint32Array, scale: number, sums: Uint32Array, above: number, here: number): void => {
  let red = 0;
  let green = 0;
  let blue = 0;
  sums[here] = 0;
  sums[here + 1] = 0;
  sums[here + 2] = 0;
  for (let c = 0; c < row.length; c += 3) {
    red += ((row[c] as number) * scale + 0.5) | 0;
    green += ((row[c + 1] as number) * scale + 0.5) | 0;
    blue += ((row[c + 2] as number) * scale + 0.5) | 0;
    sums[here + c + 3] = (sums[above + c + 3] as number) + red;
    sums[here + c + 4] = (sums[above + c + 4] as number) + green;
    sums[here + c + 5] = (sums[above + c + 5] as number) + blue;
  }
};

import type { Raster } from '../types.ts';
import type { BallView } from './ball-view.ts';

/**
 * The px around one ball as separate numbers: luma and the two colour differences of JPEG (ITU-T T.871), in grey levels of the picture's own
 * tone curve. Brightness and colour are kept apart because phones store colour at half resolution, so its edges are softer.
 */
export type Patch = {
  /** Side of one cell in px of the picture (1 unless the ball is large). */
  readonly cell: number;
  readonly count: number;
  /** Middles of the cells, px of the picture. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** count × 3: Y, Cb, Cr (the last two centred on 0). */
  readonly values: Float64Array;
  /** 1 for each cell that may be used, 0 for one that shows something else. */
  readonly trust: Float64Array;
};

/** Most radius in cells: a larger ball is averaged down to it, which keeps the work bounded and loses nothing against blades of grass. */
const MOST_RADIUS = 9;
/** Half side of the patch: this many radii and at least this many cells of lawn around the ball. */
const REACH = 1.9;
const REACH_CELLS = 3.5;

/** The patch around `view`, cut at the picture's edge. */
export const cutPatch = (raster: Raster, view: BallView): Patch => {
  const cell = Math.max(1, Math.ceil(view.radius / MOST_RADIUS));
  const half = Math.max(REACH * view.radius, view.radius + REACH_CELLS * cell);
  const left = Math.max(0, Math.floor((view.x - half) / cell));
  const top = Math.max(0, Math.floor((view.y - half) / cell));
  const right = Math.min(Math.floor(raster.width / cell), Math.ceil((view.x + half) / cell));
  const bottom = Math.min(Math.floor(raster.height / cell), Math.ceil((view.y + half) / cell));
  const columns = Math.max(0, right - left);
  const count = columns * Math.max(0, bottom - top);
  const patch = {
    cell,
    count,
    x: new Float64Array(count),
    y: new Float64Array(count),
    values: new Float64Array(3 * count),
    trust: new Float64Array(count).fill(1),
  };
  for (let j = top, i = 0; j < bottom; j++)
    for (let k = left; k < right; k++, i++) {
      patch.x[i] = (k + 0.5) * cell;
      patch.y[i] = (j + 0.5) * cell;
      readCell(raster, k * cell, j * cell, cell, patch.values, 3 * i);
    }
  return patch;
};

/** Mean of the cell whose first px is (`x`, `y`), as Y, Cb, Cr (ITU-T T.871). */
const readCell = (
  raster: Raster,
  x: number,
  y: number,
  cell: number,
  values: Float64Array,
  at: number,
): void => {
  let red = 0;
  let green = 0;
  let blue = 0;
  for (let j = 0; j < cell; j++) {
    let p = ((y + j) * raster.width + x) * 3;
    for (let i = 0; i < cell; i++, p += 3) {
      red += raster.data[p] as number;
      green += raster.data[p + 1] as number;
      blue += raster.data[p + 2] as number;
    }
  }
  const scale = 1 / (cell * cell);
  const luma = 0.299 * red + 0.587 * green + 0.114 * blue;
  values[at] = scale * luma;
  values[at + 1] = scale * 0.5643 * (blue - luma);
  values[at + 2] = scale * 0.7133 * (red - luma);
};

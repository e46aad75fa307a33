import type { Raster } from '../types.ts';
import { writeYcc } from '../ycc.ts';
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
  /** Light on the lawn in each cell, as a share of that at the ball; null where it is even. */
  light: Float64Array | null;
};

/** Most radius in cells: a larger ball is averaged down to it, which keeps the work bounded and loses nothing against blades of grass. For a first look half of it is enough. */
export const MOST_RADIUS = 8;
export const ROUGH_RADIUS = 4;
/** Radius of the patch: this many radii and at least this many cells of lawn around the ball. */
const REACH = 1.9;
const REACH_CELLS = 3.5;

/** The round patch about `view`, cut at the picture's edge; `wider` times as large as one ball needs, its radius at most `mostCells` cells. */
export const cutPatch = (raster: Raster, view: BallView, wider = 1, mostCells = MOST_RADIUS): Patch => {
  const cell = Math.max(1, Math.ceil(view.radius / mostCells));
  const reach = wider * Math.max(REACH * view.radius, view.radius + REACH_CELLS * cell);
  const left = Math.max(0, Math.floor((view.x - reach) / cell));
  const top = Math.max(0, Math.floor((view.y - reach) / cell));
  const right = Math.min(Math.floor(raster.width / cell), Math.ceil((view.x + reach) / cell));
  const bottom = Math.min(Math.floor(raster.height / cell), Math.ceil((view.y + reach) / cell));
  const most = Math.max(0, right - left) * Math.max(0, bottom - top);
  const x = new Float64Array(most);
  const y = new Float64Array(most);
  const values = new Float64Array(3 * most);
  let count = 0;
  for (let j = top; j < bottom; j++)
    for (let k = left; k < right; k++) {
      const dx = (k + 0.5) * cell - view.x;
      const dy = (j + 0.5) * cell - view.y;
      if (dx * dx + dy * dy > reach * reach) continue;
      x[count] = dx + view.x;
      y[count] = dy + view.y;
      readCell(raster, k * cell, j * cell, cell, values, 3 * count);
      count++;
    }
  return { cell, count, x, y, values, trust: new Float64Array(count).fill(1), light: null };
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
  writeYcc(scale * red, scale * green, scale * blue, values, at);
};

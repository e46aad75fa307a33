import type { Raster } from '../../units/raster.ts';

/** A rectangle of brightness samples: sample (i, j) stands at image px (left + (i + 0.5)·step, top + (j + 0.5)·step), 0 to 255. */
export type Patch = {
  readonly left: number;
  readonly top: number;
  readonly step: number;
  readonly columns: number;
  readonly rows: number;
  readonly values: Float64Array;
  /** How much of a white object's brightness would show at each sample, 0 to 1: nothing on white paint. Everywhere 1 when left out. */
  readonly contrast?: Float64Array;
};

/** Bounds in image px, the right and lower ones not included. */
export type Bounds = {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
};

/** At most so many samples are fitted; a nearer object is averaged to a coarser grid. */
const MOST_SAMPLES = 6000;

/** Mean of red, green and blue over a `step` × `step` block whose top-left pixel is (x, y). */
const blockMean = (raster: Raster, x: number, y: number, step: number): number => {
  let sum = 0;
  for (let v = y; v < y + step; v++) {
    let at = (v * raster.width + x) * 3;
    for (let u = 0; u < step; u++, at += 3)
      sum += raster.data[at]! + raster.data[at + 1]! + raster.data[at + 2]!;
  }
  return sum / (3 * step * step);
};

/** Cuts `bounds` out of the picture, clipped to it; null when less than 5 × 5 samples of it lie inside. */
export const cutPatch = (raster: Raster, bounds: Bounds): Patch | null => {
  const left = Math.max(0, Math.floor(bounds.left));
  const top = Math.max(0, Math.floor(bounds.top));
  const width = Math.min(raster.width, Math.ceil(bounds.right)) - left;
  const height = Math.min(raster.height, Math.ceil(bounds.bottom)) - top;
  if (width < 5 || height < 5) return null;
  const step = Math.max(1, Math.ceil(Math.sqrt((width * height) / MOST_SAMPLES)));
  const columns = Math.floor(width / step);
  const rows = Math.floor(height / step);
  if (columns < 5 || rows < 5) return null;
  const values = new Float64Array(columns * rows);
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++)
      values[j * columns + i] = blockMean(raster, left + i * step, top + j * step, step);
  return { left, top, step, columns, rows, values };
};

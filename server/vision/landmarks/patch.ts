import type { Raster } from '../../units/raster.ts';

/**
 * Channels in which white things are looked for. `light`: mean of red, green and blue. `white`: blue minus green, which is near 0 for white, grey and
 * black in any light and well below on grass, so that a hoop in its own shadow, no brighter than the grass, still stands out.
 */
export const CHANNELS = ['light', 'white'] as const;
/** Number of channels. */
export const CHANNEL_COUNT = CHANNELS.length;
/** One array of samples a channel, in the order of CHANNELS, 0 to 255 scale. */
export type Samples = readonly [Float64Array, Float64Array];

/** A rectangle of samples: sample (i, j) stands at image px (left + (i + 0.5)·step, top + (j + 0.5)·step). */
export type Patch = {
  readonly left: number;
  readonly top: number;
  readonly step: number;
  readonly columns: number;
  readonly rows: number;
  readonly channels: Samples;
  /** What of the ground was taken off each sample where it is not grass, such as paint: a thing standing before it hides as much. Nothing when left out. */
  readonly hidden?: Samples;
  /** The ground's level as a multiple of the grass': what a shadow takes from it goes with it. Everywhere 1 when left out. */
  readonly tone?: Samples;
  /** By how much the ground's own variance is larger than on the quietest ground, 1 or more: paint is ragged. Everywhere 1 when left out. */
  readonly unrest?: Samples;
};

/** Bounds in image px, the right and lower ones not included. */
export type Bounds = {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
};

/** At most so many samples are fitted; a nearer object is averaged to a coarser grid. */
const MOST_SAMPLES = 4000;

/** Number of samples of a patch. */
export const sampleCount = ({ columns, rows }: Patch): number => columns * rows;

/** Writes the means of both channels over a `step` × `step` block whose top-left pixel is (x, y). */
const blockMeans = (
  raster: Raster,
  x: number,
  y: number,
  step: number,
  [light, white]: Samples,
  index: number,
): void => {
  let all = 0;
  let difference = 0;
  for (let v = y; v < y + step; v++) {
    let at = (v * raster.width + x) * 3;
    for (let u = 0; u < step; u++, at += 3) {
      const green = raster.data[at + 1]!;
      const blue = raster.data[at + 2]!;
      all += raster.data[at]! + green + blue;
      difference += blue - green;
    }
  }
  light[index] = all / (3 * step * step);
  white[index] = difference / (step * step);
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
  const channels: Samples = [new Float64Array(columns * rows), new Float64Array(columns * rows)];
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++)
      blockMeans(raster, left + i * step, top + j * step, step, channels, j * columns + i);
  return { left, top, step, columns, rows, channels };
};

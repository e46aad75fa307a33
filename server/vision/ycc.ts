import type { Raster } from '../units/raster.ts';

/** Y, Cb, Cr in grey levels, the colour differences centred on 0: the separate numbers of JPEG (ITU-T T.871). */
export type Ycc = readonly [number, number, number];

/** Luma of red, green and blue grey levels. */
export const lumaOf = (r: number, g: number, b: number): number => 0.299 * r + 0.587 * g + 0.114 * b;

/** Shares of blue and of red over the luma that make the colour differences: 0.5 / (1 − 0.114) and 0.5 / (1 − 0.299). */
const BLUE = 0.5643;
const RED = 0.7133;

/** Y, Cb, Cr of red, green and blue grey levels. */
export const toYcc = (r: number, g: number, b: number): Ycc => {
  const luma = lumaOf(r, g, b);
  return [luma, BLUE * (b - luma), RED * (r - luma)];
};

/** The same into `out` from `at` on, for loops over many. */
export const writeYcc = (r: number, g: number, b: number, out: Float64Array, at: number): void => {
  const luma = lumaOf(r, g, b);
  out[at] = luma;
  out[at + 1] = BLUE * (b - luma);
  out[at + 2] = RED * (r - luma);
};

/** Red, green and blue grey levels of Y, Cb, Cr. */
export const redOf = (y: number, cr: number): number => y + 1.402 * cr;
export const greenOf = (y: number, cb: number, cr: number): number => y - 0.34414 * cb - 0.71414 * cr;
export const blueOf = (y: number, cb: number): number => y + 1.772 * cb;

/** Y, Cb, Cr of the px at column `x` and row `y`, whole numbers inside the picture. */
export const yccAt = ({ data, width }: Raster, x: number, y: number): Ycc => {
  const p = (y * width + x) * 3;
  return toYcc(data[p]!, data[p + 1]!, data[p + 2]!);
};

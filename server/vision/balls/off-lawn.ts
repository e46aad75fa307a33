import type { Raster } from '../types.ts';
import { type Ycc, yccAt } from '../ycc.ts';
import type { CellNoise } from './noise-model.ts';
import type { OutlineFit } from './outline-shape.ts';

/** How far JPEG carries colour: a block of 8 × 8 values of halved colour (ITU-T T.81), px. */
export const COLOUR_BLOCK = 16;

/** Neighbouring px share their colour differences (half resolution in JPEG), so one px of them scatters twice as much as a cell's. */
const COLOUR_SHARED = 2;

/** The px that holds (`x`, `y`), or null outside the picture. */
export const pxAt = (raster: Raster, x: number, y: number): Ycc | null =>
  x < 0 || y < 0 || x >= raster.width || y >= raster.height
    ? null
    : yccAt(raster, Math.floor(x), Math.floor(y));

/** Contrast of the px that holds (`x`, `y`) against the lawn beside the ball of `fit`, in standard deviations of `noise`; 0 outside the picture. */
export const offLawnAt = (
  raster: Raster,
  fit: OutlineFit,
  noise: CellNoise,
  x: number,
  y: number,
): number => {
  const px = pxAt(raster, x, y);
  if (px === null) return 0;
  const [luma, blue, red] = px;
  const colour = COLOUR_SHARED * noise.colour;
  return Math.hypot(
    (luma - fit.lawn[0]!) / noise.luma,
    (blue - fit.lawn[1]!) / colour,
    (red - fit.lawn[2]!) / colour,
  );
};

/**
 * Brightness of lawn in shade and of lawn in the sun, as shares of the lawn beside the ball (after the tone curve): shade keeps the sky's light, a fifth of all, which is 0.48 of the
 * grey level, and steep curves take from that. What is darker is dark cloth.
 */
const DARKEST = 0.4;
const BRIGHTEST = 1.5;

/** Contrast of `px` against `lawn` in the light that suits it best. */
export const offLawnColour = (px: Ycc, lawn: Float64Array, { luma, colour }: CellNoise): number => {
  const scales = [1 / luma, 1 / (COLOUR_SHARED * colour), 1 / (COLOUR_SHARED * colour)] as const;
  let own = 0;
  let both = 0;
  for (let c = 0; c < 3; c++) {
    own += (lawn[c]! * scales[c]!) ** 2;
    both += px[c]! * lawn[c]! * scales[c]! ** 2;
  }
  const light = Math.max(DARKEST, Math.min(BRIGHTEST, both / own));
  return Math.hypot(...scales.map((scale, c) => (px[c]! - light * lawn[c]!) * scale));
};

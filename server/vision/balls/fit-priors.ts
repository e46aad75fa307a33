import { COLUMN } from './shading.ts';
import type { ShadowDepth } from './shadow-depth.ts';

/** Mean colours (Y, Cb, Cr) of ball and lawn while a fit runs. */
export type Colours = { readonly ball: Float64Array; readonly lawn: Float64Array };

/** No prior at all, for grey levels. */
const FREE = 300;
/** Grey levels added to every prior width: luma, colour. */
const FLOOR = [4, 2] as const;
/** Share of a ball's brightness that sunlight adds to even light, and its spread: none in shade, about 0.6 in the open (SUN_TO_SKY through the tone curve). */
const LIT = 0.6;
const LIT_SD = 0.4;
/** What the light of sky and lawn does to a ball, over what it should do by `skyAt`, and its spread: clouds, trees and walls make a sky uneven. */
const ABOVE = 1;
const ABOVE_SD = 0.4;
/** Slopes of brightness that the sun does not explain; without a sun in the model they must hold its light as well. */
const SLOPE = 0.06;
const SLOPE_NO_SUN = 0.25;
/** Brightest gloss, grey levels. */
const GLOSS = 20;
/** Share of a ball's foot that blades hide below their height, and its spread. */
const BLADES = 0.4;
const BLADES_SD = 0.3;
/** Slope of the lawn's brightness over two radii: mowing stripes and worn patches. */
const LAWN_SLOPE = 0.1;
/** How dark the lawn is about the foot, over what it should be by `darkUnder`, and its spread: blades stand up into the light. */
const UNDER = 1;
const UNDER_SD = 0.4;
/** A column that is switched off. */
const OFF = 1e-3;

/**
 * Means and precisions (1 / variance) of the columns' coefficients for channel `c` (0 luma, 1 Cb, 2 Cr), written into the first COLUMNS of `mean` and
 * `precision`. Most scale with the brightness of ball and lawn, for light multiplies. `depth` is that of cast shadows, null without a sun.
 */
export const columnPriors = (
  { ball, lawn }: Colours,
  c: number,
  depth: ShadowDepth | null,
  mean: Float64Array,
  precision: Float64Array,
): void => {
  const sunny = depth !== null;
  const f = ball[c]!;
  const b = lawn[c]!;
  const floor = c === 0 ? FLOOR[0] : FLOOR[1];
  const size = Math.abs(f);
  const ground = Math.abs(b);
  // What `f` is without its half of the sunlight.
  const even = sunny ? f / (1 + LIT / 2) : f;
  const slope = (sunny ? SLOPE : SLOPE_NO_SUN) * size + floor;
  const set = (k: number, m: number, sd: number): void => {
    mean[k] = m;
    precision[k] = 1 / (sd * sd);
  };
  set(COLUMN.even, 0, FREE);
  set(COLUMN.lit, sunny ? LIT * f : 0, sunny ? LIT_SD * size + floor : OFF);
  set(COLUMN.above, ABOVE * even, ABOVE_SD * Math.abs(even) + floor);
  set(COLUMN.blades, BLADES * (b - f), BLADES_SD * Math.abs(b - f) + 1);
  set(COLUMN.slopeDown, 0, slope);
  set(COLUMN.slopeSide, 0, slope);
  set(COLUMN.gloss, 0, sunny ? GLOSS : OFF);
  set(COLUMN.lawn, 0, FREE);
  set(COLUMN.under, -UNDER * b, UNDER_SD * ground + 1);
  set(COLUMN.shadow, sunny ? -depth.share * b : 0, sunny ? depth.sd * ground + 1 : OFF);
  set(COLUMN.lawnDown, 0, LAWN_SLOPE * ground + 1);
  set(COLUMN.lawnSide, 0, LAWN_SLOPE * ground + 1);
};

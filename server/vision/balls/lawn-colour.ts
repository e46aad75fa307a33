import type { Raster } from '../types.ts';
import { toYcc, writeYcc, type Ycc } from '../ycc.ts';
import { linearRgb, yccOf } from './light.ts';
import { type CellNoise, typicalNoise } from './noise-model.ts';
import type { LawnSpans } from './search-scale.ts';

/** What the lawn looks like in this picture: medians of many places. */
export type LawnColour = {
  /** Linear red, green, blue of lawn in the middle of its range. */
  readonly rgb: readonly [number, number, number];
  /** The same as Y, Cb, Cr in grey levels. */
  readonly ycc: Ycc;
  /** ln(red / green) and ln(blue / green): middle and spread (half the range that holds two thirds). */
  readonly redness: number;
  readonly blueness: number;
  readonly rednessSd: number;
  readonly bluenessSd: number;
  /** Scatter of single px of quiet lawn, grey levels of luma and of colour. */
  readonly noise: CellNoise;
};

/** Places that are looked at, each the mean of SIDE × SIDE px. */
const PLACES = 1500;
const SIDE = 4;
/** Least spread: rounding of the colour differences. */
const LEAST_SPREAD = 0.04;

const quantile = (sorted: Float64Array, q: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? 0;

const CHANNELS = [0, 1, 2].map((c) => (rgb: readonly [number, number, number]) => rgb[c as 0 | 1 | 2]);
const redness = (c: readonly [number, number, number]): number => Math.log((c[0] + 1e-3) / (c[1] + 1e-3));
const blueness = (c: readonly [number, number, number]): number => Math.log((c[2] + 1e-3) / (c[1] + 1e-3));

/** The lawn's colour, from places spread evenly over the px of `spans`; balls, people and lines are too few to move medians. */
export const lawnColour = (raster: Raster, spans: LawnSpans): LawnColour => {
  let area = 0;
  for (let i = 0; i < spans.from.length; i++) area += Math.max(0, spans.to[i]! - spans.from[i]!);
  const pace = Math.max(1, Math.floor(Math.sqrt(area / PLACES)));
  const found: (readonly [number, number, number])[] = [];
  const noises: CellNoise[] = [];
  for (let i = 0; i < spans.from.length; i += pace)
    for (let x = spans.from[i]!; x < spans.to[i]!; x += pace) {
      found.push(placeColour(raster, x, spans.top + i));
      noises.push(placeNoise(raster, x, spans.top + i));
    }
  const sorted = (value: (c: readonly [number, number, number]) => number): Float64Array =>
    Float64Array.from(found, value).sort();
  const red = sorted(redness);
  const blue = sorted(blueness);
  const spread = (s: Float64Array): number =>
    Math.max(LEAST_SPREAD, (quantile(s, 0.84) - quantile(s, 0.16)) / 2);
  const rgb = [0, 1, 2].map((c) => quantile(sorted(CHANNELS[c]!), 0.5)) as [number, number, number];
  return {
    rgb,
    ycc: yccOf(rgb),
    redness: quantile(red, 0.5),
    blueness: quantile(blue, 0.5),
    rednessSd: spread(red),
    bluenessSd: spread(blue),
    noise: quietNoise(noises),
  };
};

/** Colour scatters more over a ball's width than over neighbouring values, and not less than rounding and compression make it, grey levels. */
const WIDER = 2;
const LEAST_COLOUR = 1.2;

const quietNoise = (noises: readonly CellNoise[]): CellNoise => {
  const { luma, colour } = typicalNoise(noises);
  return { luma, colour: Math.max(LEAST_COLOUR, WIDER * colour) };
};

const placeColour = (raster: Raster, x: number, y: number): readonly [number, number, number] => {
  let r = 0;
  let g = 0;
  let b = 0;
  let n = 0;
  for (let j = y; j < Math.min(raster.height, y + SIDE); j++)
    for (let i = x; i < Math.min(raster.width, x + SIDE); i++) {
      const p = (j * raster.width + i) * 3;
      r += raster.data[p]!;
      g += raster.data[p + 1]!;
      b += raster.data[p + 2]!;
      n++;
    }
  return linearRgb(...toYcc(r / n, g / n, b / n));
};

const px = new Float64Array(3);
const sums = new Float64Array(6);

/** Px whose scatter is measured are so far apart: JPEG keeps colour for four px together. */
const APART = 3;

/** Scatter of SIDE × SIDE px about the place, about their mean. */
const placeNoise = (raster: Raster, x: number, y: number): CellNoise => {
  sums.fill(0);
  let n = 0;
  for (let j = y; j < Math.min(raster.height, y + SIDE * APART); j += APART)
    for (let i = x; i < Math.min(raster.width, x + SIDE * APART); i += APART) {
      const p = (j * raster.width + i) * 3;
      writeYcc(raster.data[p]!, raster.data[p + 1]!, raster.data[p + 2]!, px, 0);
      for (let c = 0; c < 3; c++) {
        sums[c] = sums[c]! + px[c]!;
        sums[c + 3] = sums[c + 3]! + px[c]! * px[c]!;
      }
      n++;
    }
  const variance = (c: number): number =>
    Math.max(0, (sums[c + 3]! - (sums[c]! * sums[c]!) / n) / Math.max(1, n - 1));
  return { luma: Math.sqrt(variance(0)), colour: Math.sqrt((variance(1) + variance(2)) / 2) };
};

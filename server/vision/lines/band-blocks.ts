import { type Band, type BandFit, contrast, fitBand, type ProfilePoints } from './fit-band.ts';
import { BLUR_PRIOR, PAINT_WIDTH_PRIOR } from './paint.ts';
import { emptyPoints, FLANK_PIXELS, type SideView } from './side-view.ts';
import type { StationFits } from './station-fits.ts';

/** What one stretch of a boundary says about the paint and the picture's blur. */
export type BandBlock = {
  /** First station of the stretch and the one after its last. */
  readonly from: number;
  readonly to: number;
  /** Mean px across the line per metre on the lawn, and px per metre of height (its size). */
  readonly across: number;
  readonly rise: number;
  /** Width of the band and blur in px, with their standard deviations. */
  readonly width: number;
  readonly widthSd: number;
  readonly blur: number;
  readonly blurSd: number;
  /** Paint's light over the grass's, and the grass's own. */
  readonly contrast: number;
  readonly grass: number;
};

/** Stretches a side is divided into. */
const BLOCKS = 4;
/** Stations a stretch needs. */
const LEAST_STATIONS = 4;

/**
 * Lays the profiles of each stretch of a side over one another, each moved by its own fitted middle, and fits band width and blur to the
 * sum: hundreds of columns at all phases of the pixel grid show the profile far finer than any one.
 */
export const bandBlocks = (view: SideView, fits: StationFits): BandBlock[] => {
  const { count } = view.stations;
  const points = emptyPoints(view.profiles.bins);
  return Array.from({ length: BLOCKS }, (_, b) => {
    const from = Math.floor((b * count) / BLOCKS);
    const to = Math.floor(((b + 1) * count) / BLOCKS);
    return block(view, fits, from, to, points);
  }).filter((found) => found !== null);
};

const block = (
  view: SideView,
  fits: StationFits,
  from: number,
  to: number,
  points: ProfilePoints,
): BandBlock | null => {
  const used = usable(fits, from, to);
  if (used.length < LEAST_STATIONS) return null;
  const mean = (row: Float64Array): number =>
    used.reduce((sum, k) => sum + row[view.stations.middle[k]!]!, 0) / used.length;
  const across = mean(view.curve.across);
  const width = PAINT_WIDTH_PRIOR.mean * across;
  pool(view, fits, used, width / 2 + FLANK_PIXELS, points);
  const start: Band = { inner: 0, paint: 0, outer: 0, middle: 0, width, blur: BLUR_PRIOR.mean };
  const fit = fitBand(points, start, 1.5, {
    width: { mean: width, sd: Math.max(0.3, width) },
    blur: BLUR_PRIOR,
  });
  if (!fit) return null;
  return { from, to, across, rise: Math.abs(mean(view.curve.rise)), ...describe(fit) };
};

const describe = ({ band, widthSd, blurSd }: BandFit) => ({
  width: band.width,
  widthSd,
  blur: band.blur,
  blurSd,
  contrast: contrast(band),
  grass: (band.inner + band.outer) / 2,
});

/** Stations of the stretch where paint stands out, less the half that fit worst: a person on the line is in none of the rest. */
const usable = (fits: StationFits, from: number, to: number): number[] => {
  const seen: number[] = [];
  for (let k = from; k < to; k++)
    if (Number.isFinite(fits.sd[k]!) && fits.contrast[k]! > 3 * fits.contrastSd[k]!) seen.push(k);
  const relative = (k: number): number => fits.noise[k]! / fits.contrast[k]!;
  seen.sort((a, b) => relative(a) - relative(b));
  return seen.slice(0, Math.max(LEAST_STATIONS, Math.ceil(seen.length * 0.7)));
};

const POOL_BIN = 0.25;

const pool = (
  view: SideView,
  fits: StationFits,
  used: readonly number[],
  half: number,
  points: ProfilePoints,
): void => {
  const { bins, weight, light, place } = view.profiles;
  const size = Math.min(points.place.length, Math.ceil((2 * half) / POOL_BIN));
  for (const row of [points.place, points.light, points.weight]) row.fill(0);
  for (const k of used)
    for (let b = k * bins; b < (k + 1) * bins; b++) {
      const n = weight[b]!;
      const e = place[b]! - fits.middle[k]!;
      const at = Math.floor(e / POOL_BIN + size / 2);
      if (n === 0 || at < 0 || at >= size) continue;
      points.weight[at] = points.weight[at]! + n;
      points.light[at] = points.light[at]! + n * light[b]!;
      points.place[at] = points.place[at]! + n * e;
    }
  points.count = compact(points, size);
};

/** Turns sums into means and drops empty bins. */
const compact = (points: ProfilePoints, size: number): number => {
  let count = 0;
  for (let i = 0; i < size; i++) {
    const n = points.weight[i]!;
    if (n === 0) continue;
    points.place[count] = points.place[i]! / n;
    points.light[count] = points.light[i]! / n;
    points.weight[count] = n;
    count++;
  }
  return count;
};

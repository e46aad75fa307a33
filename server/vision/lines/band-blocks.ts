import type { Side } from '../../lawn/court.ts';
import { type Band, type BandFit, contrast, fitBand, type Hold, type ProfilePoints } from './fit-band.ts';
import { emptyPoints, flankPixels, type SideView } from './side-view.ts';
import { smoothCourse } from './smooth-course.ts';
import { type StationFits, stationPlaces } from './station-fits.ts';

/** What one stretch of a boundary says about the paint and the picture's blur. */
export type BandBlock = {
  readonly side: Side;
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

/** How much the blur of one stretch differs from the picture's, px: focus, direction, lens. */
const BLUR_VARIES = 0.08;

/** The picture's own blur from stretches fitted under a wide prior: those decide that know it well, because their band is very narrow or very wide. */
export const commonBlur = (blocks: readonly BandBlock[], prior: Hold): Hold => {
  let weight = 1 / prior.sd ** 2;
  let sum = prior.mean * weight;
  for (const { blur, blurSd } of blocks) {
    const w = 1 / (blurSd ** 2 + BLUR_VARIES ** 2);
    weight += w;
    sum += w * blur;
  }
  return { mean: sum / weight, sd: BLUR_VARIES };
};

/** Stretches a side is divided into. */
const BLOCKS = 4;
/** Stations a stretch needs. */
const LEAST_STATIONS = 4;

/** What is known of blur (px) and of the paint's width (m) before a stretch is fitted. */
export type ShapePrior = {
  readonly blur: Hold;
  readonly width: { readonly mean: number; readonly sd: number };
};

/** A station's own middle aligns its profile when it is known better than this, px; else the smooth course does, or its error would pass for blur. */
const WELL_KNOWN = 0.1;
/** Least freedom of the width, px. */
const WIDTH_FREEDOM = 0.05;

/**
 * Lays the profiles of each stretch of a side over one another, each moved by its own fitted middle, and fits band width and blur to the
 * sum: hundreds of columns at all phases of the pixel grid show the profile far finer than any one.
 */
export const bandBlocks = (view: SideView, fits: StationFits, prior: ShapePrior): BandBlock[] => {
  const { count } = view.stations;
  const points = emptyPoints(view.profiles.bins);
  const course = smoothCourse(stationPlaces(view), fits.middle, fits.sd);
  const middle = fits.middle.slice();
  if (course) for (let k = 0; k < count; k++) if (fits.sd[k]! > WELL_KNOWN) middle[k] = course.value[k]!;
  return Array.from({ length: BLOCKS }, (_, b) => {
    const from = Math.floor((b * count) / BLOCKS);
    const to = Math.floor(((b + 1) * count) / BLOCKS);
    return block(view, { ...fits, middle }, from, to, points, prior);
  }).filter((found) => found !== null);
};

const block = (
  view: SideView,
  fits: StationFits,
  from: number,
  to: number,
  points: ProfilePoints,
  prior: ShapePrior,
): BandBlock | null => {
  const used = usable(fits, from, to);
  if (used.length < LEAST_STATIONS) return null;
  const mean = (row: Float64Array): number =>
    used.reduce((sum, k) => sum + row[view.stations.middle[k]!]!, 0) / used.length;
  const across = mean(view.curve.across);
  const width = prior.width.mean * across;
  pool(view, fits, used, width / 2 + flankPixels(across), points);
  const start: Band = { inner: 0, paint: 0, outer: 0, middle: 0, width, blur: prior.blur.mean };
  const fit = fitBand(points, start, 1.5, {
    width: { mean: width, sd: Math.max(WIDTH_FREEDOM, prior.width.sd * across) },
    blur: prior.blur,
  });
  if (!fit) return null;
  return { side: view.side, from, to, across, rise: Math.abs(mean(view.curve.rise)), ...describe(fit) };
};

const describe = ({ band, widthSd, blurSd }: BandFit) => ({
  width: band.width,
  widthSd,
  blur: band.blur,
  blurSd,
  contrast: contrast(band),
  grass: (band.inner + band.outer) / 2,
});

const byMisfit = (a: { readonly misfit: number }, b: { readonly misfit: number }): number =>
  a.misfit - b.misfit;

/** Stations of the stretch where paint stands out, less the half that fit worst: a person on the line is in none of the rest. */
const usable = (fits: StationFits, from: number, to: number): number[] => {
  const seen: { readonly k: number; readonly misfit: number }[] = [];
  for (let k = from; k < to; k++)
    if (Number.isFinite(fits.sd[k]!) && fits.contrast[k]! > 3 * fits.contrastSd[k]!)
      seen.push({ k, misfit: fits.noise[k]! / fits.contrast[k]! });
  seen.sort(byMisfit);
  return seen.slice(0, Math.max(LEAST_STATIONS, Math.ceil(seen.length * 0.7))).map(({ k }) => k);
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

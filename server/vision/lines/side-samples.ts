import type { LineSample } from '../../camera/types.ts';
import { pixels } from '../../units/numbers.ts';
import { imagePoint } from '../../units/points.ts';
import { selectAt } from '../selection.ts';
import type { TracedSide } from '../types.ts';
import { RAGGED_MIDDLE } from './paint.ts';
import type { PaintEstimate } from './paint-width.ts';
import { estimateNoise, type SampleNoise, stationSd } from './sample-noise.ts';
import type { SideView } from './side-view.ts';
import { smoothCourse } from './smooth-course.ts';
import { type StationFits, stationPlaces } from './station-fits.ts';

/** Paint must stand out from its grass by so many standard deviations at a station to count as seen there. */
const SEEN = 3;
/** A station that scatters this many times as much as the side's median (relative to its own grass) has something else in it. */
const CROWDED = 3;
/** The band's model misses a picture's own profile by up to this share of its contrast, which is no reason to doubt a station. */
const MISFIT = 0.06;
/** Paint is this many times brighter or dimmer than the side's median at most; beyond, it is a shoe, a peg or a shadow's rim. */
const ODD_CONTRAST = { least: 0.2, most: 2.2 } as const;
/** A station further than this many standard deviations from the smooth course of its neighbours saw something else. */
const ASTRAY = 4.5;
/** Stations on each side that a station is compared with. */
const NEIGHBOURS = 15;
/** Lags over which correlation along the line is summed. */
const LAGS = 6;
/** With fewer stations than this on a side nothing can be told about their scatter. */
const FEW = 12;
/** A side of whose visible length less than this was seen is reported as not traced: chance edges are likelier. */
const LEAST_SHARE = 0.06;

/** A side without any sample. */
export const untraced = (side: TracedSide['side'], visibleLength: number): TracedSide => ({
  side,
  samples: [],
  share: 0,
  paintWidth: null,
  kind: 'none',
  visibleLength,
  systematicSd: 0,
});

/**
 * The samples of one side: stations that saw something else are left out, the middle of the band becomes its inner edge (or stays, for a
 * string), and the standard deviations are those that the stations' scatter about a smooth course shows, correlation along the line included.
 */
export const sideSamples = (
  view: SideView,
  fits: StationFits,
  paint: PaintEstimate,
  paintHeight: number,
): TracedSide => {
  const { curve, stations } = view;
  const { count } = stations;
  const { string } = paint;
  const judged = judge(view, fits, string ? 0 : RAGGED_MIDDLE);
  if (!judged) return untraced(view.side, curve.visibleLength);
  const { sds, kept, inflate } = judged;
  const samples: LineSample[] = [];
  let length = 0;
  let total = 0;
  for (let k = 0; k < count; k++) {
    total += stations.length[k]!;
    if (Number.isNaN(kept[k]!)) continue;
    length += stations.length[k]!;
    samples.push(
      sampleAt(view, fits, k, string ? 0 : paint.width, string ? 0 : paintHeight, sds[k]! * inflate),
    );
  }
  const share = total > 0 ? length / total : 0;
  if (share < LEAST_SHARE) return untraced(view.side, curve.visibleLength);
  return {
    side: view.side,
    samples,
    share,
    paintWidth: paint.measured && !string ? paint.width : null,
    kind: string ? 'string' : 'band',
    visibleLength: curve.visibleLength,
    systematicSd: string ? 0.001 : paint.sd / 2,
  };
};

type Judged = {
  /** Standard deviation of each station's middle, px. */
  readonly sds: Float64Array;
  /** Residual about the smooth course in standard deviations; NaN where the station saw something else. */
  readonly kept: Float64Array;
  /** Factor for what remains: scatter and correlation along the line. */
  readonly inflate: number;
};

const stationSds = (noise: SampleNoise, own: Float64Array, across: Float64Array): Float64Array => {
  const sds = new Float64Array(own.length);
  for (let k = 0; k < sds.length; k++) sds[k] = stationSd(noise, own[k]!, across[k]!);
  return sds;
};

/** Tells the stations that saw the line from the others and finds how far they scatter. */
const judge = (view: SideView, fits: StationFits, usual: number): Judged | null => {
  const { curve, stations } = view;
  const seen = seenStations(fits);
  const places = stationPlaces(view);
  const residual = new Float64Array(stations.count);
  const across = new Float64Array(stations.count);
  for (let k = 0; k < across.length; k++) across[k] = curve.across[stations.middle[k]!]!;
  const own = fits.sd.slice();
  for (let k = 0; k < own.length; k++) if (seen[k] === 0) own[k] = Number.POSITIVE_INFINITY;
  let sds = stationSds({ ragged: usual, factor: 1 }, own, across);
  for (let round = 0; round < 2; round++) {
    const course = smoothCourse(places, fits.middle, sds);
    if (!course) return null;
    for (let k = 0; k < residual.length; k++) residual[k] = fits.middle[k]! - course.value[k]!;
    sds = stationSds(estimateNoise(residual, own, across, usual), own, across);
  }
  const course = smoothCourse(places, fits.middle, sds);
  if (!course) return null;
  const spread = Math.max(1, course.spread);
  const kept = new Float64Array(sds.length);
  for (let k = 0; k < kept.length; k++) {
    const r = Number.isFinite(sds[k]!) ? (fits.middle[k]! - course.value[k]!) / sds[k]! : Number.NaN;
    kept[k] = Math.abs(r) < ASTRAY * spread ? r : Number.NaN;
  }
  return { sds, kept, inflate: inflation(kept, course.spread) };
};

const sampleAt = (
  view: SideView,
  fits: StationFits,
  k: number,
  paintWidth: number,
  paintHeight: number,
  sd: number,
): LineSample => {
  const { curve, shift, stations } = view;
  const i = stations.middle[k]!;
  const e = shift[i]! + fits.middle[k]! - (paintWidth / 2) * curve.across[i]! - paintHeight * curve.rise[i]!;
  return {
    side: view.side,
    image: imagePoint(curve.x[i]! + e * curve.nx[i]!, curve.y[i]! + e * curve.ny[i]!),
    normal: [curve.nx[i]!, curve.ny[i]!],
    sd: pixels(sd),
  };
};

/** The upper median of the first `count` values, which are put in another order. */
const upperMedian = (values: Float64Array, count: number): number =>
  count === 0 ? 0 : selectAt(values, count, count >> 1);

/** Whether a station's fit stands out from its grass. */
const standsOut = (fits: StationFits, k: number): boolean =>
  Number.isFinite(fits.sd[k]!) && fits.contrast[k]! > SEEN * fits.contrastSd[k]!;

/** Which stations saw a band like the side's other ones. */
const seenStations = (fits: StationFits): Uint8Array => {
  const count = fits.sd.length;
  const seen = new Uint8Array(count);
  for (let k = 0; k < count; k++) if (standsOut(fits, k) && isUsual(fits, k)) seen[k] = 1;
  return seen;
};

const brightnesses = new Float64Array(2 * NEIGHBOURS + 1);
const roughnesses = new Float64Array(2 * NEIGHBOURS + 1);

/** Whether a station's band is about as bright, and as rough, as those of its neighbours, both over their own grass. */
const isUsual = (fits: StationFits, k: number): boolean => {
  let near = 0;
  for (let j = Math.max(0, k - NEIGHBOURS); j <= Math.min(fits.sd.length - 1, k + NEIGHBOURS); j++) {
    if (!standsOut(fits, j)) continue;
    const grass = Math.max(1e-3, fits.grass[j]!);
    brightnesses[near] = fits.contrast[j]! / grass;
    roughnesses[near++] = fits.noise[j]! / grass;
  }
  const usual = upperMedian(brightnesses, near);
  const rough = upperMedian(roughnesses, near);
  const grass = Math.max(1e-3, fits.grass[k]!);
  const brightness = fits.contrast[k]! / grass;
  return (
    brightness > ODD_CONTRAST.least * usual &&
    brightness < ODD_CONTRAST.most * usual &&
    fits.noise[k]! / grass < Math.max(CROWDED * rough, MISFIT * brightness)
  );
};

/**
 * Factor on the standard deviations: the spread that is there, times the root of how much more the sum of correlated errors varies than
 * that of independent ones, 1 + 2 Σ ρ over the lags up to the first that is not positive.
 */
const inflation = (standardized: Float64Array, spread: number): number => {
  let known = 0;
  for (const r of standardized) if (!Number.isNaN(r)) known++;
  if (known < FEW) return Math.max(1, spread) * 1.5;
  const variance = meanProduct(standardized, 0);
  let sum = 1;
  for (let lag = 1; lag <= LAGS; lag++) {
    const rho = meanProduct(standardized, lag) / variance;
    if (!(rho > 0)) break;
    sum += 2 * rho;
  }
  return Math.max(0.9, spread) * Math.sqrt(sum);
};

const meanProduct = (values: Float64Array, lag: number): number => {
  let sum = 0;
  let count = 0;
  for (let i = 0; i + lag < values.length; i++) {
    const product = values[i]! * values[i + lag]!;
    if (Number.isNaN(product)) continue;
    sum += product;
    count++;
  }
  return count ? sum / count : 0;
};

import type { Camera } from '../../camera/types.ts';
import { type Court, type Side, sideEnds } from '../../lawn/court.ts';
import type { Raster } from '../types.ts';
import { type BoundaryCurve, boundaryCurve } from './boundary-curve.ts';
import type { ProfilePoints } from './fit-band.ts';
import { offsetAt, offsetPrior, offsetVariance, SEARCH_SDS, searchLine } from './line-search.ts';
import { PAINT_WIDTH_PRIOR } from './paint.ts';
import { RESPONSE_MARGIN, ridgeResponse } from './ridge-response.ts';
import { collectProfiles, type Profiles } from './station-profiles.ts';
import { divide, type Stations, thin } from './stations.ts';

/** One boundary as it lies in the picture: where its band was located, and the profiles about it. */
export type SideView = {
  readonly side: Side;
  readonly curve: BoundaryCurve;
  readonly stations: Stations;
  /** Px outward from the predicted inner edge to the line from which the profiles count e, one per vertex. */
  readonly shift: Float64Array;
  readonly profiles: Profiles;
};

/** Grass that is fitted with the band on either side: so many metres of it, within these limits in px. Enough to know its light, little enough to be even. */
const FLANK = { metres: 0.7, least: 3.5, most: 4.5 } as const;

/** Grass on either side that is fitted with the band, px, where a metre across the line is `across` px. */
export const flankPixels = (across: number): number =>
  Math.min(FLANK.most, Math.max(FLANK.least, FLANK.metres * across));

/** A line is there when all stations together say so by this many noises: by chance in some 10⁴ places tried, less than once in 10⁴ pictures. */
const STRONG_ENOUGH = 6;

/** Half the expected width of the paint in px at a vertex: where the middle of the band is expected, outward of the inner edge. */
const expectedMiddle = (curve: BoundaryCurve, i: number): number =>
  (PAINT_WIDTH_PRIOR.mean / 2) * curve.across[i]!;

/** What is needed to see a side. */
export type SideTask = {
  readonly raster: Raster;
  readonly camera: Camera;
  readonly covariance: Float64Array;
  readonly court: Court;
  /** Stations looked at along a side at most; all when not given. */
  readonly stations?: number | undefined;
};

/** A side that is in the picture but whose line was not found. */
export type LostSide = { readonly side: Side; readonly visibleLength: number };

/**
 * Locates the band of `side` in the picture, first all along at once and roughly, then with profiles about the place found. When no line
 * stands out the side is returned with its visible length only (0 when it is out of the picture). With `near` the band is taken to lie where it is
 * predicted, and is not searched for.
 */
export const viewSide = (task: SideTask, side: Side, near = false): SideView | LostSide => {
  const curve = boundaryCurve(task.camera, task.court, side);
  if (!curve) return { side, visibleLength: 0 };
  const [a, b] = sideEnds(task.court, side);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const expected = new Float64Array(curve.count);
  const windows = new Float64Array(curve.count);
  for (let i = 0; i < curve.count; i++) {
    expected[i] = expectedMiddle(curve, i);
    windows[i] = 2 * expected[i]! + FLANK.most;
  }
  const all = divide(curve, length, windows);
  const stations = task.stations ? thin(all, task.stations) : all;
  const lost = { side, visibleLength: curve.visibleLength };
  if (stations.count < 3) return lost;
  const found = near ? AS_PREDICTED : locate(task, curve, stations, expected);
  if (found === null) return lost;
  const shift = new Float64Array(curve.count);
  for (let i = 0; i < curve.count; i++) shift[i] = expected[i]! + offsetAt(found, i, curve.count);
  let widest = 0;
  for (const i of stations.middle) widest = Math.max(widest, windows[i]!);
  const profiles = collectProfiles(task.raster, curve, stations, shift, widest, FINE_BIN);
  return { side, curve, stations, shift, profiles };
};

const AS_PREDICTED = [0, 0, 0] as const;

/** The profile reaches so many times as far as a line's own answers do, so that most of it is grass and tells the noise. */
const QUIET = 2.5;
/** Stations that the first search looks at: their noises add up to STRONG_ENOUGH even where each shows the line but faintly. */
const COARSE_STATIONS = 50;
const COARSE_BIN = 0.5;
const FINE_BIN = 0.25;

const locate = (
  { raster, covariance }: SideTask,
  curve: BoundaryCurve,
  stations: Stations,
  expected: Float64Array,
): readonly [number, number, number] | null => {
  const prior = offsetPrior(curve, covariance);
  const some = thin(stations, COARSE_STATIONS);
  const reach = Float64Array.from(some.middle, (i) => {
    const sd = Math.sqrt(offsetVariance(prior, i, curve.count));
    const answers = expected[i]! + RESPONSE_MARGIN;
    return Math.max(SEARCH_SDS * sd + answers + 1, QUIET * answers);
  });
  const profiles = collectProfiles(raster, curve, some, expected, Math.max(...reach), COARSE_BIN, reach);
  const response = ridgeResponse(profiles, curve, some);
  const line = searchLine(response, profiles, curve, some, prior);
  return line.strength >= STRONG_ENOUGH ? line.offsets : null;
};

/** Room for one profile of any station. */
export const emptyPoints = (bins: number): ProfilePoints => ({
  count: 0,
  place: new Float64Array(bins),
  light: new Float64Array(bins),
  weight: new Float64Array(bins),
});

/** Writes the profile of station `k` within `half` px of `middle` into `points`. */
export const takePoints = (
  profiles: Profiles,
  k: number,
  middle: number,
  half: number,
  points: ProfilePoints,
): void => {
  let count = 0;
  const base = k * profiles.bins;
  for (let b = 0; b < profiles.bins; b++) {
    const n = profiles.weight[base + b]!;
    const e = profiles.place[base + b]!;
    if (n === 0 || Math.abs(e - middle) > half) continue;
    points.place[count] = e;
    points.light[count] = profiles.light[base + b]!;
    points.weight[count] = n;
    count++;
  }
  points.count = count;
};

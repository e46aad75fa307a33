import type { BoundaryCurve } from './boundary-curve.ts';
import { LIMITS } from './ridge-response.ts';
import type { Profiles } from './station-profiles.ts';
import type { Stations } from './stations.ts';

/** How far the line may lie from its prediction: px outward at the first, middle and last vertex, with their covariance (3 × 3, row by row). */
export type OffsetPrior = Float64Array;

/** Where the line was found: px outward of the prediction at the first, middle and last vertex, a parabola in between; `strength` in noises. */
export type FoundLine = { readonly offsets: readonly [number, number, number]; readonly strength: number };

/** Least uncertainty (px, one standard deviation) granted to a prediction: lawn and lens are never quite the model's. */
const LEAST_OFFSET = 0.3;

/** Covariance of the offsets at the first, middle and last vertex from the camera's 9 × 9 covariance. */
export const offsetPrior = (curve: BoundaryCurve, covariance: Float64Array): OffsetPrior => {
  const rows = [0, curve.count >> 1, curve.count - 1].map((i) => curve.byCamera.subarray(9 * i, 9 * i + 9));
  const out = new Float64Array(9);
  for (let a = 0; a < 3; a++)
    for (let b = 0; b < 3; b++) {
      let sum = a === b ? LEAST_OFFSET ** 2 : 0;
      for (let p = 0; p < 9; p++)
        for (let q = 0; q < 9; q++) sum += rows[a]![p]! * covariance[9 * p + q]! * rows[b]![q]!;
      out[3 * a + b] = sum;
    }
  return out;
};

/** The offset at vertex `i` of a curve of `count`, a parabola through the three of `offsets`. */
export const offsetAt = (offsets: readonly [number, number, number], i: number, count: number): number => {
  const t = count > 1 ? i / (count - 1) : 0.5;
  return offsets[0] * (1 - t) * (1 - 2 * t) + offsets[1] * 4 * t * (1 - t) + offsets[2] * t * (2 * t - 1);
};

/** Variance (px²) of the offset at vertex `i` of a curve of `count`. */
export const offsetVariance = (prior: OffsetPrior, i: number, count: number): number => {
  const t = count > 1 ? i / (count - 1) : 0.5;
  const weights = [(1 - t) * (1 - 2 * t), 4 * t * (1 - t), t * (2 * t - 1)];
  let sum = 0;
  for (let a = 0; a < 3; a++)
    for (let b = 0; b < 3; b++) sum += weights[a]! * prior[3 * a + b]! * weights[b]!;
  return sum;
};

/** Standard deviations searched on each side of the prediction: a line is missed there once in some 2,000 pictures. */
export const SEARCH_SDS = 3.5;
/** Finest step of the search, px: half the width of the narrowest ridge. */
const STEP = 0.75;
/** Most steps each way; a less certain camera is searched in coarser ones. */
const MOST_STEPS = 14;

/**
 * Finds the line all along the curve at once: the smooth offset for which the ridge answers of all stations add up to most. Among distinct
 * lines of comparable strength the one nearer to the prediction wins, so that a second court's line or a bright kerb is not taken for the
 * boundary because it is whiter.
 */
export const searchLine = (
  response: Float32Array,
  profiles: Profiles,
  curve: BoundaryCurve,
  stations: Stations,
  prior: OffsetPrior,
): FoundLine => {
  const grid = buildGrid(prior);
  const scores = scoreGrid(response, profiles, curve, stations, grid);
  const best = argmax(scores);
  const rival = rivalOf(scores, grid.points, best);
  const chosen = rival >= 0 && grid.distance[rival]! + CLEARLY < grid.distance[best]! ? rival : best;
  return polish(response, profiles, curve, stations, grid, chosen);
};

/** The best offset within a step or two of the chosen one, on a grid so fine that no ridge lies between its points. */
const polish = (
  response: Float32Array,
  profiles: Profiles,
  curve: BoundaryCurve,
  stations: Stations,
  coarse: Grid,
  chosen: number,
): FoundLine => {
  const points: number[] = [];
  const centre = coarse.points.subarray(3 * chosen, 3 * chosen + 3);
  const n = Math.min(4, Math.ceil((1.2 * coarse.step) / FINE));
  const bend = Math.min(n, 2);
  for (let i = -n; i <= n; i++)
    for (let k = -bend; k <= bend; k++)
      for (let j = -n; j <= n; j++)
        points.push(
          centre[0]! + FINE * i,
          centre[1]! + (FINE * (i + j)) / 2 + FINE * k,
          centre[2]! + FINE * j,
        );
  const grid = { points: Float64Array.from(points), distance: new Float64Array(points.length / 3), step: 0 };
  const scores = scoreGrid(response, profiles, curve, stations, grid);
  const best = 3 * argmax(scores);
  return {
    offsets: [points[best]!, points[best + 1]!, points[best + 2]!],
    strength: scores[best / 3]! / Math.sqrt(Math.max(1, stations.count)),
  };
};

/** Step of the last search, px. */
const FINE = 0.5;

/** A rival has at least this share of the strongest line's answer, */
const RIVAL = 0.5;
/** lies at least this far (px) from it somewhere, */
const DISTINCT = 4;
/** and is preferred when its squared distance from the prediction (in standard deviations) is smaller by this: odds of 20 to 1. */
const CLEARLY = 6;

type Grid = { readonly points: Float64Array; readonly distance: Float64Array; readonly step: number };

/** Offsets to try: the prior's ellipsoid in the coordinates of its Cholesky factor, taken in the order first, last, middle. */
const buildGrid = (c: OffsetPrior): Grid => {
  const l11 = Math.sqrt(c[0]!);
  const l21 = c[2]! / l11;
  const l22 = Math.sqrt(Math.max(1e-12, c[8]! - l21 * l21));
  const l31 = c[1]! / l11;
  const l32 = (c[5]! - l31 * l21) / l22;
  const l33 = Math.sqrt(Math.max(0, c[4]! - l31 * l31 - l32 * l32));
  const reach = [Math.max(l11, Math.abs(l21), Math.abs(l31)), Math.max(l22, Math.abs(l32)), l33].map(
    (sd) => SEARCH_SDS * sd,
  );
  const step = Math.max(STEP, Math.max(...reach) / MOST_STEPS);
  const steps = reach.map((r) => Math.round(r / step));
  const points: number[] = [];
  const distance: number[] = [];
  for (let i = -steps[0]!; i <= steps[0]!; i++)
    for (let j = -steps[1]!; j <= steps[1]!; j++)
      for (let k = -steps[2]!; k <= steps[2]!; k++) {
        const a = steps[0] ? (SEARCH_SDS * i) / steps[0] : 0;
        const b = steps[1] ? (SEARCH_SDS * j) / steps[1] : 0;
        const d = steps[2] ? (SEARCH_SDS * k) / steps[2] : 0;
        if (a * a + b * b + d * d > SEARCH_SDS ** 2 + 1e-9) continue;
        points.push(l11 * a, l31 * a + l32 * b + l33 * d, l21 * a + l22 * b);
        distance.push(a * a + b * b + d * d);
      }
  return { points: Float64Array.from(points), distance: Float64Array.from(distance), step };
};

const scoreGrid = (
  response: Float32Array,
  profiles: Profiles,
  curve: BoundaryCurve,
  stations: Stations,
  grid: Grid,
): Float64Array => {
  const pooled = poolMaximum(response, stations.count, profiles.bins, grid.step / profiles.binWidth / 2);
  const { bins, binWidth, start } = profiles;
  const n = grid.distance.length;
  const scores = new Float64Array(n);
  for (let k = 0; k < stations.count; k++) {
    const t = stations.middle[k]! / Math.max(1, curve.count - 1);
    const w0 = ((1 - t) * (1 - 2 * t)) / binWidth;
    const w1 = (4 * t * (1 - t)) / binWidth;
    const w2 = (t * (2 * t - 1)) / binWidth;
    const origin = -start / binWidth;
    for (let g = 0; g < n; g++) {
      const bin =
        (origin + w0 * grid.points[3 * g]! + w1 * grid.points[3 * g + 1]! + w2 * grid.points[3 * g + 2]!) | 0;
      scores[g] = scores[g]! + (bin >= 0 && bin < bins ? pooled[k * bins + bin]! : LIMITS.against);
    }
  }
  return scores;
};

/** Each answer becomes the best within `reach` bins, so that steps coarser than a ridge do not step over it. */
const poolMaximum = (response: Float32Array, count: number, bins: number, reach: number): Float32Array => {
  const r = Math.floor(reach);
  if (r < 1) return response;
  const out = new Float32Array(response.length);
  for (let k = 0; k < count; k++)
    for (let b = 0; b < bins; b++) {
      let best: number = LIMITS.against;
      for (let j = Math.max(0, b - r); j <= Math.min(bins - 1, b + r); j++)
        best = Math.max(best, response[k * bins + j]!);
      out[k * bins + b] = best;
    }
  return out;
};

const argmax = (scores: Float64Array): number => {
  let best = 0;
  for (let i = 1; i < scores.length; i++) if (scores[i]! > scores[best]!) best = i;
  return best;
};

/** The strongest of the lines that are comparable with `best` and distinct from it; −1 when there is none. */
const rivalOf = (scores: Float64Array, points: Float64Array, best: number): number => {
  let rival = -1;
  for (let i = 0; i < scores.length; i++) {
    if (scores[i]! < RIVAL * scores[best]! || (rival >= 0 && scores[i]! <= scores[rival]!)) continue;
    if (apart(points, i, best) > DISTINCT) rival = i;
  }
  return rival;
};

const apart = (points: Float64Array, i: number, j: number): number =>
  Math.max(
    Math.abs(points[3 * i]! - points[3 * j]!),
    Math.abs(points[3 * i + 1]! - points[3 * j + 1]!),
    Math.abs(points[3 * i + 2]! - points[3 * j + 2]!),
  );

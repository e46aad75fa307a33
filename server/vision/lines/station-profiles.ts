import type { Raster } from '../types.ts';
import type { BoundaryCurve } from './boundary-curve.ts';
import { lightAt } from './linear-light.ts';
import type { Stations } from './stations.ts';

/**
 * The light across the line at every station: bins of equal width over the distance e from the curve (px, outward positive). Bin b of
 * station k is entry k · bins + b. Every pixel near the line is counted once, at its own distance: nothing is resampled.
 */
export type Profiles = {
  readonly stations: number;
  readonly bins: number;
  /** Width of a bin, px. */
  readonly binWidth: number;
  /** Lower end of bin 0, px. */
  readonly start: number;
  /** Number of pixels in each bin, mean of their light and mean of their e. */
  readonly weight: Float32Array;
  readonly light: Float32Array;
  readonly place: Float32Array;
};

/**
 * Collects the profiles over −halfWidth ≤ e < halfWidth, at each station no further than its own entry of `reach` (px) where that is given. `shift` (px outward, one per vertex) moves the curve. Along a mostly level piece the
 * columns are walked, along a mostly upright one the rows, each from the curve's own place in it, so a slanted or bent line is not smeared.
 */
export const collectProfiles = (
  raster: Raster,
  curve: BoundaryCurve,
  stations: Stations,
  shift: Float64Array,
  halfWidth: number,
  binWidth: number,
  reach?: Float64Array,
): Profiles => {
  const bins = Math.ceil((2 * halfWidth) / binWidth);
  const size = stations.count * bins;
  const profiles: Profiles = {
    stations: stations.count,
    bins,
    binWidth,
    start: -(bins * binWidth) / 2,
    weight: new Float32Array(size),
    light: new Float32Array(size),
    place: new Float32Array(size),
  };
  for (let k = 0; k < stations.count; k++) {
    const far = Math.min(-profiles.start, reach ? reach[k]! : -profiles.start);
    for (let i = stations.first[k]!; i < stations.end[k]!; i++)
      addPiece(raster, curve, shift, i, profiles, k * bins, far);
  }
  for (let j = 0; j < size; j++) {
    const n = profiles.weight[j]!;
    if (n === 0) continue;
    profiles.light[j] = profiles.light[j]! / n;
    profiles.place[j] = profiles.place[j]! / n;
  }
  return profiles;
};

/** Adds the pixels beside the piece of the curve from vertex `i` to the next. */
const addPiece = (
  raster: Raster,
  curve: BoundaryCurve,
  shift: Float64Array,
  i: number,
  profiles: Profiles,
  base: number,
  far: number,
): void => {
  const x0 = curve.x[i]! + curve.nx[i]! * shift[i]!;
  const y0 = curve.y[i]! + curve.ny[i]! * shift[i]!;
  const x1 = curve.x[i + 1]! + curve.nx[i + 1]! * shift[i + 1]!;
  const y1 = curve.y[i + 1]! + curve.ny[i + 1]! * shift[i + 1]!;
  if (Math.abs(x1 - x0) >= Math.abs(y1 - y0)) {
    const ny = curve.ny[i]!;
    const slope = (y1 - y0) / (x1 - x0);
    const from = Math.ceil(Math.min(x0, x1) - 0.5);
    const to = Math.ceil(Math.max(x0, x1) - 0.5);
    for (let column = from; column < to; column++)
      addRun(raster, true, column, y0 + (column + 0.5 - x0) * slope, ny, profiles, base, far);
  } else {
    const nx = curve.nx[i]!;
    const slope = (x1 - x0) / (y1 - y0);
    const from = Math.ceil(Math.min(y0, y1) - 0.5);
    const to = Math.ceil(Math.max(y0, y1) - 0.5);
    for (let row = from; row < to; row++)
      addRun(raster, false, row, x0 + (row + 0.5 - y0) * slope, nx, profiles, base, far);
  }
};

/**
 * Adds one column (`upright`) or row: `line` numbers it, `centre` is the curve's place in it, `n` the part of the curve's normal along it.
 */
const addRun = (
  raster: Raster,
  upright: boolean,
  line: number,
  centre: number,
  n: number,
  profiles: Profiles,
  base: number,
  far: number,
): void => {
  const { bins, binWidth, start, weight, light, place } = profiles;
  const { width, height, data } = raster;
  if (line < 0 || line >= (upright ? width : height)) return;
  const reach = far / Math.abs(n);
  const from = Math.max(0, Math.ceil(centre - reach - 0.5));
  const to = Math.min((upright ? height : width) - 1, Math.floor(centre + reach - 0.5));
  const step = upright ? 3 * width : 3;
  let at = upright ? 3 * (from * width + line) : 3 * (line * width + from);
  let e = (from + 0.5 - centre) * n;
  for (let j = from; j <= to; j++, at += step, e += n) {
    const bin = Math.floor((e - start) / binWidth);
    if (bin < 0 || bin >= bins) continue;
    const b = base + bin;
    weight[b] = weight[b]! + 1;
    light[b] = light[b]! + lightAt(data, at);
    place[b] = place[b]! + e;
  }
};

import type { BoundaryCurve } from './boundary-curve.ts';

/** Short runs of a boundary over which its profile is averaged. Struct of arrays of length `count`. */
export type Stations = {
  readonly count: number;
  /** First vertex of each station in the curve, and the vertex after its last. */
  readonly first: Int32Array;
  readonly end: Int32Array;
  /** The vertex in the middle of each station. */
  readonly middle: Int32Array;
  /** Length along the side, m. */
  readonly length: Float64Array;
};

/**
 * Paint is ragged over about this length (m): what is nearer is not an independent witness. Common practice, no source; the correlation
 * that is really there is measured afterwards from the residuals.
 */
const STATION_LENGTH = 0.25;
/** A station spans at least this much of the picture, px, so that its profile averages over the phases of the pixel grid. */
const STATION_PIXELS = 6;
/** Metres kept clear of a crossing boundary's paint: the widest paint and a hand's breadth of smudge. */
const CORNER_CLEARANCE = 0.12;

/**
 * Divides `curve` (a side `sideLength` m long) into stations. The ends are left out as far as a window of `halfWindow(vertex)` px across the
 * line would touch the paint of the neighbouring side.
 */
export const divide = (curve: BoundaryCurve, sideLength: number, halfWindow: Float64Array): Stations => {
  const clear = (i: number): boolean => {
    const slide = Math.abs(curve.shear[i]!) * halfWindow[i]! + 2 / curve.along[i]!;
    return curve.at[i]! - slide > CORNER_CLEARANCE && curve.at[i]! + slide < sideLength - CORNER_CLEARANCE;
  };
  let from = 0;
  let to = curve.count - 1;
  while (from < to && !clear(from)) from++;
  while (to > from && !clear(to)) to--;
  const first: number[] = [];
  for (let i = from; i <= to; ) {
    first.push(i);
    i = nextStart(curve, i);
  }
  // A short rest at the end is no station.
  const rest = first.length > 1 ? first[first.length - 1]! : from;
  return gather(curve, first.length > 1 ? first : [], rest);
};

const nextStart = (curve: BoundaryCurve, i: number): number => {
  let j = i + 1;
  let px = 0;
  for (; j < curve.count; j++) {
    const step = curve.at[j]! - curve.at[j - 1]!;
    px += step * curve.along[j]!;
    if (px >= STATION_PIXELS - 1e-6 && curve.at[j]! - curve.at[i]! >= STATION_LENGTH - 1e-9) break;
  }
  return j;
};

const gather = (curve: BoundaryCurve, starts: readonly number[], end: number): Stations => {
  const count = Math.max(0, starts.length - 1);
  const first = new Int32Array(count);
  const last = new Int32Array(count);
  const middle = new Int32Array(count);
  const length = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    first[k] = starts[k]!;
    const next = k + 1 < count ? starts[k + 1]! : end;
    last[k] = next;
    middle[k] = (starts[k]! + next) >> 1;
    length[k] = curve.at[next]! - curve.at[starts[k]!]!;
  }
  return { count, first, end: last, middle, length };
};

/** Every `step`-th of `values` into `out`, as many as fit. */
const everyOf = <T extends Int32Array | Float64Array>(values: T, step: number, out: T): T => {
  for (let k = 0; k < out.length; k++) out[k] = values[k * step]!;
  return out;
};

/** About `most` of the stations, evenly spread: enough to see a line by, for a part of the work. */
export const thin = (stations: Stations, most: number): Stations => {
  const step = Math.max(1, Math.round(stations.count / most));
  const count = Math.ceil(stations.count / step);
  return {
    count,
    first: everyOf(stations.first, step, new Int32Array(count)),
    end: everyOf(stations.end, step, new Int32Array(count)),
    middle: everyOf(stations.middle, step, new Int32Array(count)),
    length: everyOf(stations.length, step, new Float64Array(count)),
  };
};

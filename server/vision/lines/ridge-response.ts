import type { BoundaryCurve } from './boundary-curve.ts';
import { PAINT_WIDTH_PRIOR } from './paint.ts';
import type { Profiles } from './station-profiles.ts';
import type { Stations } from './stations.ts';

/** Unlit gap between band and flank (px): the blur of the band's edge. */
const GAP = 1;
/** Width of a flank (px): enough grass for a mean, narrow enough to stay clear of the next thing. */
const FLANK = 3;
/** Px of profile that a response needs beyond the band's half width. */
export const RESPONSE_MARGIN = GAP + FLANK;

/**
 * How much brighter a band at each distance is than the brighter of its two flanks, in units of that quantity's own noise; one row of
 * `profiles.bins` per station. A single step between dark and light (a mowing stripe, the rim of a shadow) never answers, wherever it
 * stands, because one flank is then as bright as the band. Limited to `LIMITS`, so that no person on the line outvotes the rest of it.
 */
export const ridgeResponse = (profiles: Profiles, curve: BoundaryCurve, stations: Stations): Float32Array => {
  const { bins, binWidth } = profiles;
  const out = new Float32Array(stations.count * bins);
  const light = new Float64Array(bins + 1);
  const weight = new Float64Array(bins + 1);
  for (let k = 0; k < stations.count; k++) {
    accumulate(profiles, k, light, weight);
    const band = Math.max(1.2, PAINT_WIDTH_PRIOR.mean * curve.across[stations.middle[k]!]!);
    respond(out, k * bins, bins, light, weight, band / binWidth, GAP / binWidth, FLANK / binWidth);
  }
  normalise(out, stations.count, bins);
  return out;
};

/** One station's answer counts for at most this many noises for and against a line. */
export const LIMITS = { against: -2, for: 4 } as const;

const accumulate = (profiles: Profiles, k: number, light: Float64Array, weight: Float64Array): void => {
  const base = k * profiles.bins;
  for (let b = 0; b < profiles.bins; b++) {
    const n = profiles.weight[base + b]!;
    weight[b + 1] = weight[b]! + n;
    light[b + 1] = light[b]! + n * profiles.light[base + b]!;
  }
};

const respond = (
  out: Float32Array,
  base: number,
  bins: number,
  light: Float64Array,
  weight: Float64Array,
  band: number,
  gap: number,
  flank: number,
): void => {
  for (let b = 0; b < bins; b++) {
    const low = b + 0.5 - band / 2;
    const high = b + 0.5 + band / 2;
    const middle = meanOf(light, weight, bins, low, high);
    const before = meanOf(light, weight, bins, low - gap - flank, low - gap);
    const after = meanOf(light, weight, bins, high + gap, high + gap + flank);
    out[base + b] = middle - Math.max(before, after);
  }
};

/** Mean light from bin edge `from` to bin edge `to` (rounded) by running sums; NaN where there is no pixel. */
const meanOf = (
  light: Float64Array,
  weight: Float64Array,
  bins: number,
  from: number,
  to: number,
): number => {
  const a = Math.max(0, Math.round(from));
  const b = Math.min(bins, Math.round(to));
  const n = b > a ? weight[b]! - weight[a]! : 0;
  return n > 0 ? (light[b]! - light[a]!) / n : Number.NaN;
};

/** Every so many-th response is sorted: neighbours share most of their pixels, so that the others would add little. */
const SAMPLED = 4;

/**
 * Turns responses into noises: the noise is the median deviation among the stations about (eight at a time share one estimate). The median itself
 * stays in: even grass answers below zero, because noise makes one flank the brighter, and the rim of a stripe answers zero. Were it taken out, every rim would answer above zero.
 */
const normalise = (out: Float32Array, count: number, bins: number): void => {
  const GROUP = 8;
  const sample = new Float32Array(Math.ceil((GROUP * bins) / SAMPLED));
  for (let from = 0; from < count; from += GROUP) {
    const to = Math.min(count, from + GROUP);
    const part = out.subarray(from * bins, to * bins);
    let known = 0;
    for (let i = 0; i < part.length; i += SAMPLED) if (!Number.isNaN(part[i]!)) sample[known++] = part[i]!;
    if (known < bins / SAMPLED) continue;
    const sorted = sample.subarray(0, known).sort();
    const middle = sorted[known >> 1]!;
    for (let i = 0; i < known; i++) sorted[i] = Math.abs(sorted[i]! - middle);
    sorted.sort();
    // 1.4826 turns a median absolute deviation into a normal standard deviation; the floor is half a code of 8 bits in linear light.
    const noise = Math.max(5e-4, 1.4826 * sorted[known >> 1]!);
    for (let i = 0; i < part.length; i++) {
      const t = Number.isNaN(part[i]!) ? 0 : part[i]! / noise;
      part[i] = Math.min(LIMITS.for, Math.max(LIMITS.against, t));
    }
  }
};

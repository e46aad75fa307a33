import { contrastAt } from './fit-band.ts';
import { emptyPoints, flankPixels, type SideView, takePoints } from './side-view.ts';
import type { BandShape } from './station-fits.ts';

/** A line is believed when the mean contrast along its course is so many standard errors above zero; chance reaches 4 in the search over courses. */
export const BELIEVED = 7;

/**
 * How surely there is a line along `course` (px, one entry per station): the mean over all stations of the contrast found exactly there, in standard
 * errors of that mean. Every station counts, also those where nothing stands out, and none may look beside the course for something brighter.
 */
export const lineEvidence = (view: SideView, course: Float64Array, shapes: readonly BandShape[]): number => {
  const points = emptyPoints(view.profiles.bins);
  const found = new Float64Array(view.stations.count);
  let n = 0;
  for (let k = 0; k < view.stations.count; k++) {
    const { width, blur } = shapes[k]!;
    const flank = flankPixels(view.curve.across[view.stations.middle[k]!]!);
    const middle = course[k]!;
    takePoints(view.profiles, k, middle, width / 2 + flank, points);
    const value = contrastAt(points, { inner: 0, paint: 0, outer: 0, middle, width, blur });
    if (!Number.isNaN(value)) found[n++] = value;
  }
  return standardErrors(found.subarray(0, n));
};

/** Mean over standard error of the middle nine tenths: a shoe on the line or a glint is no evidence. */
const standardErrors = (values: Float64Array): number => {
  values.sort();
  const cut = Math.floor(values.length / 20);
  const kept = values.subarray(cut, values.length - cut);
  if (kept.length < 3) return 0;
  let mean = 0;
  for (const v of kept) mean += v / kept.length;
  let square = 0;
  for (const v of kept) square += (v - mean) ** 2 / (kept.length - 1);
  return mean / Math.sqrt(square / kept.length + 1e-12);
};

import { contrastAt } from './fit-band.ts';
import { emptyPoints, flankPixels, type SideView, takePoints } from './side-view.ts';
import type { BandShape } from './station-fits.ts';

/** A line is believed when the mean contrast along its course is so many standard errors above zero; chance reaches 4 in the search over courses. */
export const BELIEVED = 7;

/**
 * How surely there is a line along `course` (px, one entry per station): the mean over all stations of the contrast found exactly there, in standard
 * errors of that mean. Every station counts, also those where nothing stands out, and none may look beside the course for something brighter.
 */
export const lineEvidence = (
  view: SideView,
  course: Float64Array,
  shape: (k: number) => BandShape,
): number => {
  const points = emptyPoints(view.profiles.bins);
  const found: number[] = [];
  for (let k = 0; k < view.stations.count; k++) {
    const { width, blur } = shape(k);
    const flank = flankPixels(view.curve.across[view.stations.middle[k]!]!);
    const middle = course[k]!;
    takePoints(view.profiles, k, middle, width / 2 + flank, points);
    const value = contrastAt(points, { inner: 0, paint: 0, outer: 0, middle, width, blur });
    if (!Number.isNaN(value)) found.push(value);
  }
  return standardErrors(found);
};

/** Mean over standard error of the middle nine tenths: a shoe on the line or a glint is no evidence. */
const standardErrors = (values: number[]): number => {
  values.sort((a, b) => a - b);
  const cut = Math.floor(values.length / 20);
  const kept = values.slice(cut, values.length - cut);
  if (kept.length < 3) return 0;
  const mean = kept.reduce((sum, v) => sum + v, 0) / kept.length;
  const square = kept.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (kept.length - 1);
  return mean / Math.sqrt(square / kept.length + 1e-12);
};

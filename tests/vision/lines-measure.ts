import type { Camera } from '../../server/camera/types.ts';
import { type Side, STANDARD_COURT } from '../../server/lawn/court.ts';
import { sampleOffset } from '../../server/vision/lines/sample-offset.ts';
import type { TracedSide } from '../../server/vision/types.ts';

/** What the samples of one side say about the tracer, measured against the true camera. */
export type SideMeasure = {
  /** Weighted mean distance from the true edge, px, outward positive. */
  readonly bias: number;
  /** Scatter about that mean as it would be with 60 samples of equal information, px. */
  readonly scatter60: number;
  /** Root mean square of (distance − bias) / stated standard deviation. */
  readonly ratio: number;
  readonly share: number;
};

/** Measures a traced side; null when it has no samples. */
export const measureSide = (sides: readonly TracedSide[], side: Side, truth: Camera): SideMeasure | null => {
  const traced = sides.find((s) => s.side === side)!;
  if (traced.samples.length === 0) return null;
  const seen = traced.samples.map((s) => ({ d: sampleOffset(truth, STANDARD_COURT, s), w: 1 / s.sd ** 2 }));
  const weight = seen.reduce((sum, { w }) => sum + w, 0);
  const bias = seen.reduce((sum, { d, w }) => sum + w * d, 0) / weight;
  const n = seen.length;
  const rms = Math.sqrt(seen.reduce((sum, { d }) => sum + (d - bias) ** 2, 0) / n);
  const ratio = Math.sqrt(seen.reduce((sum, { d, w }) => sum + w * (d - bias) ** 2, 0) / n);
  return { bias, scatter60: rms * Math.sqrt(60 / n), ratio, share: traced.share };
};

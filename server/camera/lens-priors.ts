import type { Pixels } from '../units/numbers.ts';
import { addObservation, type NormalEquations } from './normal-equations.ts';
import { CAMERA_PARAMETERS, type Camera } from './types.ts';

/** What the photo's own data say about the focal length: `focal` in px, `sd` of its natural logarithm. */
export type FocalPrior = { readonly focal: Pixels; readonly sd: number };

/**
 * Phone cameras by construction: 13 mm (ultra wide) to 60 mm (cropped or short tele) on the 36 mm film side, most near 26 mm. So ln(focal / long
 * side) is about ln 0.72 with this standard deviation. Common practice, no source.
 */
export const PHYSICAL_FOCAL = { perLongSide: 0.72, sd: 0.4 } as const;

/**
 * Radial terms. A lens between the two ideal wide-angle mappings, rectilinear (r) and equidistant (atan r = r − r³/3 + r⁵/5), has k1 between 0 and
 * −1/3 and k2 near 1.8 k1²; phones correct most of it, and over-correct a little. The second term is therefore tied to 1.8 k1² within `k2Sd`.
 */
export const PHYSICAL_LENS = { k1: -0.02, k1Sd: 0.07, k2PerSquare: 1.8, k2Sd: 0.04 } as const;
/** Degrees of freedom of the prior on k1: a wide lens three standard deviations out is rare, not impossible. */
const K1_TAIL = 3;
/** The tail's weight is never less than at five standard deviations: past the ideal mappings there are no lenses, however well they would explain marks. */
const K1_LEAST = (K1_TAIL + 1) / (K1_TAIL + 5 ** 2);

/** Odds before looking that a photo's stated focal length is not that of its pixels: cropped, zoomed or edited. A judgement, no source. */
export const PRIOR_ODDS_WRONG = 0.05;

/** A prior on ln focal: mean and standard deviation, and whether the photo's own data are in it. */
export type LensPriors = {
  readonly lnFocal: number;
  readonly lnFocalSd: number;
  readonly fromPhoto: boolean;
};

/** The prior on the lens with (`photo` given) or without what the photo says. */
export const lensPriors = (width: number, height: number, photo?: FocalPrior): LensPriors =>
  photo
    ? { lnFocal: Math.log(photo.focal), lnFocalSd: photo.sd, fromPhoto: true }
    : {
        lnFocal: Math.log(PHYSICAL_FOCAL.perLongSide * Math.max(width, height)),
        lnFocalSd: PHYSICAL_FOCAL.sd,
        fromPhoto: false,
      };

const row = new Float64Array(CAMERA_PARAMETERS);

const k1Deviation = (k1: number): number => (k1 - PHYSICAL_LENS.k1) / PHYSICAL_LENS.k1Sd;

/** Share of a normal prior's weight that the prior on k1 has at `z` standard deviations: that of a Student t. */
const k1Tail = (z: number): number => Math.max(K1_LEAST, Math.min(1, (K1_TAIL + 1) / (K1_TAIL + z * z)));

/** Weight 1/variance of the prior on k1 at `k1`. */
const k1Weight = (k1: number): number => k1Tail(k1Deviation(k1)) / PHYSICAL_LENS.k1Sd ** 2;

/**
 * What the prior on k1 adds to minus twice the log-likelihood at `k1`, more than its weighed square does: the square of a heavy tail is
 * bounded, its logarithm is not.
 */
export const k1TailCost = (k1: number): number => {
  const z = k1Deviation(k1);
  const weighed = k1Tail(z) * z * z;
  return Math.max(0, (K1_TAIL + 1) * Math.log1p((z * z) / K1_TAIL) - weighed);
};

/** Adds the priors on ln focal, k1 and k2 as three observations. `k1At` is the k1 at which the tail's weight is taken, held during a minimisation. */
export const addLensPriors = (
  camera: Camera,
  priors: LensPriors,
  k1At: number,
  equations: NormalEquations,
): void => {
  const [k1, k2] = camera.radial;
  row.fill(0);
  row[6] = 1;
  addObservation(equations, row, priors.lnFocal - Math.log(camera.focal), 1 / priors.lnFocalSd ** 2);
  row[6] = 0;
  row[7] = 1;
  addObservation(equations, row, PHYSICAL_LENS.k1 - k1, k1Weight(k1At));
  // k2 − 1.8 k1² is small.
  row[7] = -2 * PHYSICAL_LENS.k2PerSquare * k1;
  row[8] = 1;
  addObservation(equations, row, PHYSICAL_LENS.k2PerSquare * k1 * k1 - k2, 1 / PHYSICAL_LENS.k2Sd ** 2);
};

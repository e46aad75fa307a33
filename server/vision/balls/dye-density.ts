import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import { factor, solveFactored } from '../small-solve.ts';
import { invert3, type Symmetric3 } from './symmetric3.ts';

/**
 * What a colour is judged by: ln of ball over lawn in linear red, green and blue. The light's brightness and colour, and the camera's white balance,
 * fall on both and cancel.
 */
export type ColourRatio = readonly [number, number, number];

/** A ratio as measured, with the covariance of its error (xx xy xz yy yz zz). */
export type MeasuredRatio = { readonly ratio: ColourRatio; readonly error: Symmetric3 };

type Rgb = readonly [number, number, number];

/** Reflectance of mown lawn in red, green, blue: green turf in spectral libraries lies near this. A judgement, no source. */
const LAWN: Rgb = [0.14, 0.27, 0.07];

/** A dye: reflectance in red, green, blue, gloss included, and the spread of its brightness from maker to maker (ln; a light dye cannot be much lighter). */
type Dye = { readonly rgb: Rgb; readonly spread: number };

/** The dyes of the balls: plastics of these colours. A judgement, no source; the spreads are wide accordingly. */
const DYES: Readonly<Record<BallColour, Dye>> = {
  blue: { rgb: [0.05, 0.11, 0.37], spread: 0.3 },
  red: { rgb: [0.5, 0.055, 0.045], spread: 0.25 },
  black: { rgb: [0.045, 0.05, 0.04], spread: 0.4 },
  yellow: { rgb: [0.75, 0.55, 0.05], spread: 0.15 },
  green: { rgb: [0.055, 0.24, 0.09], spread: 0.35 },
  pink: { rgb: [0.75, 0.38, 0.45], spread: 0.2 },
  brown: { rgb: [0.2, 0.085, 0.045], spread: 0.4 },
  white: { rgb: [0.8, 0.8, 0.76], spread: 0.12 },
};

/**
 * A ball's mean brightness over the lawn's, ln, and its spread from picture to picture. Against the sun a ball shows its shaded half while the grass lies in full
 * sun, which is five times the sky's light (SUN_TO_SKY): down to −1.3; with a low sun behind the camera it stands out up to +0.6.
 */
const BRIGHTNESS = -0.35;
const PICTURE_SD = 0.38;
/** Spread of the lawn's own colour from club to club and season to season, ln; and of the tone curve's exponent. */
const LAWN_SD = 0.17;
const TONE_SD = 0.16;
/** Spread of the brightness from place to place in one picture (shade of a tree, half hidden), and of each channel on its own (dye, wear, blades), ln. */
const PLACE_SD = 0.25;
const CHANNEL_SD = 0.15;
/** Light that gloss adds or lacks, as reflectance. */
const GLOSS_SD = 0.01;

/** What all balls of a picture share: shifts of red, green and blue, and the excess of the tone curve's exponent; their mean and covariance. */
export type SharedLook = { readonly mean: Float64Array; readonly covariance: Float64Array };
/** Numbers in a look: three shifts and the exponent. */
export const SHARED = 4;

/** What is known of a picture before any ball is seen. */
export const UNKNOWN_LOOK: SharedLook = {
  mean: new Float64Array(SHARED),
  covariance: Float64Array.from({ length: SHARED * SHARED }, (_, k) => {
    const [i, j] = [Math.floor(k / SHARED), k % SHARED];
    if (i === 3 || j === 3) return i === j ? TONE_SD ** 2 : 0;
    return PICTURE_SD ** 2 + (i === j ? LAWN_SD ** 2 : 0);
  }),
};

/** A normal density over colour ratios; `covariance` is xx xy xz yy yz zz. */
export type Density = { readonly mean: ColourRatio; readonly covariance: Symmetric3 };

/** The density of mean `mean` and covariance `m` (xx xy xz yy yz zz). */
export const densityOf = (mean: ColourRatio, m: readonly number[]): Density => ({
  mean,
  covariance: Float64Array.from(m),
});

const EXACT = new Float64Array(6);
const LN_SCALE = 1.5 * Math.log(2 * Math.PI);

/** ln of the density at a ratio, which is measured with `error`. */
export const lnDensity = (
  { mean, covariance: m }: Density,
  ratio: ColourRatio,
  error: Symmetric3 = EXACT,
): number => {
  const a = m[0]! + error[0]!;
  const b = m[1]! + error[1]!;
  const c = m[2]! + error[2]!;
  const d = m[3]! + error[3]!;
  const e = m[4]! + error[4]!;
  const f = m[5]! + error[5]!;
  // Cofactors of the symmetric matrix; their sums along the first row are the determinant.
  const xx = d * f - e * e;
  const xy = c * e - b * f;
  const xz = b * e - c * d;
  const determinant = a * xx + b * xy + c * xz;
  const x = ratio[0] - mean[0];
  const y = ratio[1] - mean[1];
  const z = ratio[2] - mean[2];
  const square =
    x * x * xx +
    y * y * (a * f - c * c) +
    z * z * (a * d - b * b) +
    2 * (x * y * xy + x * z * xz + y * z * (b * c - a * e));
  return -0.5 * (Math.log(determinant) + square / determinant) - LN_SCALE;
};

/** Covariance of a shared brightness, each channel's own spread and gloss (`gloss` by channel), as xx xy xz yy yz zz. */
export const spreadOf = (bright: number, own: number, gloss: Rgb): number[] =>
  PAIRS.map(([i, j]) => bright * bright + (i === j ? own * own : 0) + gloss[i]! * gloss[j]!);

const PAIRS = [
  [0, 0],
  [0, 1],
  [0, 2],
  [1, 1],
  [1, 2],
  [2, 2],
] as const;

/** Mean ratio of each of BALL_COLOURS in a picture like any other, and the covariance of one ball about what its picture shows. */
const MEANS = BALL_COLOURS.map(
  (colour) => DYES[colour].rgb.map((r, i) => Math.log(r / LAWN[i]!) + BRIGHTNESS) as unknown as ColourRatio,
);
const OWN = BALL_COLOURS.map((colour) => {
  const { rgb, spread } = DYES[colour];
  return spreadOf(Math.hypot(spread, PLACE_SD), CHANNEL_SD, rgb.map((r) => GLOSS_SD / r) as unknown as Rgb);
});

/** Sensitivity of ratio `i` of colour `c` to the shared quantity `k`: each shift moves its channel, the tone curve stretches the ratio. */
const slope = (c: number, i: number, k: number): number => (k === 3 ? MEANS[c]![i]! : i === k ? 1 : 0);

/** The densities of the ratios of a ball of each of BALL_COLOURS in a picture of the given look. */
export const ballDensities = (look: SharedLook): Density[] => {
  const densities: Density[] = [];
  for (let c = 0; c < MEANS.length; c++) {
    const covariance = OWN[c]!.slice();
    for (let p = 0; p < PAIRS.length; p++)
      covariance[p]! += lookCovariance(look, c, PAIRS[p]![0], PAIRS[p]![1]);
    densities.push(densityOf([centreOf(look, c, 0), centreOf(look, c, 1), centreOf(look, c, 2)], covariance));
  }
  return densities;
};

const centreOf = ({ mean }: SharedLook, c: number, i: number): number => {
  let sum = MEANS[c]![i]!;
  for (let k = 0; k < SHARED; k++) sum += slope(c, i, k) * mean[k]!;
  return sum;
};

/** What a look's covariance adds to that of the ratios `i` and `j` of colour `c`. */
const lookCovariance = ({ covariance }: SharedLook, c: number, i: number, j: number): number => {
  let sum = 0;
  for (let k = 0; k < SHARED; k++)
    for (let l = 0; l < SHARED; l++) sum += slope(c, i, k) * covariance[k * SHARED + l]! * slope(c, j, l);
  return sum;
};

/** One ball's witness of its picture's look: that colour `colour` shows this ratio, believed to `weight` (0 to 1). */
export type LookWitness = MeasuredRatio & { readonly colour: number; readonly weight: number };

const AT = [
  [0, 1, 2],
  [1, 3, 4],
  [2, 4, 5],
] as const;

/** The look of a picture by its witnesses: normal equations of the linear model, with UNKNOWN_LOOK as prior. */
export const lookOf = (witnesses: readonly LookWitness[]): SharedLook => {
  const information = inverseOf(UNKNOWN_LOOK.covariance);
  const right = new Float64Array(SHARED);
  for (const { colour: c, ratio, error, weight } of witnesses) {
    const n = invert3(OWN[c]!.map((own, k) => own + error[k]!)).inverse;
    for (let k = 0; k < SHARED; k++)
      for (let i = 0; i < 3; i++)
        for (let j = 0; j < 3; j++) {
          const pull = weight * slope(c, i, k) * n[AT[i]![j]!]!;
          right[k] = right[k]! + pull * (ratio[j]! - MEANS[c]![j]!);
          for (let l = 0; l < SHARED; l++)
            information[k * SHARED + l] = information[k * SHARED + l]! + pull * slope(c, j, l);
        }
  }
  const covariance = inverseOf(information);
  const mean = new Float64Array(SHARED);
  for (let k = 0; k < SHARED; k++)
    for (let l = 0; l < SHARED; l++) mean[k] = mean[k]! + covariance[k * SHARED + l]! * right[l]!;
  return { mean, covariance };
};

/** Inverse of a symmetric positive definite SHARED × SHARED matrix. */
const inverseOf = (matrix: Float64Array): Float64Array => {
  const l = matrix.slice();
  const inverse = new Float64Array(SHARED * SHARED);
  for (let k = 0; k < SHARED; k++) inverse[k * (SHARED + 1)] = 1;
  if (factor(l, SHARED)) solveFactored(l, SHARED, inverse, SHARED);
  return inverse;
};

import {
  ballDensities,
  type ColourRatio,
  type Density,
  densityOf,
  lnDensity,
  type MeasuredRatio,
  spreadOf,
  UNKNOWN_LOOK,
} from './dye-density.ts';
import type { LawnColour } from './lawn-colour.ts';
import { linearRgb } from './light.ts';

export type { ColourRatio, MeasuredRatio };

type Rgb = readonly [number, number, number];

/**
 * Shares of the lawn's colour that bleed into a ball's: phones blur colour, and JPEG keeps one value of it for four px and, when it compresses
 * hard, little more than one for a block of sixteen px square. Their chances for a small ball and for a large one.
 */
const BLEEDING = [0, 0.15, 0.3, 0.5, 0.65] as const;
const SMALL_CHANCES = [0.4, 0.28, 0.2, 0.08, 0.04] as const;
const LARGE_CHANCES = [0.7, 0.22, 0.06, 0.02, 1e-6] as const;
/** Radii, px, that count as small and as large. */
const SMALL = 2;
const LARGE = 8;
/** Reflectance below which a ratio says nothing, as a share of the lawn's green. */
const FLOOR = 0.02;

/** The densities of balls in a picture of which nothing is known yet. */
const ANY_PICTURE = ballDensities(UNKNOWN_LOOK);

/**
 * Things that are not balls: two thirds lawn (of another shade; in shadow, darker and bluer by the sky's light; or, where all around is in shade, as bright as elsewhere on the
 * lawn), a third of any colour at all.
 */
const LAWN_LIKE = densityOf([-0.2, -0.2, -0.2], spreadOf(0.7, 0.16, [0, 0, 0]));
const SHADED_LAWN = densityOf([-1.5, -1.3, -1], spreadOf(0.6, 0.22, [0, 0, 0]));
const SUNLIT_LAWN = Float64Array.from(spreadOf(0.3, 0.16, [0, 0, 0]));
const ANY_COLOUR = densityOf([0.2, 0, 0.5], spreadOf(1, 0.7, [0, 0, 0]));

/** Spread of a part's colour about that of the whole that stands before a place: a sleeve's or a trouser leg's lit and shaded sides, ln. */
const OWN_PART = Float64Array.from(spreadOf(0.45, 0.2, [0, 0, 0]));

/**
 * ln of the densities of `ratio` among things that are not balls, each times its share: lawn of another shade, in shadow or as bright as elsewhere, which has the ratio
 * `elsewhere` there; things of any colour; and parts of what stands before the place, whose ratios above and below are `covering`.
 */
export const lnClutterDensities = (
  ratio: ColourRatio,
  elsewhere: ColourRatio,
  covering: readonly ColourRatio[] = [],
): { readonly lawn: number; readonly thing: number; readonly part: number } => ({
  lawn:
    Math.log(2 / 3) +
    lnMean([
      lnDensity(LAWN_LIKE, ratio),
      lnDensity(SHADED_LAWN, ratio),
      lnDensity({ mean: elsewhere, covariance: SUNLIT_LAWN }, ratio),
    ]),
  thing: Math.log(1 / 3) + lnDensity(ANY_COLOUR, ratio),
  part:
    covering.length === 0
      ? Number.NEGATIVE_INFINITY
      : Math.log(1 / 3) + lnMean(covering.map((mean) => lnDensity({ mean, covariance: OWN_PART }, ratio))),
});

/** ln of how likely each share of bleeding is for a ball of `radius` px, times the number of shares. */
const lnBleeding = (radius: number): Float64Array => {
  const large = Math.max(0, Math.min(1, (radius - SMALL) / (LARGE - SMALL)));
  const ln = new Float64Array(BLEEDING.length);
  for (let i = 0; i < ln.length; i++)
    ln[i] = Math.log(ln.length * ((1 - large) * SMALL_CHANCES[i]! + large * LARGE_CHANCES[i]!));
  return ln;
};

/**
 * ln of the density of a ball of each of BALL_COLOURS and of `radius` px at `ratios`, which differ by how much colour has bled, averaged over the
 * chances of that; in a picture whose balls have `densities`.
 */
export const lnBallDensities = (
  ratios: readonly MeasuredRatio[],
  radius: number,
  densities: readonly Density[] = ANY_PICTURE,
): Float64Array => {
  const ln = lnBleeding(radius);
  const mean = new Float64Array(densities.length);
  const values = new Float64Array(ratios.length);
  for (let c = 0; c < densities.length; c++) {
    for (let i = 0; i < ratios.length; i++)
      values[i] = lnDensity(densities[c]!, ratios[i]!.ratio, ratios[i]!.error) + ln[i]!;
    mean[c] = lnMean(values);
  }
  return mean;
};

/** The one of `ratios` that `density` and the chances of bleeding make likeliest. */
export const likeliestRatio = (
  ratios: readonly MeasuredRatio[],
  radius: number,
  density: Density,
): MeasuredRatio => {
  const ln = lnBleeding(radius);
  return ratios.reduce(
    (best, measured, i) => {
      const value = lnDensity(density, measured.ratio, measured.error) + ln[i]!;
      return value > best.value ? { measured, value } : best;
    },
    { measured: ratios[0]!, value: Number.NEGATIVE_INFINITY },
  ).measured;
};

/** ln of the sum of numbers of which the logarithms are given. */
export const lnSum = (values: Float64Array | readonly number[]): number => {
  let most = Number.NEGATIVE_INFINITY;
  for (const value of values) most = Math.max(most, value);
  let sum = 0;
  for (const value of values) sum += Math.exp(value - most);
  return most + Math.log(sum);
};

/** The same of their mean. */
const lnMean = (values: Float64Array | readonly number[]): number => lnSum(values) - Math.log(values.length);

/**
 * What the colour differences of a ball's mean colour err by, grey levels: rounding, noise reduction and the coarse steps in which JPEG keeps them, and for a small
 * ball, of which they are a handful of values, more (grey levels × px of radius). In a dark ball a few levels are a colour. Measured on recompressed,
 * noisy and recoloured copies of the fixtures, where they make the stated chances fit best.
 */
const COLOUR_ERROR = 2;
const SMALL_ERROR = 10;

/** What the colour differences of the mean colour of a ball of `radius` px err by, grey levels. */
export const colourError = (radius: number): number => Math.hypot(COLOUR_ERROR, SMALL_ERROR / radius);

/**
 * The ratios of a ball of `radius` px whose mean colour is `ball` on lawn of colour `beside` (both Y, Cb, Cr in grey levels), one for each share of bleeding. The
 * lawn beside the ball gives the light's brightness; its colour is taken half from there (light) and half from the whole lawn (`lawn`: worn patches).
 */
export const colourRatios = (
  ball: ArrayLike<number>,
  radius: number,
  beside: ArrayLike<number>,
  lawn: LawnColour,
): MeasuredRatio[] => {
  const reference = referenceOf(beside, lawn);
  const sd = colourError(radius);
  return BLEEDING.map((share) => {
    const cb = (ball[1]! - share * beside[1]!) / (1 - share);
    const cr = (ball[2]! - share * beside[2]!) / (1 - share);
    const step = sd / (1 - share);
    const ratio = ratioOf(reference, ball[0]!, cb, cr);
    const error = new Float64Array(6);
    addError(error, ratioOf(reference, ball[0]!, cb + step, cr), ratioOf(reference, ball[0]!, cb - step, cr));
    addError(error, ratioOf(reference, ball[0]!, cb, cr + step), ratioOf(reference, ball[0]!, cb, cr - step));
    return { ratio, error };
  });
};

/** The ratio to the lawn `beside` (Y, Cb, Cr in grey levels) that lawn has which is as bright as the `lawn` is in the middle of its range. */
export const lawnElsewhere = (beside: ArrayLike<number>, { rgb }: LawnColour): ColourRatio => {
  const [r, g, b] = linearRgb(beside[0]!, beside[1]!, beside[2]!);
  return [
    Math.log((rgb[0] + DARK) / (r + DARK)),
    Math.log((rgb[1] + DARK) / (g + DARK)),
    Math.log((rgb[2] + DARK) / (b + DARK)),
  ];
};
/** Keeps logarithms of nothing away: a quarter of a grey level. */
const DARK = 1e-3;

/** Linear red, green, blue of lawn in the light that falls beside a ball. */
const referenceOf = (beside: ArrayLike<number>, lawn: LawnColour): Rgb => {
  const local = linearRgb(beside[0]!, beside[1]!, beside[2]!);
  const green = local[1] + FLOOR * lawn.rgb[1];
  const chroma = (own: number, whole: number): number => (own + whole) / 2;
  return [
    green * Math.exp(chroma(Math.log((local[0] + DARK) / (local[1] + DARK)), lawn.redness)),
    green,
    green * Math.exp(chroma(Math.log((local[2] + DARK) / (local[1] + DARK)), lawn.blueness)),
  ];
};

/** The ratio of a colour (Y, Cb, Cr in grey levels) over `reference`. */
const ratioOf = ([r, g, b]: Rgb, y: number, cb: number, cr: number): ColourRatio => {
  const floor = FLOOR * g;
  const [red, green, blue] = linearRgb(y, cb, cr);
  return [
    Math.log((red + floor) / (r + floor)),
    Math.log((green + floor) / (g + floor)),
    Math.log((blue + floor) / (b + floor)),
  ];
};

/** Adds to `error` (xx xy xz yy yz zz) the covariance that one standard deviation to either side, `more` and `less`, makes. */
const addError = (error: Float64Array, more: ColourRatio, less: ColourRatio): void => {
  const x = (more[0] - less[0]) / 2;
  const y = (more[1] - less[1]) / 2;
  const z = (more[2] - less[2]) / 2;
  error[0] = error[0]! + x * x;
  error[1] = error[1]! + x * y;
  error[2] = error[2]! + x * z;
  error[3] = error[3]! + y * y;
  error[4] = error[4]! + y * z;
  error[5] = error[5]! + z * z;
};

import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import type { LawnColour } from './lawn-colour.ts';
import { linearRgb } from './light.ts';

/**
 * What a colour is judged by: ln of ball over lawn in linear red, green and blue. The light's brightness and colour, and the camera's white balance,
 * fall on both and cancel.
 */
export type ColourRatio = readonly [number, number, number];

type Rgb = readonly [number, number, number];

/** Reflectance of mown lawn in red, green, blue: green turf in spectral libraries lies near this. A judgement, no source. */
const LAWN: Rgb = [0.14, 0.27, 0.07];

/** Reflectance of the balls in red, green, blue, gloss included: dyed plastics of these colours. A judgement, no source; the spreads below are wide accordingly. */
const BALLS: Readonly<Record<BallColour, Rgb>> = {
  blue: [0.055, 0.13, 0.37],
  red: [0.5, 0.055, 0.045],
  black: [0.05, 0.06, 0.045],
  yellow: [0.75, 0.55, 0.05],
  green: [0.065, 0.3, 0.11],
  pink: [0.75, 0.43, 0.48],
  brown: [0.28, 0.125, 0.06],
  white: [0.8, 0.8, 0.76],
};

/** The ball's mean brightness over the lawn's, ln: a ball is seen half from its dark side. Spread: sun before or behind the camera. */
const BRIGHTNESS = -0.15;
const BRIGHTNESS_SD = 0.42;
/** Spread of each channel on its own, ln: dyes, wear, the lawn's own green. */
const CHANNEL_SD = 0.2;
/** Light that gloss adds or lacks, as reflectance. */
const GLOSS_SD = 0.025;
/**
 * Shares of the lawn's colour that bleed into a ball's: phones blur colour, and JPEG keeps one value of it for four px and, when it compresses
 * hard, little more than one for a block of sixteen px square. Their chances for a small ball and for a large one.
 */
const BLEEDING = [0, 0.15, 0.3, 0.5, 0.65] as const;
const SMALL_CHANCES = [0.35, 0.25, 0.2, 0.12, 0.08] as const;
const LARGE_CHANCES = [0.7, 0.22, 0.06, 0.02, 1e-6] as const;
/** Radii, px, that count as small and as large. */
const SMALL = 2;
const LARGE = 8;
/** Reflectance below which a ratio says nothing, as a share of the lawn's green. */
const FLOOR = 0.02;

/** A normal density over colour ratios. */
type Density = { readonly mean: ColourRatio; readonly inverse: Float64Array; readonly lnScale: number };

const densityOf = (mean: ColourRatio, covariance: readonly number[]): Density => {
  const [a, b, c, d, e, f] = covariance as [number, number, number, number, number, number];
  const det = a * (d * f - e * e) - b * (b * f - c * e) + c * (b * e - c * d);
  const inverse = Float64Array.of(
    (d * f - e * e) / det,
    (c * e - b * f) / det,
    (b * e - c * d) / det,
    (a * f - c * c) / det,
    (b * c - a * e) / det,
    (a * d - b * b) / det,
  );
  return { mean, inverse, lnScale: -0.5 * Math.log(det) - 1.5 * Math.log(2 * Math.PI) };
};

const lnDensity = ({ mean, inverse: n, lnScale }: Density, [r, g, b]: ColourRatio): number => {
  const x = r - mean[0];
  const y = g - mean[1];
  const z = b - mean[2];
  const squared =
    x * x * n[0]! + y * y * n[3]! + z * z * n[5]! + 2 * (x * y * n[1]! + x * z * n[2]! + y * z * n[4]!);
  return lnScale - 0.5 * squared;
};

/** Covariance of a shared brightness, each channel's own spread and gloss (`gloss` by channel), as xx xy xz yy yz zz. */
const spreadOf = (bright: number, own: number, gloss: Rgb): number[] => {
  const entries: number[] = [];
  for (let i = 0; i < 3; i++)
    for (let j = i; j < 3; j++)
      entries.push(bright * bright + (i === j ? own * own : 0) + gloss[i]! * gloss[j]!);
  return entries;
};

const ballDensity = (colour: BallColour): Density => {
  const ball = BALLS[colour];
  const mean = ball.map((r, i) => Math.log(r / LAWN[i]!) + BRIGHTNESS) as unknown as ColourRatio;
  const gloss = ball.map((r) => GLOSS_SD / r) as unknown as Rgb;
  return densityOf(mean, spreadOf(BRIGHTNESS_SD, CHANNEL_SD, gloss));
};

const DENSITIES = BALL_COLOURS.map(ballDensity);

/** Things that are not balls: a third lawn of another shade, a third lawn in shadow (darker, and bluer by the sky's light), a third of any colour at all. */
const LAWN_LIKE = densityOf([-0.2, -0.2, -0.2], spreadOf(0.7, 0.16, [0, 0, 0]));
const SHADED_LAWN = densityOf([-1.4, -1.2, -0.8], spreadOf(0.5, 0.22, [0, 0, 0]));
const ANY_COLOUR = densityOf([0.2, 0, 0.5], spreadOf(1, 0.7, [0, 0, 0]));

/** ln of the density of `ratio` among things that are not balls. */
export const lnClutterDensity = (ratio: ColourRatio): number =>
  lnMean([LAWN_LIKE, SHADED_LAWN, ANY_COLOUR].map((density) => lnDensity(density, ratio)));

/**
 * ln of the density of a ball of each of BALL_COLOURS and of `radius` px at `ratios`, which differ by how much colour has bled, averaged over the
 * chances of that.
 */
export const lnBallDensities = (ratios: readonly ColourRatio[], radius: number): Float64Array => {
  const large = Math.max(0, Math.min(1, (radius - SMALL) / (LARGE - SMALL)));
  const ln = BLEEDING.map((_, i) =>
    Math.log(BLEEDING.length * ((1 - large) * SMALL_CHANCES[i]! + large * LARGE_CHANCES[i]!)),
  );
  return Float64Array.from(DENSITIES, (density) =>
    lnMean(ratios.map((ratio, i) => lnDensity(density, ratio) + ln[i]!)),
  );
};

const lnMean = (values: readonly number[]): number => {
  const most = Math.max(...values);
  return most + Math.log(values.reduce((sum, v) => sum + Math.exp(v - most), 0) / values.length);
};

/**
 * The ratios of a ball whose mean colour is `ball` on lawn of colour `beside` (both Y, Cb, Cr in grey levels), one for each share of bleeding. The
 * lawn beside the ball gives the light's brightness; its colour is taken half from there (light) and half from the whole lawn (`lawn`: worn patches).
 */
export const colourRatios = (
  ball: ArrayLike<number>,
  beside: ArrayLike<number>,
  lawn: LawnColour,
): ColourRatio[] => {
  const local = linearRgb(beside[0]!, beside[1]!, beside[2]!);
  const green = local[1] + FLOOR * lawn.rgb[1];
  const chroma = (own: number, whole: number): number => (own + whole) / 2;
  const reference: Rgb = [
    green * Math.exp(chroma(Math.log((local[0] + 1e-3) / (local[1] + 1e-3)), lawn.redness)),
    green,
    green * Math.exp(chroma(Math.log((local[2] + 1e-3) / (local[1] + 1e-3)), lawn.blueness)),
  ];
  const floor = FLOOR * reference[1];
  return BLEEDING.map((share) => {
    const cb = (ball[1]! - share * beside[1]!) / (1 - share);
    const cr = (ball[2]! - share * beside[2]!) / (1 - share);
    const rgb = linearRgb(ball[0]!, cb, cr);
    return rgb.map((v, i) => Math.log((v + floor) / (reference[i]! + floor))) as unknown as ColourRatio;
  });
};

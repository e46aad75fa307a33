import { BALL_RADIUS } from '../../lawn/ball.ts';
import type { BallView } from './ball-view.ts';
import type { EdgeBlur } from './edge-blur.ts';
import type { ShadowDepth } from './shadow-depth.ts';
import { darkUnder, litAt, skyAt, skyShare } from './sky-light.ts';

/** Unit vector in the lawn frame. */
export type Direction = readonly [number, number, number];

/** Sunlight in a picture: where it comes from, and how deep the shadows are that balls cast. */
export type Sun = { readonly towards: Direction; readonly shadow: ShadowDepth };

/** Towards the sun at `azimuth` (radians, from north to east) and `elevation` (radians above the horizon). */
export const sunAt = (azimuth: number, elevation: number): Direction => [
  Math.sin(azimuth) * Math.cos(elevation),
  Math.cos(azimuth) * Math.cos(elevation),
  Math.sin(elevation),
];

/**
 * The columns that make up what a cell shows. On the ball: even light, sunlight, light from above, blades of grass before its foot, two slopes and gloss. Beside it:
 * even lawn, the darkness under the ball, its cast shadow, and two slopes.
 */
export const COLUMN = {
  even: 0,
  lit: 1,
  above: 2,
  blades: 3,
  slopeDown: 4,
  slopeSide: 5,
  gloss: 6,
  lawn: 7,
  under: 8,
  shadow: 9,
  lawnDown: 10,
  lawnSide: 11,
} as const;
/** The ball's columns come first, then the lawn's. */
export const BALL_COLUMNS = 7;
export const COLUMNS = 12;
/** Of each, so many are used for colour too; the rest is for luma alone, for slopes and gloss hardly colour. */
export const BALL_COLOUR_COLUMNS = 4;
export const LAWN_COLOUR_END = 10;
/** The columns in use for luma and for colour, with a sun and without one. */
const SUN_ONLY: readonly number[] = [COLUMN.lit, COLUMN.gloss, COLUMN.shadow];
const ALL = Array.from({ length: COLUMNS }, (_, k) => k);
const COLOURED = ALL.filter((k) => k < BALL_COLOUR_COLUMNS || (k >= BALL_COLUMNS && k < LAWN_COLOUR_END));
const shaded = (columns: readonly number[]): number[] => columns.filter((k) => !SUN_ONLY.includes(k));
export const USED_COLUMNS = {
  sunny: { luma: Uint8Array.from(ALL), colour: Uint8Array.from(COLOURED) },
  shaded: { luma: Uint8Array.from(shaded(ALL)), colour: Uint8Array.from(shaded(COLOURED)) },
} as const;

/** The slope at which a logistic comes nearest to a step blurred by a normal distribution of unit spread (Johnson and Kotz; 1.702). */
export const LOGISTIC = 1.702;

/** Height of grass that hides a ball's foot and the spread of it, metres: a ball sinks into mown grass by anything up to 5 mm (GRASS_SD), and blades hide what has sunk. A judgement, no source. */
const BLADE_HEIGHT = 0.0025;
const BLADE_SPREAD = 0.002;
/** Blades hide less than e⁻²⁰ of a place this high above the ground, metres. */
const NO_BLADES = BLADE_HEIGHT + 20 * BLADE_SPREAD;
/** Share of sunlight that the ball takes from the ground, `miss` radii outside the edge of its shadow, blurred with a variance of `spread` radii². */
export const shadowAt = (miss: number, spread = 0): number =>
  // A logistic is within 1 % of the blurred step and cheaper.
  1 / (1 + Math.exp((LOGISTIC * miss) / Math.sqrt(SHADOW_SOFT * SHADOW_SOFT + spread)));

/** Width of the gloss lobe, in 1 − cos of the angle between normal and the half-way direction: a polished ball blurs the sun to some 14°. */
const GLOSS_WIDTH = 0.03;
/** What a variance of 1 adds to the 1 in (1 + g²)^(−3/2), so that its blurred top is as low: three times to first order. */
const FLATTER = 3;
/** Softness of the cast shadow's edge among blades, in ball radii. */
const SHADOW_SOFT = 0.15;

/** The sun and the camera in one ball's own axes (away from the camera, to its side, up), worked out once for a fit. */
export type BallLight = {
  readonly sinDown: number;
  readonly cosDown: number;
  readonly sunny: boolean;
  /** How deep cast shadows are, and the sky's share of the light on open lawn. */
  readonly depth: number;
  readonly sky: number;
  readonly sun: readonly [number, number, number];
  readonly half: readonly [number, number, number];
};

/** The light on the ball of `view` under `light`; without a sun only the sky. */
export const ballLight = (view: BallView, light: Sun | null): BallLight => {
  const sinDown = view.sinDown;
  const cosDown = Math.sqrt(1 - sinDown * sinDown);
  if (light === null)
    return { sinDown, cosDown, sunny: false, depth: 0, sky: 1, sun: [0, 0, 1], half: [0, 0, 1] };
  const { towards: sun, shadow } = light;
  const own: [number, number, number] = [
    sun[0] * view.forwardX + sun[1] * view.forwardY,
    -sun[0] * view.forwardY + sun[1] * view.forwardX,
    sun[2],
  ];
  const half: [number, number, number] = [own[0] - cosDown, own[1], own[2] + sinDown];
  const length = Math.hypot(...half) || 1;
  return {
    sinDown,
    cosDown,
    sunny: true,
    depth: shadow.share,
    sky: skyShare(shadow.share),
    sun: own,
    half: [half[0] / length, half[1] / length, half[2] / length],
  };
};

/**
 * Writes the COLUMNS base values of the place (u, v) into `out`, column k at `at` + k · `pitch`. (u, v) is in ball radii from the middle of the outline, u down across the
 * line of sight, v to the side; `rho` = |(u, v)|. The lens shows ball and lawn from where the edge's blur says. On the ball the normal at the place (or at the rim, outside) gives Lambert's law, put through
 * the tone curve; beside it the place on the ground gives the sky that the ball hides, (1 + g²)^(−3/2) of it at g radii from the foot (the form
 * factor of a sphere that stands on a plane), and whether the ball hides the sun. Returns the hidden shares of sky and sun together, at most 1.
 */
export const baseColumns = (
  light: BallLight,
  u: number,
  v: number,
  rho: number,
  { inward, outward, spread }: EdgeBlur,
  out: Float64Array,
  at: number,
  pitch = 1,
): number => {
  const { sinDown, cosDown, sun, half } = light;
  const inside = Math.max(0, Math.min(1, rho - inward)) / rho;
  const uu = u * inside;
  const vv = v * inside;
  const towards = Math.sqrt(Math.max(0, 1 - uu * uu - vv * vv));
  const nf = -uu * sinDown - towards * cosDown;
  const nz = -uu * cosDown + towards * sinDown;
  out[at + COLUMN.even * pitch] = 1;
  out[at + COLUMN.slopeDown * pitch] = uu;
  out[at + COLUMN.slopeSide * pitch] = vv;
  const height = BALL_RADIUS * (1 + nz);
  out[at + COLUMN.blades * pitch] =
    height > NO_BLADES ? 0 : 1 / (1 + Math.exp((height - BLADE_HEIGHT) / BLADE_SPREAD));
  const outside = (rho + outward) / rho;
  const forward = (cosDown - u * outside) / sinDown;
  const aside = v * outside;
  const ground2 = 1 + forward * forward + aside * aside;
  out[at + COLUMN.lawn * pitch] = 1;
  out[at + COLUMN.lawnDown * pitch] = u / 2;
  out[at + COLUMN.lawnSide * pitch] = v / 2;
  // Blurred along the line of sight: the same volume under a wider curve.
  const wider = 1 + (FLATTER * spread) / (sinDown * sinDown);
  const soft2 = ground2 - 1 + wider;
  const hidden = wider / (soft2 * Math.sqrt(soft2));
  if (!light.sunny) {
    out[at + COLUMN.above * pitch] = skyAt(nz);
    out[at + COLUMN.under * pitch] = darkUnder(hidden);
    out[at + COLUMN.lit * pitch] = 0;
    out[at + COLUMN.gloss * pitch] = 0;
    out[at + COLUMN.shadow * pitch] = 0;
    return hidden;
  }
  const facing = Math.max(0, nf * sun[0] + vv * sun[1] + nz * sun[2]);
  const lit = litAt(facing);
  out[at + COLUMN.lit * pitch] = lit;
  out[at + COLUMN.above * pitch] = skyAt(nz, facing);
  out[at + COLUMN.gloss * pitch] = Math.exp(-(1 - nf * half[0] - vv * half[1] - nz * half[2]) / GLOSS_WIDTH);
  const along = forward * sun[0] + aside * sun[1] - sun[2];
  const miss = Math.sqrt(Math.max(0, ground2 - along * along)) - 1;
  const shadow = along < 0 ? shadowAt(miss, spread / sinDown) : 0;
  out[at + COLUMN.shadow * pitch] = shadow;
  out[at + COLUMN.under * pitch] = darkUnder(hidden, light.sky, shadow, light.depth);
  return Math.min(1, hidden + shadow);
};

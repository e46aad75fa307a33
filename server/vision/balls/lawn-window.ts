import type { Raster } from '../types.ts';
import { writeYcc } from '../ycc.ts';
import type { BallView } from './ball-view.ts';
import { SHARP } from './edge-blur.ts';
import type { FittedBall } from './fitted-ball.ts';
import { isThing } from './hidden-columns.ts';
import type { LawnColour } from './lawn-colour.ts';
import { inverseAxes } from './outline-shape.ts';
import { SHADOW_REACH } from './peel.ts';
import { ballLight, baseColumns, COLUMN, COLUMNS, type Sun } from './shading.ts';

/** How far around a ball light and shade are told apart, radii, and px more. */
export const REACH = 4;
const REACH_PX = 4;
/** A wider look than that reaches no farther than so many px. */
const MOST_PX = 45;
/** A ball hides the lawn to so many radii from its middle, and its own shadow from this share of the sun on. */
const DISC = 1.2;
const IN_SHADOW = 0.15;
/** Weight of a px in its own mean with its eight neighbours. */
const OWN_WEIGHT = 8;

/** The px about a ball: the first one's place, how many across and down, their luma in grey levels, and whether they show nothing but lawn. */
export type Window = {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly luma: Float64Array;
  readonly open: Uint8Array;
};
export type Bounds = Pick<Window, 'left' | 'top' | 'width' | 'height'>;

/** The px within so many `radii` about the ball of `view`, in a bounded number. */
export const boundsOf = (raster: Raster, { x, y, radius }: BallView, radii: number): Bounds => {
  const reach = Math.ceil(Math.min(radii * radius, Math.max(MOST_PX, REACH * radius)) + REACH_PX);
  const left = Math.max(0, Math.floor(x) - reach);
  const top = Math.max(0, Math.floor(y) - reach);
  return {
    left,
    top,
    width: Math.min(raster.width, Math.floor(x) + reach + 1) - left,
    height: Math.min(raster.height, Math.floor(y) + reach + 1) - top,
  };
};

const px = new Float64Array(3);

const readWindow = (raster: Raster, bounds: Bounds, lawn: LawnColour): Window => {
  const { left, top, width, height } = bounds;
  const luma = new Float64Array(width * height);
  const open = new Uint8Array(width * height);
  for (let j = 0, k = 0; j < height; j++)
    for (let i = 0; i < width; i++, k++) {
      const p = ((top + j) * raster.width + left + i) * 3;
      writeYcc(raster.data[p]!, raster.data[p + 1]!, raster.data[p + 2]!, px, 0);
      luma[k] = px[0]!;
      open[k] = isThing(px, 0, lawn) ? 0 : 1;
    }
  return { ...bounds, luma, open };
};

const base = new Float64Array(COLUMNS);

/** A ball lends its colour to px so far outside its disc. */
const LENT_PX = 2;

/**
 * Closes the px right beside those that show something else than lawn or one of `balls`: the lens mixes it into them, and along a dark sleeve they look like lawn in shade.
 */
const closeSeams = (window: Window, balls: readonly { x: number; y: number; radius: number }[]): void => {
  const { left, top, width, height, open } = window;
  const other = open.map((lawn) => 1 - lawn);
  for (let j = 0, k = 0; j < height; j++)
    for (let i = 0; i < width; i++, k++) {
      if (other[k] === 0) continue;
      for (let b = 0; b < balls.length; b++) {
        const { x, y, radius } = balls[b]!;
        const lent = DISC * radius + LENT_PX;
        if ((left + i + 0.5 - x) ** 2 + (top + j + 0.5 - y) ** 2 < lent * lent) other[k] = 0;
      }
    }
  for (let j = 0, k = 0; j < height; j++)
    for (let i = 0; i < width; i++, k++) {
      const across = (i > 0 && other[k - 1] === 1) || (i + 1 < width && other[k + 1] === 1);
      const down = (j > 0 && other[k - width] === 1) || (j + 1 < height && other[k + width] === 1);
      if (across || down) open[k] = 0;
    }
};

/** Closes the px of `window` that the ball of `view`, whose outline has its middle at image (`x`, `y`), covers or keeps the sun from. */
const closeTraces = (window: Window, view: BallView, x: number, y: number, sun: Sun | null): void => {
  const light = ballLight(view, sun);
  const { left, top, width, height, open } = window;
  const [iux, iuy, ivx, ivy] = inverseAxes(view);
  const reach = SHADOW_REACH * view.radius;
  const [from, to] = [
    Math.max(0, Math.floor(x - reach) - left),
    Math.min(width, Math.ceil(x + reach) - left),
  ];
  const last = Math.min(height, Math.ceil(y + reach) - top);
  for (let j = Math.max(0, Math.floor(y - reach) - top); j < last; j++)
    for (let i = from; i < to; i++) {
      const k = j * width + i;
      if (open[k] === 0) continue;
      const dx = left + i + 0.5 - x;
      const dy = top + j + 0.5 - y;
      const u = iux * dx + iuy * dy;
      const v = ivx * dx + ivy * dy;
      const rho = Math.sqrt(u * u + v * v);
      if (rho > SHADOW_REACH) continue;
      if (rho > DISC) baseColumns(light, u, v, rho, SHARP, base, 0);
      if (rho <= DISC || base[COLUMN.shadow]! > IN_SHADOW) open[k] = 0;
    }
};

/** Mean luma of each open px and its open neighbours. */
export const smoothed = ({ width, height, luma, open }: Window): Float64Array => {
  const out = new Float64Array(width * height);
  for (let j = 0; j < height; j++)
    for (let i = 0; i < width; i++) {
      const k = j * width + i;
      if (open[k] === 0) continue;
      let sum = (OWN_WEIGHT - 1) * luma[k]!;
      let weight = OWN_WEIGHT - 1;
      for (let b = Math.max(0, j - 1); b <= Math.min(height - 1, j + 1); b++)
        for (let a = Math.max(0, i - 1); a <= Math.min(width - 1, i + 1); a++) {
          sum += open[b * width + a]! * luma[b * width + a]!;
          weight += open[b * width + a]!;
        }
      out[k] = sum / weight;
    }
  return out;
};

/** The px of `bounds` about the ball of `view`, open where they show nothing but lawn that neither it nor the balls `others` hide or keep the picture's `sun` from. */
export const lawnWindow = (
  raster: Raster,
  bounds: Bounds,
  view: BallView,
  sun: Sun | null,
  others: readonly FittedBall[],
  lawn: LawnColour,
): Window => {
  const window = readWindow(raster, bounds, lawn);
  closeSeams(window, [view, ...others.map(({ fit, view: { radius } }) => ({ x: fit.x, y: fit.y, radius }))]);
  closeTraces(window, view, view.x, view.y, sun);
  for (const other of others) closeTraces(window, other.view, other.fit.x, other.fit.y, sun);
  return window;
};

import type { Raster } from '../types.ts';
import type { Ycc } from '../ycc.ts';
import type { BallView } from './ball-view.ts';
import type { OutlineEvidence } from './evidence.ts';
import { distanceTo, type KnownThing, uprightsNear } from './exclusions.ts';
import type { CellNoise } from './noise-model.ts';
import { offLawnColour, pxAt } from './off-lawn.ts';
import type { OutlineFit } from './outline-shape.ts';

/** The part under or above the outline that is looked at, radii: from the shadow's end to where the person under a hat still is; half its width, and the steps. */
const FROM = 1.8;
const TO = 8;
const STEP = 0.4;
const HALF = 1;
const PACE = 0.25;
/** Contrast, in standard deviations of a cell, from which a px is no lawn in whatever light. */
const DIFFERS = 4;

/**
 * Share, 0 to 1, of the px under the outline that are not lawn, neither in the sun nor in shade: near 1 under a hat or a head, near 0 under a ball. Light multiplies, so lawn in shade has the lawn's luma and colour differences in the same proportion. 0 at the picture's edge.
 */
export const bodyShare = (raster: Raster, view: BallView, fit: OutlineFit, noise: CellNoise): number => {
  let all = 0;
  let others = 0;
  for (let down = FROM; down <= TO; down += STEP)
    for (let side = -HALF; side <= HALF; side += PACE) {
      all++;
      const x = fit.x + down * view.ax + side * view.bx;
      const y = fit.y + down * view.ay + side * view.by;
      const px = pxAt(raster, x, y);
      if (px !== null && offLawnColour(px, fit.lawn, noise) > DIFFERS) others++;
    }
  return others / all;
};

/** Cells of lawn share texture over about so many px, so that the mean over a width scatters less by the root of its px over this. */
const ROW_SHARED = 2;
/** Half the width, radii, over which a leg stands on the middle of its shoe, and the contrast that either half must show at least. */
const LEG_HALF = 0.6;
const HALF_DIFFERS = 2;

/**
 * Share, 0 to 1, of the heights above the outline at which there is no lawn over its middle, neither in the sun nor in shade: near 1 above a shoe, however like lawn each px of
 * the trousers is. The peg and the hoops do not count. 0 at the picture's edge.
 */
export const legShare = (
  raster: Raster,
  view: BallView,
  fit: OutlineFit,
  noise: CellNoise,
  things: readonly KnownThing[],
): number => {
  const quieter = (width: number): CellNoise => {
    const root = Math.sqrt(Math.max(1, (width * view.radius) / ROW_SHARED));
    return { luma: noise.luma / root, colour: noise.colour / root };
  };
  const [half, whole] = [quieter(LEG_HALF), quieter(2 * LEG_HALF)];
  const uprights = uprightsNear(things, fit.x, fit.y, (TO + 1) * view.radius);
  let rows = 0;
  let others = 0;
  for (let up = FROM; up <= TO; up += STEP) {
    rows++;
    const [x, y] = [fit.x - up * view.ax, fit.y - up * view.ay];
    if (uprights.some((known) => distanceTo(known, x, y) < known.near + 1)) continue;
    const left = meanBeside(raster, view, fit, up, -1);
    const right = meanBeside(raster, view, fit, up, 1);
    if (left === null || right === null) continue;
    const both: Ycc = [(left[0] + right[0]) / 2, (left[1] + right[1]) / 2, (left[2] + right[2]) / 2];
    if (
      offLawnColour(both, fit.lawn, whole) > DIFFERS &&
      offLawnColour(left, fit.lawn, half) > HALF_DIFFERS &&
      offLawnColour(right, fit.lawn, half) > HALF_DIFFERS
    )
      others++;
  }
  return others / rows;
};

/** Mean colour `up` radii above the outline from its middle to LEG_HALF on one side; null at the picture's edge. */
const meanBeside = (
  raster: Raster,
  view: BallView,
  fit: OutlineFit,
  up: number,
  sign: number,
): Ycc | null => {
  const sum = [0, 0, 0];
  let n = 0;
  for (let side = PACE / 2; side <= LEG_HALF; side += PACE) {
    const x = fit.x - up * view.ax + sign * side * view.bx;
    const y = fit.y - up * view.ay + sign * side * view.by;
    const px = pxAt(raster, x, y);
    if (px === null) return null;
    for (let c = 0; c < 3; c++) sum[c] = sum[c]! + px[c]!;
    n++;
  }
  return [sum[0]! / n, sum[1]! / n, sum[2]! / n];
};

/** Directions around a ball in which it is asked whether the thing goes on; where that is looked for (radii), and the step. */
const AROUND = 8;
const ASIDE_FROM = 1.4;
const ASIDE_TO = 2.2;
const ASIDE_HALF = 0.5;
const ASIDE_STEP = 0.25;
/** Radii within which a known thing may matter. */
const NEAR_THINGS = 2.5;
/** Shares of the step from lawn to ball between which a place has the ball's own colour, and how far off that line it may lie. */
const LEAST_SHARE = 0.6;
const MOST_SHARE = 1.5;
const MOST_OFF = 0.4;

/**
 * Whether the thing at the outline goes on beyond it in its own colour in some direction, as a mallet's head, a shoe or a bag does. Shadows do not count, nor does what lies
 * on a known thing such as a painted line, or what stands before the ball.
 */
export const goesOn = (
  raster: Raster,
  { view, fit, evidence }: Judged,
  noise: CellNoise,
  things: readonly KnownThing[],
): boolean => {
  const near = things.filter(
    (known) => distanceTo(known, fit.x, fit.y) < known.near + NEAR_THINGS * view.radius + 1,
  );
  for (let k = 0; k < AROUND; k++) {
    const [c, s] = [Math.cos((2 * Math.PI * k) / AROUND), Math.sin((2 * Math.PI * k) / AROUND)];
    if (isCovered(evidence, c, s)) continue;
    const colour = meanAside(raster, view, fit, c, s, near);
    if (colour === null || offLawnColour(colour, fit.lawn, noise) < DIFFERS) continue;
    let [both, own, rest] = [0, 0, 0];
    for (let i = 0; i < 3; i++) {
      const step = fit.ball[i]! - fit.lawn[i]!;
      both += step * (colour[i]! - fit.lawn[i]!);
      own += step * step;
    }
    const share = both / own;
    for (let i = 0; i < 3; i++)
      rest += (colour[i]! - fit.lawn[i]! - share * (fit.ball[i]! - fit.lawn[i]!)) ** 2;
    if (share > LEAST_SHARE && share < MOST_SHARE && Math.sqrt(rest / own) < MOST_OFF) return true;
  }
  return false;
};

/** What is asked of a judged ball here. */
type Judged = { readonly view: BallView; readonly fit: OutlineFit; readonly evidence: OutlineEvidence };

/** Whether something stands before the ball in the direction (`c` down, `s` aside). */
const isCovered = ({ open }: OutlineEvidence, c: number, s: number): boolean => {
  const turn = Math.atan2(s, c) / (2 * Math.PI) + 0.5;
  return open[Math.min(open.length - 1, Math.floor(turn * open.length))]! < 0.7;
};

/** Mean colour of the box beyond the outline in the direction (`c`, `s`); null where a known thing or the picture's edge is. */
const meanAside = (
  raster: Raster,
  view: BallView,
  fit: OutlineFit,
  c: number,
  s: number,
  things: readonly KnownThing[],
): Ycc | null => {
  const sum = [0, 0, 0];
  let n = 0;
  for (let out = ASIDE_FROM; out <= ASIDE_TO; out += ASIDE_STEP)
    for (let across = -ASIDE_HALF; across <= ASIDE_HALF; across += ASIDE_STEP) {
      const [u, v] = [out * c - across * s, out * s + across * c];
      const x = fit.x + u * view.ax + v * view.bx;
      const y = fit.y + u * view.ay + v * view.by;
      const px = pxAt(raster, x, y);
      if (px === null || things.some((known) => distanceTo(known, x, y) < known.near + 1)) return null;
      for (let i = 0; i < 3; i++) sum[i] = sum[i]! + px[i]!;
      n++;
    }
  return [sum[0]! / n, sum[1]! / n, sum[2]! / n];
};

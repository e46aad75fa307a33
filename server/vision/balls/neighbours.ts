import type { Camera } from '../../camera/types.ts';
import { BALL_DIAMETER } from '../../lawn/ball.ts';
import type { Raster } from '../types.ts';
import { type BallView, viewBall } from './ball-view.ts';
import { cutPatch, type Patch } from './patch.ts';
import { type FittedBall, peelBall } from './peel.ts';

/** Directions around a ball in which a touching one is looked for, and its distances in diameters. */
const DIRECTIONS = 16;
const DISTANCES = [1, 1.2] as const;
/** Contrast of a place against the lawn, in standard deviations of one cell, from which it is worth a fit. */
const LEAST_CONTRAST = 3;
/** Places that are fitted at most. */
const MOST = 2;

/** Places beside `ball` where, after it is taken off the picture, something still stands out from the lawn: the views of balls that may touch it. */
export const touchingViews = (
  raster: Raster,
  camera: Camera,
  ball: FittedBall,
  known: readonly FittedBall[],
): BallView[] => {
  const patch = cutPatch(raster, ball.view, WIDER);
  peelBall(patch, ball);
  const found: { readonly view: BallView; readonly contrast: number }[] = [];
  for (const distance of DISTANCES)
    for (let k = 0; k < DIRECTIONS; k++) {
      const turn = (2 * Math.PI * k) / DIRECTIONS;
      const view = viewBall(
        camera,
        ball.view.lawnX + distance * BALL_DIAMETER * Math.cos(turn),
        ball.view.lawnY + distance * BALL_DIAMETER * Math.sin(turn),
      );
      if (view === null || known.some((other) => near(view, other))) continue;
      const contrast = coreContrast(patch, view, ball);
      if (contrast >= LEAST_CONTRAST) found.push({ view, contrast });
    }
  found.sort((a, b) => b.contrast - a.contrast);
  const kept: BallView[] = [];
  for (const { view } of found) {
    if (kept.length === MOST) break;
    if (kept.every((other) => Math.hypot(other.x - view.x, other.y - view.y) > view.radius)) kept.push(view);
  }
  return kept;
};

/** Radii beyond the usual patch that a touching ball needs. */
const WIDER = 1.8;

const near = (view: BallView, { fit }: FittedBall): boolean =>
  Math.hypot(view.x - fit.x, view.y - fit.y) < view.radius;

/** Mean difference of the disc's core from the lawn beside `ball`, in standard deviations of a cell; 0 with too few trusted cells. */
const coreContrast = (patch: Patch, view: BallView, { fit }: FittedBall): number => {
  const reach = (0.7 * view.radius) ** 2;
  const sums = [0, 0, 0];
  let n = 0;
  for (let i = 0; i < patch.count; i++) {
    if (patch.trust[i] === 0 || (patch.x[i]! - view.x) ** 2 + (patch.y[i]! - view.y) ** 2 > reach) continue;
    for (let c = 0; c < 3; c++) sums[c] = sums[c]! + patch.values[3 * i + c]! - fit.lawn[c]!;
    n++;
  }
  if (n < 3) return 0;
  const [y, cb, cr] = sums.map((sum) => sum / n) as [number, number, number];
  return Math.hypot(y / fit.noise.luma, cb / fit.noise.colour, cr / fit.noise.colour);
};

import type { Camera } from '../../camera/types.ts';
import { BALL_DIAMETER } from '../../lawn/ball.ts';
import type { Raster } from '../types.ts';
import { type BallView, viewBall } from './ball-view.ts';
import type { FittedBall } from './fitted-ball.ts';
import type { JudgedBall } from './judge-ball.ts';
import { cutPatch, type Patch } from './patch.ts';
import { peelBall } from './peel.ts';

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
      const contrast = discContrast(patch, view, ball, CORE);
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

/** Parts of a disc, in radii, whose contrast is asked: its core, and all that may be seen of a hidden one. */
const CORE = 0.7;
const WHOLE = 0.95;

/** Mean difference of the cells of `view` within `part` of its radius from the lawn beside `ball`, in standard deviations of a cell; 0 with too few trusted cells. */
const discContrast = (patch: Patch, view: BallView, { fit }: FittedBall, part: number): number => {
  const reach = (part * view.radius) ** 2;
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

/** Where a ball is looked for behind another that hides most of it: turned from right behind by so much, radians, and how far apart the centres are, diameters. */
const TURNS = [0, -0.45, 0.45] as const;
const APART = [1, 1.3] as const;
/** Contrast of a crescent, which is thin and mixed with what is around, from which it is worth a fit; and such places that are fitted at most. */
const LEAST_CRESCENT = 1.5;
const MOST_CRESCENTS = 4;
/** Nearer to the middle of the one before it than this, radii, nothing of a ball shows; farther away it stands out on its own. */
const LEAST_SEEN = 0.2;
const STANDS_OUT = 1.1;

/** The view of a ball `apart` diameters behind the one of `ball` (before it when negative), turned from there by `turn` radians. */
const inLine = (
  camera: Camera,
  { view, place }: JudgedBall,
  apart: number,
  turn: number,
): BallView | null => {
  const ahead = apart * BALL_DIAMETER * Math.cos(turn);
  const aside = apart * BALL_DIAMETER * Math.sin(turn);
  return viewBall(
    camera,
    place.x + ahead * view.forwardX - aside * view.forwardY,
    place.y + ahead * view.forwardY + aside * view.forwardX,
  );
};

/** Views of balls that may stand right before `rear` and touch it. */
export const viewsBefore = (camera: Camera, rear: JudgedBall): BallView[] =>
  TURNS.map((turn) => inLine(camera, rear, -1, turn)).filter((view) => view !== null);

/** Places right behind `front` where, after it is taken off the picture, something stands out from the lawn: the views of balls that it may hide in part, strongest first. */
export const hiddenViews = (raster: Raster, camera: Camera, front: JudgedBall): BallView[] => {
  const { view, fit } = front;
  const patch = cutPatch(raster, view, WIDER);
  peelBall(patch, front);
  const found: { readonly seen: BallView; readonly contrast: number }[] = [];
  for (const apart of APART)
    for (const turn of TURNS) {
      const seen = inLine(camera, front, apart, turn);
      if (seen === null) continue;
      const away = Math.hypot(seen.x - fit.x, seen.y - fit.y) / view.radius;
      if (away < LEAST_SEEN || away > STANDS_OUT) continue;
      const contrast = discContrast(patch, seen, front, WHOLE);
      if (contrast >= LEAST_CRESCENT) found.push({ seen, contrast });
    }
  found.sort((a, b) => b.contrast - a.contrast);
  return found.slice(0, MOST_CRESCENTS).map(({ seen }) => seen);
};

import type { Raster } from '../types.ts';
import type { Ycc } from '../ycc.ts';
import { distanceTo, type KnownThing } from './exclusions.ts';
import type { JudgedBall } from './judge-ball.ts';
import type { CellNoise } from './noise-model.ts';
import { COLOUR_BLOCK, offLawnColour, pxAt } from './off-lawn.ts';
import type { OutlineFit } from './outline-shape.ts';

/** Nodes are this far apart, radii, but at least one px; they are followed so far from the ball, radii. */
const PACE = 0.5;
const REACH = 12;
/** Contrast, in standard deviations of a cell, from which a px is no lawn in whatever light. */
const DIFFERS = 3;
/** Nodes within this many radii belong to the ball itself. */
const OWN = 1.4;
/** Nodes of a thing as large as six balls: touching balls are fewer. */
const LARGE = 45;

/**
 * What has bled from a ball is less than this share of its own colour, and in no other direction by more than noise or so much of it. A ball of a strong colour in a photo kept coarsely stands in a halo
 * larger than itself: of 16 balls in the fixtures and in scenes drawn by chance that were taken for a part of something large four were so for that alone.
 */
const MOST_BLED = 0.5;
const OFF_BLED = 0.25;

/** Whether `px`, so many px from the outline, differs from the lawn by nothing but a share of the ball's colour, which may have bled there. */
const hasBled = (px: Ycc, { ball, lawn }: OutlineFit, noise: CellNoise, out: number): boolean => {
  if (out > COLOUR_BLOCK || Math.abs(px[0] - lawn[0]!) > DIFFERS * noise.luma) return false;
  const [sb, sr] = [ball[1]! - lawn[1]!, ball[2]! - lawn[2]!];
  const [b, r] = [px[1] - lawn[1]!, px[2] - lawn[2]!];
  const own = Math.hypot(sb, sr);
  const along = (b * sb + r * sr) / own;
  const off = Math.abs(b * sr - r * sb) / own;
  const stray = 2 * DIFFERS * noise.colour;
  return along > -stray && along < MOST_BLED * own && off < Math.max(stray, OFF_BLED * own);
};

/**
 * Whether the ball of `judged` hangs together with something much larger than itself, such as a person: what is no lawn is followed from px to px. Painted lines, hoops,
 * peg and flags do not count.
 */
export const isAttached = (
  raster: Raster,
  { view, fit }: JudgedBall,
  noise: CellNoise,
  things: readonly KnownThing[],
): boolean => {
  const pace = Math.max(1, PACE * view.radius);
  const half = Math.ceil((REACH * view.radius) / pace);
  const side = 2 * half + 1;
  const reach = REACH * view.radius * Math.SQRT2;
  const near = things.filter((known) => distanceTo(known, fit.x, fit.y) < known.near + reach + 1);
  const seen = new Uint8Array(side * side);
  const queue = [half * side + half];
  seen[queue[0]!] = 1;
  let others = 0;
  for (let head = 0; head < queue.length; head++) {
    const node = queue[head]!;
    const [i, j] = [node % side, Math.floor(node / side)];
    const [dx, dy] = [(i - half) * pace, (j - half) * pace];
    const own = dx * dx + dy * dy < (OWN * view.radius) ** 2;
    if (!own) {
      const px = pxAt(raster, fit.x + dx, fit.y + dy);
      if (px === null || offLawnColour(px, fit.lawn, noise) < DIFFERS) continue;
      if (near.some((known) => distanceTo(known, fit.x + dx, fit.y + dy) < known.near + 1)) continue;
      if (!hasBled(px, fit, noise, Math.hypot(dx, dy) - view.radius)) others++;
      if (others >= LARGE) return true;
    }
    for (const [a, b] of STEPS) {
      if (i + a < 0 || i + a >= side || j + b < 0 || j + b >= side) continue;
      const next = node + b * side + a;
      if (seen[next] === 1) continue;
      seen[next] = 1;
      queue.push(next);
    }
  }
  return false;
};

const STEPS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

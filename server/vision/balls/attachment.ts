import type { Raster } from '../types.ts';
import { distanceTo, type KnownThing } from './exclusions.ts';
import type { JudgedBall } from './judge-ball.ts';
import type { CellNoise } from './noise-model.ts';
import { offLawnColour, pxAt } from './off-lawn.ts';

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
      others++;
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

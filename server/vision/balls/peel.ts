import { BALL_DIAMETER, BALL_RADIUS } from '../../lawn/ball.ts';
import type { BallView } from './ball-view.ts';
import { SHARP } from './edge-blur.ts';
import type { FittedBall } from './fitted-ball.ts';
import { type OutlineFit, sunkBy } from './outline-shape.ts';
import type { Patch } from './patch.ts';
import { ballLight, baseColumns, COLUMN, COLUMNS, LOGISTIC } from './shading.ts';
import { addedAt } from './tone-bend.ts';

/** Coverage by the other ball from which a cell says nothing about this one. */
const COVERED = 0.5;
/** Radii over which a ball's shadow is taken off with it. */
export const SHADOW_REACH = 6;
/** A ball that stands so much farther from the camera than another stands behind it, diameters. */
const BEHIND = 0.6;
/** Of a ball before another, what lies so many blurs inside its outline shows nothing of the other. */
const WELL_INSIDE = 1.2;
const base = new Float64Array(COLUMNS);

/** Whether the ball of `rear` stands behind that of `front`, as the camera sees them. */
export const standsBehind = (rear: BallView, front: BallView): boolean =>
  (rear.lawnX - front.lawnX) * front.forwardX + (rear.lawnY - front.lawnY) * front.forwardY >
  BEHIND * BALL_DIAMETER;

/** How the ball that is fitted stands to one that is taken off: before it, behind it, or beside it for all that is known. */
export type Standing = 'before' | 'behind' | 'beside';

/** Where (`dx`, `dy`) px from the middle of the outline of `view` is, in radii: down, to the side. */
const inRadii = (view: BallView, dx: number, dy: number): readonly [number, number] => {
  const det = view.ax * view.by - view.ay * view.bx;
  return [(view.by * dx - view.bx * dy) / det, (view.ax * dy - view.ay * dx) / det];
};

/**
 * Distrusts the cells in which the ball of `view` lies in the shadow of `other`: the light on a ball is reckoned without it. `other` is seen at a place of its own; both stand on the lawn.
 */
export const hideShaded = (patch: Patch, view: BallView, { view: other, sun }: FittedBall): void => {
  if (sun === null) return;
  const { sinDown, cosDown, sun: rays } = ballLight(view, sun);
  // From the middle of the ball of `view` to that of `other`, in radii: away from the camera, to the side.
  const [dx, dy] = [(other.lawnX - view.lawnX) / BALL_RADIUS, (other.lawnY - view.lawnY) / BALL_RADIUS];
  const away = dx * view.forwardX + dy * view.forwardY;
  const aside = dy * view.forwardX - dx * view.forwardY;
  if (Math.hypot(away, aside) > SHADE_REACH) return;
  for (let i = 0; i < patch.count; i++) {
    const [u, v] = inRadii(view, patch.x[i]! - view.x, patch.y[i]! - view.y);
    const up = 1 - u * u - v * v;
    if (up < 0) continue;
    const towards = Math.sqrt(up);
    // From the place on the ball to the middle of the other.
    const [f, a, z] = [away + u * sinDown + towards * cosDown, aside - v, u * cosDown - towards * sinDown];
    const along = f * rays[0] + a * rays[1] + z * rays[2];
    if (along > 0 && f * f + a * a + z * z - along * along < SHADE * SHADE) patch.trust[i] = 0;
  }
};
/** Balls farther apart than this, radii, do not shade each other when the sun is high enough for play; half width of a shadow with its soft edge, radii. */
const SHADE_REACH = 8;
const SHADE = 1.1;

/**
 * Takes `other` and its shadow off `patch`, in which the ball of `own` is fitted that stands to it as `standing` says. Cells that `other` covers by more than half are not trusted any more. From those it
 * covers less, what it adds to the lawn is subtracted (its soft edge, and its colour that has bled): right for lawn and for a ball beside it. A ball behind it is seen through what it leaves of the
 * cell, which is made whole again. What lies inside the outline of a ball before it stays as it is.
 */
export const peelBall = (
  patch: Patch,
  { view, fit, sun }: FittedBall,
  own: BallView | null = null,
  standing: Standing = 'beside',
): void => {
  const light = ballLight(view, sun);
  const soft = Math.hypot(fit.blur, fit.colourBlur);
  const far = 1 + (4 * soft) / view.radius;
  const sunk = sunkBy(fit.blur, view.radius);
  const sunkColour = sunkBy(soft, view.radius);
  const before = standing === 'before' ? own : null;
  const inner = before === null ? 0 : 1 - (WELL_INSIDE * fit.blur) / before.radius;
  for (let i = 0; i < patch.count; i++) {
    const [u, v] = inRadii(view, patch.x[i]! - fit.x, patch.y[i]! - fit.y);
    const rho = Math.max(1e-6, Math.sqrt(u * u + v * v));
    if (rho > Math.max(far, SHADOW_REACH)) continue;
    if (before !== null) {
      const [down, side] = inRadii(before, patch.x[i]! - before.x, patch.y[i]! - before.y);
      if (down * down + side * side < inner * inner) continue;
    }
    const s = (rho - 1) * view.radius;
    const luma = 1 / (1 + Math.exp((LOGISTIC * (s + sunk)) / fit.blur));
    const colour = 1 / (1 + Math.exp((LOGISTIC * (s + sunkColour)) / soft));
    if (luma > COVERED) {
      patch.trust[i] = 0;
      continue;
    }
    // As a sharp picture would show the place: at the outline the blur's own places say too little of what lies under a ball that touches.
    baseColumns(light, u, v, rho, SHARP, base, 0);
    const { lawn, step, bend } = addedAt(fit, base, luma, colour);
    const seen = standing === 'behind' ? 1 - luma : 1;
    patch.trust[i] = patch.trust[i]! * seen * seen;
    for (let c = 0; c < 3; c++) {
      const w = c === 0 ? luma : colour;
      const dark = darkAt(fit, c);
      const left = patch.values[3 * i + c]! - w * step[c]! - bend[c]! - (1 - w) * dark;
      const bare = lawn[c]! - dark;
      patch.values[3 * i + c] =
        standing === 'behind' ? bare + (left - bare) / Math.max(COVERED, 1 - w) : left;
    }
  }
};

/** What the darkness under the ball and its cast shadow add to the lawn in channel `c` at the place whose columns are in `base`. */
const darkAt = (fit: OutlineFit, c: number): number =>
  base[COLUMN.under]! * fit.coefficients[c * COLUMNS + COLUMN.under]! +
  base[COLUMN.shadow]! * fit.coefficients[c * COLUMNS + COLUMN.shadow]!;

/** Places of a disc, in radii, at which it is asked whether it lies in a shadow. */
const PROBES = [
  [0, 0],
  [0.5, 0],
  [-0.5, 0],
  [0, 0.5],
  [0, -0.5],
] as const;

/** Share, 0 to 1, of the disc of `radius` px about image (`x`, `y`) that lies in the shadow which `other` casts on the lawn; 0 without a sun. */
export const shadowShare = (other: FittedBall, x: number, y: number, radius: number): number => {
  const { view, fit, sun } = other;
  if (sun === null) return 0;
  const light = ballLight(view, sun);
  let share = 0;
  for (const [px, py] of PROBES) {
    const [u, v] = inRadii(view, x + px * radius - fit.x, y + py * radius - fit.y);
    baseColumns(light, u, v, Math.max(1e-6, Math.hypot(u, v)), SHARP, base, 0);
    share += base[COLUMN.shadow]! / PROBES.length;
  }
  return share;
};

import type { BallView } from './ball-view.ts';
import { SHARP } from './edge-blur.ts';
import { type OutlineFit, sunkBy } from './outline-shape.ts';
import type { Patch } from './patch.ts';
import { ballLight, baseColumns, COLUMN, COLUMNS, LOGISTIC, type Sun } from './shading.ts';
import { addedAt } from './tone-bend.ts';

/** A ball whose outline is fitted, as it lies over a neighbour's patch. */
export type FittedBall = { readonly view: BallView; readonly fit: OutlineFit; readonly sun: Sun | null };

/** Coverage by the other ball from which a cell says nothing about this one. */
const COVERED = 0.5;
/** Radii over which a ball's shadow is taken off with it. */
const SHADOW_REACH = 6;
const base = new Float64Array(COLUMNS);

/**
 * Takes `other` and its shadow off `patch`: what it adds to the lawn is subtracted where it covers less than half of a cell (its soft edge, and its colour that has
 * bled), and cells it covers more are not trusted any more. Which of the two stands in front does not matter then.
 */
export const peelBall = (patch: Patch, { view, fit, sun }: FittedBall): void => {
  const light = ballLight(view, sun);
  const det = view.ax * view.by - view.ay * view.bx;
  const soft = Math.hypot(fit.blur, fit.colourBlur);
  const far = 1 + (4 * soft) / view.radius;
  const sunk = sunkBy(fit.blur, view.radius);
  const sunkColour = sunkBy(soft, view.radius);
  for (let i = 0; i < patch.count; i++) {
    const dx = patch.x[i]! - fit.x;
    const dy = patch.y[i]! - fit.y;
    const u = (view.by * dx - view.bx * dy) / det;
    const v = (view.ax * dy - view.ay * dx) / det;
    const rho = Math.max(1e-6, Math.sqrt(u * u + v * v));
    if (rho > Math.max(far, SHADOW_REACH)) continue;
    const s = (rho - 1) * view.radius;
    const luma = 1 / (1 + Math.exp((LOGISTIC * (s + sunk)) / fit.blur));
    const colour = 1 / (1 + Math.exp((LOGISTIC * (s + sunkColour)) / soft));
    if (luma > COVERED) {
      patch.trust[i] = 0;
      continue;
    }
    // As a sharp picture would show the place: at the outline the blur's own places say too little of what lies under a ball that touches.
    baseColumns(light, u, v, rho, SHARP, base, 0);
    const { step, bend } = addedAt(fit, base, luma, colour);
    for (let c = 0; c < 3; c++) {
      const w = c === 0 ? luma : colour;
      const more = w * step[c]! + bend[c]! + (1 - w) * darkAt(fit, c);
      patch.values[3 * i + c] = patch.values[3 * i + c]! - more;
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
  const det = view.ax * view.by - view.ay * view.bx;
  let share = 0;
  for (const [px, py] of PROBES) {
    const dx = x + px * radius - fit.x;
    const dy = y + py * radius - fit.y;
    const u = (view.by * dx - view.bx * dy) / det;
    const v = (view.ax * dy - view.ay * dx) / det;
    baseColumns(light, u, v, Math.max(1e-6, Math.hypot(u, v)), SHARP, base, 0);
    share += base[COLUMN.shadow]! / PROBES.length;
  }
  return share;
};

import type { BallView } from './ball-view.ts';
import type { FitWorkspace } from './fit-workspace.ts';
import { clearRadii, isThing } from './hidden-columns.ts';
import type { LawnColour } from './lawn-colour.ts';
import type { Patch } from './patch.ts';

/** Cells that a colour is the mean of, at least. */
const LEAST = 2;

/** A ball's disc with its soft edge, radii. */
const DISC = 1.1;

/** Mean Y, Cb, Cr in grey levels of what stands before the ball of `view`, as it is seen above the ball and below it: the cells of `patch` that are hidden and no lawn. Empty when nothing does. */
export const coveringColours = (patch: Patch, view: BallView, lawn: LawnColour): readonly Float64Array[] => {
  const above = { n: 0, sum: new Float64Array(3) };
  const below = { n: 0, sum: new Float64Array(3) };
  const clear = clearRadii(view.radius) * view.radius;
  for (let i = 0; i < patch.count; i++) {
    const down = patch.y[i]! - view.y;
    if (patch.trust[i]! > 0 || Math.abs(down) < clear || !isThing(patch.values, 3 * i, lawn)) continue;
    const side = down < 0 ? above : below;
    side.n++;
    for (let c = 0; c < 3; c++) side.sum[c] = side.sum[c]! + patch.values[3 * i + c]!;
  }
  return [above, below].filter(({ n }) => n >= LEAST).map(({ n, sum }) => sum.map((value) => value / n));
};

/** Share of the ball's cells before which nothing upright stands, 0 to 1, by their `trust` before other balls were taken off; `space` holds where they are in the outline. */
export const clearShare = (trust: Float64Array, { rho }: FitWorkspace, count: number): number => {
  let [cells, clear] = [0, 0];
  for (let i = 0; i < count; i++) {
    if (rho[i]! > DISC) continue;
    cells++;
    if (trust[i]! > 0) clear++;
  }
  return cells === 0 ? 1 : clear / cells;
};

/** From this clear share down something upright stands before a ball. */
export const COVERED = 0.85;
/** The share by which a ball is then covered as far as counts. */
const WHOLLY = 0.3;

/** How much a ball with a clear share is covered, 0 to 1. */
export const coveredBy = (clear: number): number => Math.max(0, Math.min(1, (COVERED - clear) / WHOLLY));

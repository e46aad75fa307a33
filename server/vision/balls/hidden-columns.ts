import type { BallView } from './ball-view.ts';
import type { LawnColour } from './lawn-colour.ts';
import type { Patch } from './patch.ts';

/** Columns into which a patch is cut across the ball, and how far they reach to each side, radii. */
const COLUMNS_ACROSS = 16;
const REACH = 2;
/** Px outside the outline from which a cell shows no blurred colour of the ball, and radii. */
const CLEAR_PX = 2.2;
const CLEAR = 1.15;
/** Share of the lawn's colour (its distance from grey, in the light that falls there) by which a cell must miss it to be another thing; brightness of lawn in shade and in the sun. */
const OFF = 0.45;
const DARKEST = 0.2;
const BRIGHTEST = 1.5;
const DARK_THING = 0.3;
/** Share of a column's cells above, and below, the ball that must be another thing. */
export const MOST_OF = 0.6;
/** A patch of which more than this is no lawn shows other ground, not things before it. */
const TOO_MUCH = 0.85;

const above = new Float64Array(2 * COLUMNS_ACROSS);
const below = new Float64Array(2 * COLUMNS_ACROSS);
const hidden = new Uint8Array(COLUMNS_ACROSS);

/** Whether the cell at `o` of `values` (Y, Cb, Cr) shows lawn in no light: light multiplies, so lawn keeps the proportion of its luma and colour differences. */
export const isOther = (values: Float64Array, o: number, { ycc }: LawnColour): boolean => {
  const light = Math.max(DARKEST, Math.min(BRIGHTEST, values[o]! / ycc[0]));
  const blue = values[o + 1]! - light * ycc[1];
  const red = values[o + 2]! - light * ycc[2];
  const most = OFF * Math.max(0.5, light);
  return blue * blue + red * red > most * most * (ycc[1] * ycc[1] + ycc[2] * ycc[2]);
};

/** Whether the cell at `o` shows something that may stand before a ball: no lawn, or darker than a shadow makes it. */
export const isThing = (values: Float64Array, o: number, lawn: LawnColour): boolean =>
  values[o]! < DARK_THING * lawn.ycc[0] || isOther(values, o, lawn);

const mostly = (side: Float64Array, k: number): boolean => side[2 * k]! > MOST_OF * side[2 * k + 1]!;

/** Works out the hidden columns from the middle outwards: one at the patch's round edge, without a cell above or below the ball, is like its inner neighbour. */
const markColumns = (): void => {
  const half = COLUMNS_ACROSS / 2;
  for (let out = 0; out < half; out++)
    for (const [k, inner] of [
      [half + out, half + out - 1],
      [half - 1 - out, half - out],
    ] as const) {
      const empty = above[2 * k + 1] === 0 || below[2 * k + 1] === 0;
      hidden[k] = empty ? (out === 0 ? 0 : hidden[inner]!) : Number(mostly(above, k) && mostly(below, k));
    }
};

/** Radii from the middle of a ball of `radius` px outside which nothing of it shows. */
export const clearRadii = (radius: number): number => Math.max(CLEAR, 1 + CLEAR_PX / radius);

/**
 * Distrusts the columns of `patch` in which something upright stands before the ball of `view`: a leg, a hoop's wire, a pole. They show other things than lawn both
 * above and below the ball. What is seen of the ball beside them is then fitted alone.
 */
export const hideColumns = (patch: Patch, view: BallView, lawn: LawnColour): void => {
  above.fill(0);
  below.fill(0);
  const det = view.ax * view.by - view.ay * view.bx;
  const clear = clearRadii(view.radius);
  const columnOf = (v: number): number => Math.floor(((v / REACH + 1) / 2) * COLUMNS_ACROSS);
  let [outside, others] = [0, 0];
  for (let i = 0; i < patch.count; i++) {
    const dx = patch.x[i]! - view.x;
    const dy = patch.y[i]! - view.y;
    const u = (view.by * dx - view.bx * dy) / det;
    const v = (view.ax * dy - view.ay * dx) / det;
    const k = columnOf(v);
    if (Math.abs(u) < clear || k < 0 || k >= COLUMNS_ACROSS) continue;
    const other = isThing(patch.values, 3 * i, lawn) ? 1 : 0;
    outside++;
    others += other;
    const side = u < 0 ? above : below;
    side[2 * k] = side[2 * k]! + other;
    side[2 * k + 1] = side[2 * k + 1]! + 1;
  }
  if (others < 4 || others > TOO_MUCH * outside) return;
  markColumns();
  for (let i = 0; i < patch.count; i++) {
    const v = (view.ax * (patch.y[i]! - view.y) - view.ay * (patch.x[i]! - view.x)) / det;
    const k = columnOf(v);
    if (k >= 0 && k < COLUMNS_ACROSS && hidden[k] === 1) patch.trust[i] = 0;
  }
};

/** Share of the cells clear of a ball that must be lawn for the others to be left out. */
const ENOUGH_LAWN = 0.35;
/** Brightness of a cell in shadow at most, as a share of the lawn's. */
const SHADED = 0.6;

/** Distrusts the cells of `patch` clear of the ball of `view` that show something else than lawn, unless hardly any lawn would be left. */
export const hideOthers = (patch: Patch, view: BallView, lawn: LawnColour): void => {
  const clear = (clearRadii(view.radius) * view.radius) ** 2;
  const others: number[] = [];
  let lawns = 0;
  for (let i = 0; i < patch.count; i++) {
    if ((patch.x[i]! - view.x) ** 2 + (patch.y[i]! - view.y) ** 2 <= clear || patch.trust[i] === 0) continue;
    // Darker cells may lie in the ball's shadow, which the sky tints and the fit needs.
    const lit = patch.values[3 * i]! > SHADED * lawn.ycc[0];
    if (lit && isOther(patch.values, 3 * i, lawn)) others.push(i);
    else lawns++;
  }
  if (lawns > ENOUGH_LAWN * (lawns + others.length)) for (const i of others) patch.trust[i] = 0;
};

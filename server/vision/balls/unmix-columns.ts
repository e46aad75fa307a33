import type { Raster } from '../types.ts';
import { writeYcc } from '../ycc.ts';
import type { BallView } from './ball-view.ts';
import { clearRadii, isOther } from './hidden-columns.ts';
import type { LawnColour } from './lawn-colour.ts';
import type { Patch } from './patch.ts';

/** Rows above and below the ball in which a thing that stands before it is seen without the ball: from where nothing of the ball shows on, so many radii. */
const STRIP = 1.6;
/** Most columns of px across a patch. */
const MOST = 64;
/** A column that shows more of the thing than this tells nothing of the ball, and one that shows less than this nothing of the thing. */
const MOSTLY = 0.75;
const HARDLY = 0.04;
/** Differences of thing and lawn, grey levels, from which luma, and colour, tell how much of a column is the thing. */
const LUMA_TELLS = 20;
const COLOUR_TELLS = 8;
/** Px from the thing's edge from which a column is only thing, or only lawn. */
const SOFT = 2.5;

const means = new Float64Array(3 * MOST);
const other = new Uint8Array(MOST);
const shares = new Float64Array(2 * MOST);
const cell = new Float64Array(3);

/** The columns of px about a ball: the first one's left edge, px, and how many. */
type Columns = { readonly left: number; readonly count: number };

/** Means of the columns above and below the ball of `view`; null at the picture's edge. */
const measureColumns = (raster: Raster, { x, y, radius }: BallView, reach: number): Columns | null => {
  const left = Math.floor(x - reach);
  const count = Math.min(MOST, Math.ceil(2 * reach) + 1);
  const clear = clearRadii(radius) * radius;
  const [top, upTo] = [Math.round(y - clear - STRIP * radius), Math.round(y - clear)];
  const [from, bottom] = [Math.round(y + clear), Math.round(y + clear + STRIP * radius)];
  if (left < 0 || left + count > raster.width || top < 0 || bottom > raster.height) return null;
  for (let k = 0; k < count; k++) {
    let [r, g, b, n] = [0, 0, 0, 0];
    for (let j = top; j < bottom; j = j + 1 === upTo ? from : j + 1) {
      const p = (j * raster.width + left + k) * 3;
      r += raster.data[p]!;
      g += raster.data[p + 1]!;
      b += raster.data[p + 2]!;
      n++;
    }
    writeYcc(r / n, g / n, b / n, means, 3 * k);
  }
  return { left, count };
};

/** The nearest column to `k` that is `kind` (1 another thing, 0 lawn) together with those within SOFT px of it; −1 when there is none. */
const nearestWhole = (k: number, kind: number, count: number): number => {
  const soft = Math.floor(SOFT);
  for (let away = 0; away < count; away++)
    for (const c of [k - away, k + away]) {
      if (c < 0 || c >= count) continue;
      let whole = true;
      for (let d = -soft; d <= soft && whole; d++) {
        const i = c + d;
        if (i >= 0 && i < count && other[i] !== kind) whole = false;
      }
      if (whole) return c;
    }
  return -1;
};

/** How much of column `k` is a thing that shows column `thing`'s colour, before lawn of column `lawn`'s: by luma and by colour. */
const setShares = (k: number, thing: number, lawn: number): void => {
  const dy = means[3 * thing]! - means[3 * lawn]!;
  const db = means[3 * thing + 1]! - means[3 * lawn + 1]!;
  const dr = means[3 * thing + 2]! - means[3 * lawn + 2]!;
  const square = db * db + dr * dr;
  const byLuma = Math.abs(dy) < LUMA_TELLS ? Number.NaN : (means[3 * k]! - means[3 * lawn]!) / dy;
  const byColour =
    square < COLOUR_TELLS * COLOUR_TELLS
      ? Number.NaN
      : ((means[3 * k + 1]! - means[3 * lawn + 1]!) * db + (means[3 * k + 2]! - means[3 * lawn + 2]!) * dr) / square;
  const luma = Number.isNaN(byLuma) ? byColour : byLuma;
  const colour = Number.isNaN(byColour) ? byLuma : byColour;
  shares[2 * k] = Number.isNaN(luma) ? 1 : Math.max(0, Math.min(1, luma));
  shares[2 * k + 1] = Number.isNaN(colour) ? 1 : Math.max(0, Math.min(1, colour));
};

/**
 * Takes what stands upright before the ball of `view` off the cells of `patch` beside it: the lens and the picture's coarser colours mix it into them, and above and below the ball it is seen how much.
 */
export const unmixColumns = (raster: Raster, patch: Patch, view: BallView, known: LawnColour): void => {
  if (patch.cell !== 1) return;
  const reach = 2.2 * view.radius + 4;
  const columns = measureColumns(raster, view, reach);
  if (columns === null) return;
  const { left, count } = columns;
  let others = 0;
  for (let k = 0; k < count; k++) {
    other[k] = isOther(means, 3 * k, known) ? 1 : 0;
    others += other[k]!;
  }
  if (others < 2 || others > 0.85 * count) return;
  const things = new Int16Array(count);
  for (let k = 0; k < count; k++) {
    const thing = nearestWhole(k, 1, count);
    const lawn = nearestWhole(k, 0, count);
    things[k] = thing;
    if (thing < 0 || lawn < 0) {
      things[k] = -1;
      continue;
    }
    setShares(k, thing, lawn);
  }
  for (let i = 0; i < patch.count; i++) {
    const k = Math.floor(patch.x[i]!) - left;
    if (k < 0 || k >= count || things[k]! < 0) continue;
    const luma = shares[2 * k]!;
    const colour = shares[2 * k + 1]!;
    const most = Math.max(luma, colour);
    if (most < HARDLY) continue;
    if (most > MOSTLY) {
      patch.trust[i] = 0;
      continue;
    }
    const thing = 3 * things[k]!;
    for (let c = 0; c < 3; c++) {
      const share = c === 0 ? luma : colour;
      cell[c] = (patch.values[3 * i + c]! - share * means[thing + c]!) / (1 - share);
    }
    patch.values.set(cell, 3 * i);
    patch.trust[i] = patch.trust[i]! * (1 - most) ** 2;
  }
};

import type { Raster } from '../types.ts';
import { writeYcc } from '../ycc.ts';
import type { BallView } from './ball-view.ts';
import { clearRadii, isThing } from './hidden-columns.ts';
import type { LawnColour } from './lawn-colour.ts';
import { leanOf, shiftStrips } from './lean.ts';
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
/** Columns that show something else than lawn: fewer are grain, and more than this share is other ground. */
const LEAST = 2;
const TOO_MUCH = 0.85;
/** How far to either side of the ball columns are looked at, radii and px. */
const ASIDE = 2.2;
const ASIDE_PX = 4;
/** Px from the thing's edge from which a column is only thing, and only lawn: what is half a dark thing may still look like lawn in shade. */
const WHOLE = { thing: 2, lawn: 4 } as const;

/** Means of each column above and below the ball, Y, Cb, Cr. */
const above = new Float64Array(3 * MOST);
const below = new Float64Array(3 * MOST);
const other = new Uint8Array(MOST);
/** Shares of each column that are the thing, by luma and by colour. */
const shares = new Float64Array(2 * MOST);
const things = new Int16Array(MOST);

/** The columns of px about a ball: the first one's left edge, px, how many, and how far apart the strips above and below are, px. */
type Columns = { readonly left: number; readonly count: number; readonly between: number };

const measureStrip = (
  raster: Raster,
  { left, count }: Columns,
  top: number,
  bottom: number,
  out: Float64Array,
): void => {
  const n = bottom - top;
  for (let k = 0; k < count; k++) {
    let [r, g, b] = [0, 0, 0];
    for (let j = top; j < bottom; j++) {
      const p = (j * raster.width + left + k) * 3;
      r += raster.data[p]!;
      g += raster.data[p + 1]!;
      b += raster.data[p + 2]!;
    }
    writeYcc(r / n, g / n, b / n, out, 3 * k);
  }
};

/** Means of the columns above and below the ball of `view`; null at the picture's edge. */
const measureColumns = (raster: Raster, { x, y, radius }: BallView): Columns | null => {
  const reach = ASIDE * radius + ASIDE_PX;
  const [left, count] = [Math.floor(x - reach), Math.min(MOST, Math.ceil(2 * reach) + 1)];
  const clear = Math.round(clearRadii(radius) * radius);
  const tall = Math.max(2, Math.round(STRIP * radius));
  const middle = Math.round(y);
  const [top, bottom] = [middle - clear - tall, middle + clear + tall];
  if (left < 0 || left + count > raster.width || top < 0 || bottom > raster.height) return null;
  const columns = { left, count, between: 2 * clear + tall };
  measureStrip(raster, columns, top, top + tall, above);
  measureStrip(raster, columns, bottom - tall, bottom, below);
  return columns;
};

/** Whether column `at` and those within `clear` px of it are all `kind`. */
const isWhole = (at: number, kind: number, clear: number, count: number): boolean => {
  for (let i = Math.max(0, at - clear); i <= Math.min(count - 1, at + clear); i++)
    if (other[i] !== kind) return false;
  return true;
};

/** The nearest column to `k` that is `kind` (1 another thing, 0 lawn) with all within `clear` px of it; −1 when there is none. */
const nearestWhole = (k: number, kind: number, clear: number, count: number): number => {
  for (let away = 0; away < count; away++) {
    if (k - away >= 0 && isWhole(k - away, kind, clear, count)) return k - away;
    if (k + away < count && isWhole(k + away, kind, clear, count)) return k + away;
  }
  return -1;
};

const NEITHER = Number.NaN;

/** Share of column `k` of a strip that shows what its column `thing` shows, before what column `lawn` shows: by luma. NaN where the two are as bright. */
const lumaShare = (strip: Float64Array, k: number, thing: number, lawn: number): number => {
  const step = strip[3 * thing]! - strip[3 * lawn]!;
  return Math.abs(step) < LUMA_TELLS ? NEITHER : (strip[3 * k]! - strip[3 * lawn]!) / step;
};

/** The same by colour. NaN where the two have the same. */
const colourShare = (strip: Float64Array, k: number, thing: number, lawn: number): number => {
  const blue = strip[3 * thing + 1]! - strip[3 * lawn + 1]!;
  const red = strip[3 * thing + 2]! - strip[3 * lawn + 2]!;
  const square = blue * blue + red * red;
  if (square < COLOUR_TELLS * COLOUR_TELLS) return NEITHER;
  return (
    ((strip[3 * k + 1]! - strip[3 * lawn + 1]!) * blue + (strip[3 * k + 2]! - strip[3 * lawn + 2]!) * red) /
    square
  );
};

/** `own`, or `instead` where that tells nothing, between nothing and all. */
const shareOf = (own: number, instead: number): number => {
  const share = Number.isNaN(own) ? instead : own;
  return Number.isNaN(share) ? 1 : Math.max(0, Math.min(1, share));
};

/** By how much more than where less of it shows the thing may cover a column, on average over above and below: legs taper and lean. */
const LEANS = 0.25;

const pooled = (a: number, b: number): number => Math.min((a + b) / 2, Math.min(a, b) + LEANS);

/** How much of column `k` the thing is: what it is both above and below the ball. */
const setShares = (k: number, thing: number, lawn: number): void => {
  const lumaAbove = lumaShare(above, k, thing, lawn);
  const lumaBelow = lumaShare(below, k, thing, lawn);
  const colourAbove = colourShare(above, k, thing, lawn);
  const colourBelow = colourShare(below, k, thing, lawn);
  shares[2 * k] = pooled(shareOf(lumaAbove, colourAbove), shareOf(lumaBelow, colourBelow));
  shares[2 * k + 1] = pooled(shareOf(colourAbove, lumaAbove), shareOf(colourBelow, lumaBelow));
};

/** Differences of luma and of colour, grey levels, up to which what is seen above the ball and below it may be one thing. */
const ALIKE = { luma: 40, colour: 15 } as const;

/** Whether column `k` shows the same thing above and below the ball: a jacket above and trousers below are no leg that goes on. */
const isOneThing = (k: number): boolean =>
  k >= 0 &&
  Math.abs(above[3 * k]! - below[3 * k]!) <= ALIKE.luma &&
  Math.hypot(above[3 * k + 1]! - below[3 * k + 1]!, above[3 * k + 2]! - below[3 * k + 2]!) <= ALIKE.colour;

/** Marks the columns that show something else than lawn both above and below the ball, and counts them. */
const markOthers = (count: number, known: LawnColour): number => {
  let others = 0;
  for (let k = 0; k < count; k++) {
    other[k] = isThing(above, 3 * k, known) && isThing(below, 3 * k, known) ? 1 : 0;
    others += other[k]!;
  }
  return others;
};

/**
 * Finds what stands before the ball: works out `things` and `shares` of the columns as they are at the ball's middle. Returns by how many px it leans to the right for each px upwards; null when there is
 * nothing.
 */
const findThings = ({ count, between }: Columns, known: LawnColour): number | null => {
  if (!anyThing(above, count, known) || !anyThing(below, count, known)) return null;
  const shift = leanOf(above, below, count);
  shiftStrips(above, below, count, shift);
  const others = markOthers(count, known);
  if (others < LEAST || others > TOO_MUCH * count) return null;
  for (let k = 0; k < count; k++) {
    things[k] = nearestWhole(k, 1, WHOLE.thing, count);
    const lawn = nearestWhole(k, 0, WHOLE.lawn, count);
    if (lawn < 0 || !isOneThing(things[k]!)) things[k] = -1;
    if (things[k]! >= 0) setShares(k, things[k]!, lawn);
  }
  return shift / between;
};

const anyThing = (strip: Float64Array, count: number, known: LawnColour): boolean => {
  for (let k = 0; k < count; k++) if (isThing(strip, 3 * k, known)) return true;
  return false;
};

/** Takes the thing of column `k` off cell `i`. */
const unmix = (patch: Patch, i: number, k: number): void => {
  const thing = 3 * things[k]!;
  const most = Math.max(shares[2 * k]!, shares[2 * k + 1]!);
  if (most < HARDLY) return;
  if (most > MOSTLY) {
    patch.trust[i] = 0;
    return;
  }
  for (let c = 0; c < 3; c++) {
    const share = shares[2 * k + (c === 0 ? 0 : 1)]!;
    const colour = (above[thing + c]! + below[thing + c]!) / 2;
    patch.values[3 * i + c] = (patch.values[3 * i + c]! - share * colour) / (1 - share);
  }
  patch.trust[i] = patch.trust[i]! * (1 - most) ** 2;
};

/**
 * Takes what stands upright before the ball of `view` – a leg, which may lean, a wire, a pole – off the cells of `patch` beside it: lens and picture mix it into them, colour farther than luma, and above and below
 * the ball it is seen how much. Cells that hardly show anything else are distrusted.
 */
export const unmixColumns = (raster: Raster, patch: Patch, view: BallView, known: LawnColour): void => {
  if (patch.cell !== 1) return;
  const columns = measureColumns(raster, view);
  const lean = columns && findThings(columns, known);
  if (columns === null || lean === null) return;
  for (let i = 0; i < patch.count; i++) {
    const k = Math.floor(patch.x[i]! + lean * (patch.y[i]! - view.y)) - columns.left;
    if (k >= 0 && k < columns.count && things[k]! >= 0) unmix(patch, i, k);
  }
};

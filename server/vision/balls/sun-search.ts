import { factor, solveFactored } from '../small-solve.ts';
import type { BallView } from './ball-view.ts';
import { blurAtEdge, type EdgeBlur } from './edge-blur.ts';
import { columnPriors } from './fit-priors.ts';
import { type OutlineFit, sunkBy } from './outline-shape.ts';
import type { Patch } from './patch.ts';
import { rowProducts } from './row-products.ts';
import {
  type BallLight,
  ballLight,
  baseColumns,
  COLUMN,
  COLUMNS,
  type Direction,
  LOGISTIC,
  type Sun,
  shadowAt,
  sunAt,
} from './shading.ts';
import { ANY_DEPTH, pooledDepth, type ShadowDepth, seenDepth } from './shadow-depth.ts';
import { darkUnder, litAt, skyAt } from './sky-light.ts';
import { addedAt } from './tone-bend.ts';

/** A ball whose outline is known well enough to ask where its light comes from. */
export type LitBall = { readonly patch: Patch; readonly view: BallView; readonly fit: OutlineFit };

/** Azimuths and elevations that are tried first, radians; then the best one's neighbours. */
const AZIMUTHS = 12;
const ELEVATIONS = [0.35, 0.8] as const;
const FINE = 0.26;
/** Balls that are asked: the largest ones show most. */
const MOST_BALLS = 8;
/** Cells of a ball's patch that are asked. */
const MOST_CELLS = 240;
/**
 * Drop of the summed misfit (half χ²) below which the picture shows no sun: a sun has two free angles and a strength a ball, and 26 places
 * are tried; texture makes each cell's share some three times too large.
 */
const LEAST_GAIN = 40;

/** Farther than this from the middle nothing is asked, radii. */
const FARTHEST = 2.4;
/** Cells of which ball and lawn both have more than this share are not asked: the outline of a first fit is not settled, and what it misses there would speak for a sun. */
const ON_EDGE = 0.35;
/** Variance of a ball's own luma, grey levels squared: the picture's noise on a smooth ball. */
const OWN_VARIANCE = 9;

/** The columns of luma that tell of light, and their rows; the values have row VALUES. Those after it depend on the sun. */
const USED = [COLUMN.even, COLUMN.lawn, COLUMN.above, COLUMN.under, COLUMN.lit, COLUMN.shadow] as const;
const ROW_OF = [0, 1, 3, 4, 5, 6] as const;
const VALUES = 2;
const ROWS = 7;
const SIZE = USED.length;
const SHADOW = USED.indexOf(COLUMN.shadow);

/** A ball with all that no sun changes worked out: rows of the linear model and their products, and where its cells lie. */
type Asked = {
  readonly ball: LitBall;
  readonly variance: number;
  readonly pace: number;
  readonly count: number;
  readonly pitch: number;
  readonly rows: Float64Array;
  readonly products: Float64Array;
  /** Eight numbers a cell: share of the ball, normal (away, aside, up), place on the ground (away, aside), 1 + its square, and the share of sky that is hidden there. */
  readonly cells: Float64Array;
};
const CELL = 8;

const edgeBlur: EdgeBlur = { inward: 0, outward: 0, spread: 0 };
const base = new Float64Array(COLUMNS);
const matrix = new Float64Array(SIZE * SIZE);
const right = new Float64Array(SIZE);
const held = new Float64Array(SIZE);
const mean = new Float64Array(COLUMNS);
const precision = new Float64Array(COLUMNS);

const prepare = (ball: LitBall): Asked => {
  const { patch, view, fit } = ball;
  const light = ballLight(view, null);
  const { sinDown, cosDown } = light;
  const det = view.ax * view.by - view.ay * view.bx;
  const pace = Math.max(1, Math.ceil(patch.count / MOST_CELLS));
  const pitch = Math.ceil(patch.count / pace);
  const rows = new Float64Array(ROWS * pitch);
  const cells = new Float64Array(CELL * pitch);
  const sunk = sunkBy(fit.blur, view.radius);
  let n = 0;
  for (let i = 0; i < patch.count; i += pace) {
    const dx = patch.x[i]! - fit.x;
    const dy = patch.y[i]! - fit.y;
    const u = (view.by * dx - view.bx * dy) / det;
    const v = (view.ax * dy - view.ay * dx) / det;
    const rho = Math.max(1e-6, Math.sqrt(u * u + v * v));
    if (rho > FARTHEST || patch.trust[i] === 0) continue;
    blurAtEdge(((rho - 1) * view.radius) / fit.blur, fit.blur / view.radius, edgeBlur);
    const hidden = baseColumns(light, u, v, rho, edgeBlur, base, 0);
    const w = 1 / (1 + Math.exp((LOGISTIC * ((rho - 1) * view.radius + sunk)) / fit.blur));
    if (w > ON_EDGE && w < 1 - ON_EDGE) continue;
    const { bend } = addedAt(fit, base, w, w);
    rows[n] = w;
    rows[pitch + n] = 1 - w;
    rows[VALUES * pitch + n] = patch.values[3 * i]! - bend[0]!;
    const [uu, vv] = [base[COLUMN.slopeDown]!, base[COLUMN.slopeSide]!];
    const towards = Math.sqrt(Math.max(0, 1 - uu * uu - vv * vv));
    const out = 1 + edgeBlur.outward / rho;
    const forward = (cosDown - u * out) / sinDown;
    const aside = v * out;
    cells.set(
      [
        w,
        -uu * sinDown - towards * cosDown,
        vv,
        -uu * cosDown + towards * sinDown,
        forward,
        aside,
        1 + forward * forward + aside * aside,
        hidden,
      ],
      CELL * n++,
    );
  }
  const products = new Float64Array(ROWS * ROWS);
  rowProducts(rows, rows, pitch, 0, VALUES + 1, n, products, ROWS);
  const variance = fit.noise.luma ** 2 + OWN_VARIANCE;
  return { ball, variance, pace, count: n, pitch, rows, products, cells };
};

/** Fills the rows that depend on the sun, under `light`, null without a sun, and their products. */
const shine = ({ count, pitch, rows, products, cells }: Asked, light: BallLight | null): void => {
  const [above, under, lit, shadow] = [3 * pitch, 4 * pitch, 5 * pitch, 6 * pitch];
  for (let k = 0, o = 0; k < count; k++, o += CELL) {
    const w = cells[o]!;
    const nz = cells[o + 3]!;
    const hidden = cells[o + 7]!;
    if (light === null) {
      rows[above + k] = w * skyAt(nz);
      rows[under + k] = (1 - w) * darkUnder(hidden);
      rows[lit + k] = 0;
      rows[shadow + k] = 0;
      continue;
    }
    const { sun } = light;
    const facing = Math.max(0, cells[o + 1]! * sun[0] + cells[o + 2]! * sun[1] + nz * sun[2]);
    rows[above + k] = w * skyAt(nz, facing);
    rows[lit + k] = w * litAt(facing);
    const along = cells[o + 4]! * sun[0] + cells[o + 5]! * sun[1] - sun[2];
    const miss = Math.sqrt(Math.max(0, cells[o + 6]! - along * along)) - 1;
    const shade = along < 0 && miss < SHADOW_ENDS ? shadowAt(miss) : 0;
    rows[shadow + k] = (1 - w) * shade;
    rows[under + k] = (1 - w) * darkUnder(hidden, light.sky, shade, light.depth);
  }
  rowProducts(rows, rows, pitch, VALUES + 1, ROWS, count, products, ROWS);
};
/** Radii outside a shadow's edge where nothing is left of it. */
const SHADOW_ENDS = 1;

/** Half the penalized χ² of the ball's luma under `sun`, its outline held. */
const misfit = (asked: Asked, sun: Direction | null): number => {
  const { ball, variance, pace, products } = asked;
  shine(asked, sun && ballLight(ball.view, { towards: sun, shadow: ANY_DEPTH }));
  columnPriors(ball.fit, 0, sun && ANY_DEPTH, mean, precision);
  let square = products[VALUES * ROWS + VALUES]!;
  for (let a = 0; a < SIZE; a++) {
    const [r, p, m] = [ROW_OF[a]!, precision[USED[a]!]! * variance, mean[USED[a]!]!];
    right[a] = products[r > VALUES ? r * ROWS + VALUES : VALUES * ROWS + r]! + p * m;
    for (let b = 0; b <= a; b++) matrix[a * SIZE + b] = products[r * ROWS + ROW_OF[b]!]!;
    matrix[a * SIZE + a] = matrix[a * SIZE + a]! + p;
    square += p * m * m;
  }
  held.set(right);
  if (!factor(matrix, SIZE)) return Number.POSITIVE_INFINITY;
  solveFactored(matrix, SIZE, right, 1);
  for (let k = 0; k < SIZE; k++) square -= held[k]! * right[k]!;
  return (pace * square) / (2 * variance);
};

/** Summed misfit; each ball may stand in shade instead, and none counts for more than a fixed share. */
const total = (balls: readonly Asked[], shaded: readonly number[], sun: Direction): number => {
  let sum = 0;
  for (let i = 0; i < balls.length; i++) sum += Math.min(shaded[i]!, misfit(balls[i]!, sun));
  return sum;
};

/** How deep the shadows are that those of `asked` cast which stand in the sun at `sun`; `shaded` are their misfits without one. */
const shadowsUnder = (sun: Direction, asked: readonly Asked[], shaded: readonly number[]): ShadowDepth[] => {
  const seen: ShadowDepth[] = [];
  for (let i = 0; i < asked.length; i++) {
    const { ball, variance, pace } = asked[i]!;
    if (misfit(asked[i]!, sun) >= shaded[i]!) continue;
    const coefficient = right[SHADOW]!;
    right.fill(0);
    right[SHADOW] = 1;
    solveFactored(matrix, SIZE, right, 1);
    const depth = seenDepth(coefficient, (right[SHADOW] * variance) / pace, ball.fit.lawn[0]!, ANY_DEPTH);
    if (depth !== null) seen.push(depth);
  }
  return seen;
};
/** Shadows that take less than this share of the lawn's brightness are no sun's: under an even sky a ball's own darkness about its foot looks like one. */
const LEAST_DEPTH = 0.1;

/** Where the sun stands and how deep its shadows are, from the shading and the shadows of `balls` together; null when they show none (overcast, or too few balls). */
export const findSun = (balls: readonly LitBall[]): Sun | null => {
  const asked = [...balls]
    .sort((a, b) => b.view.radius - a.view.radius)
    .slice(0, MOST_BALLS)
    .map(prepare);
  const shaded = asked.map((ball) => misfit(ball, null));
  const none = shaded.reduce((sum, value) => sum + value, 0);
  let best: Direction | null = null;
  let least = none - LEAST_GAIN;
  let [azimuth, elevation] = [0, 0];
  const attempt = (a: number, e: number): void => {
    const sun = sunAt(a, e);
    const cost = total(asked, shaded, sun);
    if (cost >= least) return;
    [best, least, azimuth, elevation] = [sun, cost, a, e];
  };
  for (let k = 0; k < AZIMUTHS; k++) for (const e of ELEVATIONS) attempt((2 * Math.PI * k) / AZIMUTHS, e);
  if (best === null) return null;
  for (const step of [FINE, FINE / 2]) {
    const [a, e] = [azimuth, elevation];
    for (let i = -1; i <= 1; i++)
      for (let j = -1; j <= 1; j++)
        if ((i !== 0 || j !== 0) && e + j * step > 0.1 && e + j * step < 1.4)
          attempt(a + i * step, e + j * step);
  }
  const shadow = pooledDepth(shadowsUnder(best, asked, shaded));
  return shadow.share < LEAST_DEPTH ? null : { towards: best, shadow };
};

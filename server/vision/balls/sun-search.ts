import type { BallView } from './ball-view.ts';
import { columnPriors } from './fit-priors.ts';
import type { OutlineFit } from './outline-shape.ts';
import type { Patch } from './patch.ts';
import { ballLight, baseColumns, COLUMN, COLUMNS, LOGISTIC, type Sun, sunAt } from './shading.ts';
import { factor, solveFactored } from './small-solve.ts';

/** A ball whose outline is known well enough to ask where its light comes from. */
export type LitBall = { readonly patch: Patch; readonly view: BallView; readonly fit: OutlineFit };

/** Azimuths and elevations that are tried first, radians; then the best one's neighbours. */
const AZIMUTHS = 12;
const ELEVATIONS = [0.35, 0.8] as const;
const FINE = 0.26;
/** Balls that are asked: the largest ones show most. */
const MOST_BALLS = 8;
/** Cells of a ball's patch that are asked. */
const MOST_CELLS = 320;
/**
 * Drop of the summed misfit (half χ²) below which the picture shows no sun: a sun has two free angles and a strength a ball, and 26 places
 * are tried; texture makes each cell's share some three times too large.
 */
const LEAST_GAIN = 40;

/** The columns of luma that tell of light: even, lit, from above; lawn, under the ball, shadow. */
const USED = [COLUMN.even, COLUMN.lit, COLUMN.above, COLUMN.lawn, COLUMN.under, COLUMN.shadow] as const;
const SIZE = USED.length;

const base = new Float64Array(COLUMNS);
const matrix = new Float64Array(SIZE * SIZE);
const right = new Float64Array(SIZE);
const held = new Float64Array(SIZE);
const column = new Float64Array(SIZE);
const mean = new Float64Array(COLUMNS);
const precision = new Float64Array(COLUMNS);

/** Half the penalized χ² of the ball's luma under `sun`, its outline held. */
const misfit = ({ patch, view, fit }: LitBall, sun: Sun | null): number => {
  const light = ballLight(view, sun);
  const det = view.ax * view.by - view.ay * view.bx;
  const pace = Math.max(1, Math.ceil(patch.count / MOST_CELLS));
  const variance = fit.noise.luma ** 2 + 9;
  matrix.fill(0);
  right.fill(0);
  let square = 0;
  for (let i = 0; i < patch.count; i += pace) {
    const dx = patch.x[i]! - fit.x;
    const dy = patch.y[i]! - fit.y;
    const u = (view.by * dx - view.bx * dy) / det;
    const v = (view.ax * dy - view.ay * dx) / det;
    const rho = Math.max(1e-6, Math.sqrt(u * u + v * v));
    if (rho > 2.4) continue;
    baseColumns(light, u, v, rho, base, 0);
    const w = 1 / (1 + Math.exp((LOGISTIC * (rho - 1) * view.radius) / fit.blur));
    for (let k = 0; k < SIZE; k++) column[k] = (k < 3 ? w : 1 - w) * base[USED[k]!]!;
    const y = patch.values[3 * i]!;
    square += y * y;
    for (let a = 0; a < SIZE; a++) {
      right[a] = right[a]! + column[a]! * y;
      for (let b = 0; b <= a; b++) matrix[a * SIZE + b] = matrix[a * SIZE + b]! + column[a]! * column[b]!;
    }
  }
  columnPriors(fit, 0, sun !== null, mean, precision);
  for (let k = 0; k < SIZE; k++) {
    const p = precision[USED[k]!]! * variance;
    const m = mean[USED[k]!]!;
    matrix[k * SIZE + k] = matrix[k * SIZE + k]! + p;
    right[k] = right[k]! + p * m;
    square += p * m * m;
  }
  held.set(right);
  if (!factor(matrix, SIZE)) return Number.POSITIVE_INFINITY;
  solveFactored(matrix, SIZE, right, 1);
  for (let k = 0; k < SIZE; k++) square -= held[k]! * right[k]!;
  return (pace * square) / (2 * variance);
};

/** Summed misfit; each ball may stand in shade instead, and none counts for more than a fixed share. */
const total = (balls: readonly LitBall[], shaded: readonly number[], sun: Sun): number =>
  balls.reduce((sum, ball, i) => sum + Math.min(shaded[i]!, misfit(ball, sun)), 0);

/** Where the sun stands, from the shading and the shadows of `balls` together; null when they show none (overcast, or too few balls). */
export const findSun = (balls: readonly LitBall[]): Sun | null => {
  const asked = [...balls].sort((a, b) => b.view.radius - a.view.radius).slice(0, MOST_BALLS);
  const shaded = asked.map((ball) => misfit(ball, null));
  const none = shaded.reduce((sum, value) => sum + value, 0);
  let best: Sun | null = null;
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
  return best;
};

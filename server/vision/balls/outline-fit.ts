import type { BallView } from './ball-view.ts';
import { columnPriors } from './fit-priors.ts';
import { type FitWorkspace, reserve, SHAPE } from './fit-workspace.ts';
import { type CellNoise, cellVariances, estimateNoise, startColours } from './noise-model.ts';
import type { Patch } from './patch.ts';
import { BALL_COLUMNS, ballLight, baseColumns, COLUMNS, type Sun } from './shading.ts';
import { factor, solveFactored } from './small-solve.ts';

/** What a fit is told about the picture. */
export type FitSetting = {
  /** The sun, when the picture shows where it stands. */
  readonly sun: Sun | null;
  /** Expected blur of luma edges and what colour edges have on top of it, px (one standard deviation of the blur). */
  readonly blur: number;
  readonly colourBlur: number;
  /** Most steps. */
  readonly steps: number;
};

/** Blur of a phone's luma after demosaicing and sharpening, and of its colour after noise reduction and halving, px. Common practice, no source; each fit corrects them. */
export const TYPICAL_BLUR = 0.75;
export const TYPICAL_COLOUR_BLUR = 1.3;
/** Spreads of ln blur. */
const LN_BLUR_SD = 0.3;
const LN_COLOUR_BLUR_SD = 0.4;
/** Spread of the seen radius about the predicted one, px: tone curve and sharpening move an edge by that much. */
export const RADIUS_SD = 0.07;
/** Degrees of freedom of the t distribution that residuals are taken from: blades, gloss and neighbours are its tail. */
const TAIL = 4;
/** Blur added in the first step, in radii, and the steps over which it is taken back. */
const COARSE = 0.4;
const COARSE_STEPS = 3;
/** A step below this ends the fit, px. */
const SETTLED = 0.01;

/** A ball's outline fitted to a patch. */
export type OutlineFit = {
  /** Middle of the outline, px, and its covariance (xx, xy, yy) from the fit alone, px². */
  x: number;
  y: number;
  xx: number;
  xy: number;
  yy: number;
  /** Radius that the picture alone would choose minus the predicted one, px, and its standard deviation. */
  radiusOffset: number;
  radiusSd: number;
  blur: number;
  colourBlur: number;
  /** Mean colours (Y, Cb, Cr) of the ball's even part half lit, and of the lawn beside it. */
  readonly ball: Float64Array;
  readonly lawn: Float64Array;
  /** Coefficients of the COLUMNS, channel by channel. */
  readonly coefficients: Float64Array;
  noise: CellNoise;
  /** Mean of the robust misfit over the cells. */
  misfit: number;
  steps: number;
};

/** Where the outline is and how it is blurred, while a fit runs. */
type Shape = {
  x: number;
  y: number;
  grow: number;
  lnBlur: number;
  lnColour: number;
  /** Blur added in the first steps, px: it widens the range from which the outline is found. */
  extra: number;
};

/** Logistic slope that comes nearest to a blurred step. */
const LOGISTIC = 1.702;

/** Inverse of the outline's axes: (u, v) = inverse · (px from its middle). */
const inverseAxes = (view: BallView): readonly [number, number, number, number] => {
  const det = view.ax * view.by - view.ay * view.bx;
  return [view.by / det, -view.bx / det, -view.ay / det, view.ax / det];
};

/** Fills the workspace's geometry for the outline `shape`. */
const placeCells = (
  patch: Patch,
  view: BallView,
  setting: FitSetting,
  shape: Shape,
  space: FitWorkspace,
): void => {
  const light = ballLight(view, setting.sun);
  const [iux, iuy, ivx, ivy] = inverseAxes(view);
  const [blurY, blurC] = blurs(patch, shape);
  const { base, cover, coverColour, distance, normalX, normalY, rho, down, side } = space;
  for (let i = 0; i < patch.count; i++) {
    const dx = patch.x[i]! - shape.x;
    const dy = patch.y[i]! - shape.y;
    const u = iux * dx + iuy * dy;
    const v = ivx * dx + ivy * dy;
    const r = Math.max(1e-6, Math.sqrt(u * u + v * v));
    const gx = (iux * u + ivx * v) / r;
    const gy = (iuy * u + ivy * v) / r;
    const g = Math.sqrt(gx * gx + gy * gy);
    const s = (r - 1) / g - shape.grow;
    down[i] = u;
    side[i] = v;
    rho[i] = r;
    distance[i] = s;
    normalX[i] = gx / g;
    normalY[i] = gy / g;
    cover[i] = 1 / (1 + Math.exp((LOGISTIC * s) / blurY));
    coverColour[i] = 1 / (1 + Math.exp((LOGISTIC * s) / blurC));
    baseColumns(light, u, v, r, base, i * COLUMNS);
  }
};

/** Total blurs of luma and colour in px: averaging cells adds a box of their size. */
const blurs = (patch: Patch, shape: Shape): readonly [number, number] => {
  const box = patch.cell > 1 ? (patch.cell * patch.cell) / 12 : 0;
  const luma2 = Math.exp(2 * shape.lnBlur) + box + shape.extra * shape.extra;
  return [Math.sqrt(luma2), Math.sqrt(luma2 + Math.exp(2 * shape.lnColour))];
};

const col = new Float64Array(COLUMNS);
const slope = new Float64Array(SHAPE);
const variances = new Float64Array(4);

/** Adds one cell of one channel: `w` coverage, `precision` its weight, `value` what is seen; the matrix only when `into` is given. */
const addCell = (
  into: Float64Array | null,
  rhs: Float64Array,
  space: FitWorkspace,
  i: number,
  w: number,
  precision: number,
  value: number,
  slopes: number,
): void => {
  const { base, shape, shapeRhs } = space;
  const o = i * COLUMNS;
  for (let k = 0; k < BALL_COLUMNS; k++) col[k] = w * base[o + k]!;
  for (let k = BALL_COLUMNS; k < COLUMNS; k++) col[k] = (1 - w) * base[o + k]!;
  // Far from the outline half the columns vanish: skip them.
  const first = w < 1e-3 ? BALL_COLUMNS : 0;
  const last = w > 0.999 ? BALL_COLUMNS : COLUMNS;
  for (let a = first; a < last; a++) {
    const pa = precision * col[a]!;
    rhs[a] = rhs[a]! + pa * value;
    for (let g = 0; g < slopes; g++) {
      const at = (g + 1) * COLUMNS + a;
      rhs[at] = rhs[at]! + pa * slope[g]!;
    }
    if (into === null) continue;
    const row = a * COLUMNS;
    for (let b = first; b <= a; b++) into[row + b] = into[row + b]! + pa * col[b]!;
  }
  for (let a = 0; a < slopes; a++) {
    const pa = precision * slope[a]!;
    shapeRhs[a] = shapeRhs[a]! + pa * value;
    for (let b = 0; b <= a; b++) shape[a * SHAPE + b] = shape[a * SHAPE + b]! + pa * slope[b]!;
  }
};

/** Slopes of one cell's value by the shape, for a step of height `contrast` between ball and lawn. */
const setSlopes = (
  space: FitWorkspace,
  i: number,
  w: number,
  blur: number,
  contrast: number,
  lumaPart: number,
  colourPart: number,
): void => {
  const p = ((contrast * LOGISTIC) / blur) * w * (1 - w);
  slope[0] = p * space.normalX[i]!;
  slope[1] = p * space.normalY[i]!;
  slope[2] = p;
  const byBlur = (p * space.distance[i]!) / (blur * blur);
  slope[3] = byBlur * lumaPart;
  slope[4] = byBlur * colourPart;
};

/** Normal equations of all cells. */
const accumulate = (patch: Patch, shape: Shape, fit: OutlineFit, space: FitWorkspace): void => {
  const { luma, colour, rhs, cover, coverColour, weight, contrast } = space;
  for (const a of [luma, colour, ...rhs, space.shape, space.shapeRhs]) a.fill(0);
  const [blurY, blurC] = blurs(patch, shape);
  const lumaPart = Math.exp(2 * shape.lnBlur);
  const colourPart = Math.exp(2 * shape.lnColour);
  for (let i = 0; i < patch.count; i++) {
    cellVariances(patch, space, i, fit, blurC, variances);
    const w = cover[i]!;
    setSlopes(space, i, w, blurY, contrast[3 * i]!, lumaPart, 0);
    addCell(luma, rhs[0], space, i, w, weight[i]! / variances[0]!, patch.values[3 * i]!, SHAPE - 1);
    const wc = coverColour[i]!;
    const precision = weight[i]! / variances[1]!;
    for (let c = 1; c < 3; c++) {
      setSlopes(space, i, wc, blurC, contrast[3 * i + c]!, lumaPart, colourPart);
      addCell(
        c === 1 ? colour : null,
        rhs[c as 1 | 2],
        space,
        i,
        wc,
        precision,
        patch.values[3 * i + c]!,
        SHAPE,
      );
    }
  }
};

const priorMean = new Float64Array(COLUMNS);
const priorPrecision = new Float64Array(COLUMNS);
const factored = new Float64Array(COLUMNS * COLUMNS);

/** Eliminates the columns of every channel, which leaves equations for the shape alone; `rhs` then holds the columns' solutions. */
const eliminate = (fit: OutlineFit, sunny: boolean, space: FitWorkspace): boolean => {
  const { rhs, raw, shape, shapeRhs } = space;
  for (let c = 0; c < 3; c++) {
    const r = rhs[c as 0 | 1 | 2];
    columnPriors(fit, c, sunny, priorMean, priorPrecision);
    factored.set(c === 0 ? space.luma : space.colour);
    for (let k = 0; k < COLUMNS; k++) {
      factored[k * COLUMNS + k] = factored[k * COLUMNS + k]! + priorPrecision[k]!;
      r[k] = r[k]! + priorPrecision[k]! * priorMean[k]!;
    }
    raw.set(r);
    if (!factor(factored, COLUMNS)) return false;
    solveFactored(factored, COLUMNS, r, 1 + SHAPE);
    for (let a = 0; a < SHAPE; a++) {
      shapeRhs[a] = shapeRhs[a]! - dot(raw, (a + 1) * COLUMNS, r, 0);
      for (let b = 0; b <= a; b++)
        shape[a * SHAPE + b] = shape[a * SHAPE + b]! - dot(raw, (a + 1) * COLUMNS, r, (b + 1) * COLUMNS);
    }
  }
  return true;
};

const dot = (a: Float64Array, ai: number, b: Float64Array, bi: number): number => {
  let sum = 0;
  for (let k = 0; k < COLUMNS; k++) sum += a[ai + k]! * b[bi + k]!;
  return sum;
};

const shapeCopy = new Float64Array(SHAPE * SHAPE);
/** Step, then the columns of the covariance that are read: x, y and radius. */
const answers = new Float64Array(SHAPE * 4);

/** Solves for the shape's step with a radius prior of `radiusSd`. */
const solveShape = (shape: Shape, setting: FitSetting, radiusSd: number, space: FitWorkspace): boolean => {
  shapeCopy.set(space.shape);
  answers.fill(0);
  answers.set(space.shapeRhs);
  const prior = (k: number, sd: number, off: number): void => {
    shapeCopy[k * SHAPE + k] = shapeCopy[k * SHAPE + k]! + 1 / (sd * sd);
    answers[k] = answers[k]! - off / (sd * sd);
  };
  prior(2, radiusSd, shape.grow);
  prior(3, LN_BLUR_SD, shape.lnBlur - Math.log(setting.blur));
  prior(4, LN_COLOUR_BLUR_SD, shape.lnColour - Math.log(setting.colourBlur));
  answers[SHAPE] = 1;
  answers[2 * SHAPE + 1] = 1;
  answers[3 * SHAPE + 2] = 1;
  if (!factor(shapeCopy, SHAPE)) return false;
  solveFactored(shapeCopy, SHAPE, answers, 4);
  return true;
};

const limit = (value: number, most: number): number => Math.max(-most, Math.min(most, value));

/** Columns' coefficients after the step, colours from them, residuals and robust weights at the linearized step. */
const updateColumns = (patch: Patch, fit: OutlineFit, damp: number, space: FitWorkspace): void => {
  const { rhs } = space;
  for (let c = 0; c < 3; c++) {
    const r = rhs[c as 0 | 1 | 2];
    for (let k = 0; k < COLUMNS; k++) {
      let q = r[k]!;
      for (let g = 0; g < SHAPE; g++) q -= damp * r[(g + 1) * COLUMNS + k]! * answers[g]!;
      fit.coefficients[c * COLUMNS + k] = q;
    }
  }
  weighCells(patch, fit, damp, space);
  for (let c = 0; c < 3; c++) {
    fit.ball[c] = fit.coefficients[c * COLUMNS]! + 0.5 * fit.coefficients[c * COLUMNS + 1]!;
    fit.lawn[c] = fit.coefficients[c * COLUMNS + BALL_COLUMNS]!;
  }
};

/** What the model shows at cell `i` in channel `c`. */
export const modelValue = (fit: OutlineFit, space: FitWorkspace, i: number, c: number): number => {
  const w = c === 0 ? space.cover[i]! : space.coverColour[i]!;
  return w * ballValue(fit, space, i, c) + (1 - w) * lawnValue(fit, space, i, c);
};

/** What the ball alone would show at cell `i` in channel `c`. */
export const ballValue = (fit: OutlineFit, space: FitWorkspace, i: number, c: number): number => {
  let sum = 0;
  for (let k = 0; k < BALL_COLUMNS; k++)
    sum += space.base[i * COLUMNS + k]! * fit.coefficients[c * COLUMNS + k]!;
  return sum;
};

/** What the lawn alone would show at cell `i` in channel `c`. */
export const lawnValue = (fit: OutlineFit, space: FitWorkspace, i: number, c: number): number => {
  let sum = 0;
  for (let k = BALL_COLUMNS; k < COLUMNS; k++)
    sum += space.base[i * COLUMNS + k]! * fit.coefficients[c * COLUMNS + k]!;
  return sum;
};

const weighCells = (patch: Patch, fit: OutlineFit, damp: number, space: FitWorkspace): void => {
  let total = 0;
  const [sx, sy, sr] = [damp * answers[0]!, damp * answers[1]!, damp * answers[2]!];
  const sharp = LOGISTIC / fit.blur;
  const soft = LOGISTIC / Math.hypot(fit.blur, fit.colourBlur);
  for (let i = 0; i < patch.count; i++) {
    const move = sx * space.normalX[i]! + sy * space.normalY[i]! + sr;
    cellVariances(patch, space, i, fit, 1, variances);
    let r2 = 0;
    for (let c = 0; c < 3; c++) {
      const w = c === 0 ? space.cover[i]! : space.coverColour[i]!;
      const lawn = lawnValue(fit, space, i, c);
      const step = ballValue(fit, space, i, c) - lawn;
      const moved = w + (c === 0 ? sharp : soft) * w * (1 - w) * move;
      const q = patch.values[3 * i + c]! - lawn - moved * step;
      space.contrast[3 * i + c] = step;
      space.residual[3 * i + c] = q;
      r2 += (q * q) / variances[c === 0 ? 2 : 3]!;
    }
    space.weight[i] = (patch.trust[i]! * (TAIL + 3)) / (TAIL + r2);
    total += patch.trust[i]! * ((TAIL + 3) / 2) * Math.log(1 + r2 / TAIL);
  }
  fit.misfit = total / patch.count;
};

/**
 * Fits the outline of `view` to `patch`: only its place is free, besides a little of its radius, the blur, and what light does to ball and lawn.
 * Gauss and Newton's steps with the columns eliminated exactly; cells are weighed by a t distribution. Null when the patch is too small or the fit runs
 * away. The workspace is left as the last step saw it.
 */
export const fitOutline = (
  patch: Patch,
  view: BallView,
  setting: FitSetting,
  space: FitWorkspace,
): OutlineFit | null => {
  reserve(space, patch.count);
  const shape: Shape = {
    x: view.x,
    y: view.y,
    grow: 0,
    lnBlur: Math.log(setting.blur),
    lnColour: Math.log(setting.colourBlur),
    extra: COARSE * view.radius,
  };
  placeCells(patch, view, setting, shape, space);
  const fit = startFit(patch, setting, space);
  if (fit === null) return null;
  space.weight.set(patch.trust);
  for (let k = 0; k < 3 * patch.count; k++) space.contrast[k] = fit.ball[k % 3]! - fit.lawn[k % 3]!;
  const farthest = view.radius + 1;
  for (fit.steps = 1; fit.steps <= setting.steps; fit.steps++) {
    shape.extra = COARSE * view.radius * Math.max(0, 1 - (fit.steps - 1) / COARSE_STEPS);
    if (fit.steps > 1) placeCells(patch, view, setting, shape, space);
    accumulate(patch, shape, fit, space);
    if (!eliminate(fit, setting.sun !== null, space) || !solveShape(shape, setting, RADIUS_SD, space))
      return null;
    const length = Math.hypot(answers[0]!, answers[1]!);
    const most = 0.4 * view.radius + 0.3;
    const damp = length > most ? most / length : 1;
    fit.blur = Math.exp(shape.lnBlur);
    fit.colourBlur = Math.exp(shape.lnColour);
    updateColumns(patch, fit, damp, space);
    shape.x += damp * answers[0]!;
    shape.y += damp * answers[1]!;
    shape.grow += limit(answers[2]!, 0.3);
    shape.lnBlur += limit(answers[3]!, 0.3);
    shape.lnColour += limit(answers[4]!, 0.3);
    if (Math.hypot(shape.x - view.x, shape.y - view.y) > farthest) return null;
    if (fit.steps === 3) fit.noise = estimateNoise(patch, space, fit.noise);
    if (fit.steps > 4 && length < SETTLED) break;
  }
  return finish(fit, shape, setting, space);
};

const startFit = (patch: Patch, setting: FitSetting, space: FitWorkspace): OutlineFit | null => {
  const start = startColours(patch, space);
  return start === null
    ? null
    : {
        ...{ x: 0, y: 0, xx: 0, xy: 0, yy: 0, radiusOffset: 0, radiusSd: 0, misfit: 0, steps: 0 },
        blur: setting.blur,
        colourBlur: setting.colourBlur,
        coefficients: new Float64Array(3 * COLUMNS),
        ...start,
      };
};

/** Spread of a radius about which nothing is known, px. */
const ANY_RADIUS = 10;

const finish = (
  fit: OutlineFit,
  shape: Shape,
  setting: FitSetting,
  space: FitWorkspace,
): OutlineFit | null => {
  fit.x = shape.x;
  fit.y = shape.y;
  fit.xx = answers[SHAPE]!;
  fit.xy = answers[SHAPE + 1]!;
  fit.yy = answers[2 * SHAPE + 1]!;
  const grown = shape.grow;
  if (!solveShape(shape, setting, ANY_RADIUS, space)) return null;
  fit.radiusOffset = grown + answers[2]!;
  fit.radiusSd = Math.sqrt(answers[3 * SHAPE + 2]!);
  return fit;
};

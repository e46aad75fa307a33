import { factor, solveFactored } from '../small-solve.ts';
import { columnPriors } from './fit-priors.ts';
import { type FitWorkspace, SHAPE } from './fit-workspace.ts';
import type { FitSetting, OutlineFit, Shape } from './outline-shape.ts';
import { COLUMN, COLUMNS, type Sun } from './shading.ts';

const priorMean = new Float64Array(COLUMNS);
const priorPrecision = new Float64Array(COLUMNS);
const factored = new Float64Array(COLUMNS * COLUMNS);

/** Eliminates the columns of every channel, which leaves equations for the shape alone; `rhs` then holds the columns' solutions. */
export const eliminate = (fit: OutlineFit, sun: Sun | null, space: FitWorkspace): boolean => {
  const { rhs, raw, shape, shapeRhs } = space;
  for (let c = 0; c < 3; c++) {
    const r = rhs[c as 0 | 1 | 2];
    columnPriors(fit, c, sun?.shadow ?? null, priorMean, priorPrecision);
    factored.set(c === 0 ? space.luma : space.colour);
    for (let k = 0; k < COLUMNS; k++) {
      factored[k * COLUMNS + k] = factored[k * COLUMNS + k]! + priorPrecision[k]!;
      r[k] = r[k]! + priorPrecision[k]! * priorMean[k]!;
    }
    raw.set(r);
    if (!factor(factored, COLUMNS)) return false;
    solveFactored(factored, COLUMNS, r, 1 + SHAPE);
    if (c === 0 && sun !== null) shadowVariance = varianceOf(COLUMN.shadow);
    for (let a = 0; a < SHAPE; a++) {
      shapeRhs[a] = shapeRhs[a]! - dot(raw, (a + 1) * COLUMNS, r, 0);
      for (let b = 0; b <= a; b++)
        shape[a * SHAPE + b] = shape[a * SHAPE + b]! - dot(raw, (a + 1) * COLUMNS, r, (b + 1) * COLUMNS);
    }
  }
  return true;
};

/** Variance of the coefficient of the cast shadow in luma, grey levels squared, from the last elimination with a sun. */
export let shadowVariance = 0;

const unit = new Float64Array(COLUMNS);

/** Variance of column `k`'s coefficient from the factored normal matrix. */
const varianceOf = (k: number): number => {
  unit.fill(0);
  unit[k] = 1;
  solveFactored(factored, COLUMNS, unit, 1);
  return unit[k];
};

const dot = (a: Float64Array, ai: number, b: Float64Array, bi: number): number => {
  let sum = 0;
  for (let k = 0; k < COLUMNS; k++) sum += a[ai + k]! * b[bi + k]!;
  return sum;
};

const shapeCopy = new Float64Array(SHAPE * SHAPE);
/** Step, then the columns of the covariance that are read: x, y and radius. */
export const answers = new Float64Array(SHAPE * 4);

const addPrior = (k: number, sd: number, off: number): void => {
  shapeCopy[k * SHAPE + k] = shapeCopy[k * SHAPE + k]! + 1 / (sd * sd);
  answers[k] = answers[k]! - off / (sd * sd);
};

/** Solves for the shape's step with a radius prior of `radiusSd`. */
export const solveShape = (
  shape: Shape,
  setting: FitSetting,
  radiusSd: number,
  space: FitWorkspace,
): boolean => {
  shapeCopy.set(space.shape);
  answers.fill(0);
  answers.set(space.shapeRhs);
  addPrior(2, radiusSd, shape.grow);
  const { luma, colour, lnLumaSd, lnColourSd } = setting.blur;
  addPrior(3, lnLumaSd, shape.lnBlur - Math.log(luma));
  addPrior(4, lnColourSd, shape.lnColour - Math.log(colour));
  answers[SHAPE] = 1;
  answers[2 * SHAPE + 1] = 1;
  answers[3 * SHAPE + 2] = 1;
  if (!factor(shapeCopy, SHAPE)) return false;
  solveFactored(shapeCopy, SHAPE, answers, 4);
  return true;
};

import { minimise } from './levenberg-marquardt.ts';
import { measureSamples, placeFeet, type SampleColumns, standardized } from './line-observations.ts';
import { markSquares, tailCost, type WeighedMark, weighMark } from './mark-observations.ts';
import { allEquations, moveState, type RefineFit, type RefineTask } from './refine-task.ts';
import { biweight, biweightCost, coreSpread } from './robust-weights.ts';
import type { Camera } from './types.ts';

/** Rounds at most; each places the feet anew, reweighs and takes a few steps. */
const ROUNDS = 20;
/** Steps a round: weights change with every step, so more would be wasted. */
const STEPS = 2;
/** Settled when a round lowers the cost by less than this: a tenth of a standard deviation of the best-known combination of parameters. */
const SETTLED = 0.01;

/** Sets the robust weights from the residuals in `columns`: those beyond a few `scatter` are given up, the others count as `noise` times their own standard deviation. */
const reweigh = (columns: SampleColumns, scatter: number, noise: number): void => {
  for (let i = 0; i < columns.count; i++) {
    const { sd } = columns.samples[i]!;
    const value = columns.residual[i]! / sd;
    columns.weight[i] = Number.isNaN(value) ? 0 : biweight(value / scatter) / (sd * noise) ** 2;
  }
};

/** Marks are always weighed robustly here: where lines are traced they tell a slipped finger. */
const weighAll = (task: RefineTask, camera: Camera): WeighedMark[] =>
  task.marks.map((mark) =>
    weighMark(camera, mark, { markSd: task.markSd, unevenness: task.sd.height }, true),
  );

/** One round from `fit`: feet, residuals, weights, then least squares. */
const round = (
  task: RefineTask,
  fit: RefineFit,
  onTheWay: boolean,
): { readonly fit: RefineFit; readonly gain: number } => {
  const { camera, ground } = fit.state;
  const columns = placeFeet(fit.columns, camera, task.court, task.knots);
  measureSamples(camera, ground, columns, task.sd);
  const scatter = Math.max(1, coreSpread(standardized(columns)));
  reweigh(columns, scatter, onTheWay ? 1 : scatter);
  const weighted = { ...fit, columns, weighed: weighAll(task, camera), scatter };
  const { state, gain } = minimise(
    {
      assemble: (at: RefineFit['state']) => allEquations(task, weighted, at, camera.radial[0]),
      move: moveState,
    },
    fit.state,
    STEPS,
    SETTLED,
  );
  return { fit: { ...weighted, state }, gain };
};

/**
 * Rounds from `start` until weights and camera agree. On the way the scatter only says which samples to give up, and not how much the others
 * count: a start some px off makes it large, and if the lines counted for less because of it, marks and priors could hold the camera there.
 */
const rounds = (task: RefineTask, start: RefineFit, onTheWay: boolean): RefineFit => {
  let fit = start;
  for (let i = 0; i < ROUNDS; i++) {
    const before = fit.scatter;
    const next = round(task, fit, onTheWay);
    fit = next.fit;
    if (next.gain < SETTLED && Math.abs(fit.scatter - before) < SETTLED) break;
  }
  return fit;
};

/** The fit reached from a camera that may be many px off the lines: the approach, then rounds in which scattered lines count for less. */
export const approach = (task: RefineTask, start: RefineFit): RefineFit =>
  settle(task, rounds(task, start, true));

/** The fit reached from one nearby. */
export const settle = (task: RefineTask, start: RefineFit): RefineFit => rounds(task, start, false);

/** How badly a fit explains marks and samples, in variances, each counted up to where it would be given up. */
export const misfit = ({ state, columns, weighed }: RefineFit): number => {
  const samples = standardized(columns).reduce((sum, value) => sum + biweightCost(value), 0);
  return markSquares(state.camera, weighed).reduce((sum, square) => sum + tailCost(square), samples);
};

/** Traces that scatter by more than this many times their own noise, and marks further from where the camera sees them than this (squared, in variances), are either poor or met from the wrong side. */
const SUSPICIOUS = { scatter: 2.5, mark: 25 } as const;

/** Whether a fit may rest on the wrong samples: its lines scatter, or a mark is beyond any finger. */
export const isSuspicious = ({ state, weighed, scatter }: RefineFit): boolean =>
  scatter > SUSPICIOUS.scatter || Math.max(...markSquares(state.camera, weighed)) > SUSPICIOUS.mark;

import { inverseByGroups, markGroups } from './covariance-parts.ts';
import { addHeightPrior, addShiftPrior } from './ground-prior.ts';
import { addLensPriors } from './lens-priors.ts';
import { addSamples } from './line-observations.ts';
import { markResiduals, rootMeanSquare } from './mark-residuals.ts';
import { emptyEquations } from './normal-equations.ts';
import type { RefineFit, RefineTask } from './refine-camera.ts';
import { biweight, biweightHonesty } from './robust-weights.ts';
import type { CovarianceParts, SolvedCamera } from './types.ts';

/**
 * Covariance of the camera with shifts and heights marginalised, split by cause. The traces' equations are scaled to the information that robust
 * weights leave; their scatter is in the weights already.
 */
export const refinedCovariance = (
  task: RefineTask,
  { state, columns, weighed, priors, scatter }: RefineFit,
): { readonly covariance: Float64Array; readonly parts: CovarianceParts } => {
  const { camera, ground: unknowns } = state;
  const noise = { markSd: task.markSd, unevenness: task.sd.height };
  const { marks, ground } = markGroups(camera, weighed, noise, task.size);
  const lens = emptyEquations(task.size);
  addLensPriors(camera, priors, camera.radial[0], lens);
  const trace = emptyEquations(task.size);
  addSamples(camera, unknowns, columns, task.sd, trace);
  const scaled = columns.residual.map((value, i) => value / (scatter * columns.samples[i]!.sd));
  const honesty = Math.min(1, biweightHonesty(scaled));
  for (let i = 0; i < trace.matrix.length; i++) trace.matrix[i]! *= honesty;
  addShiftPrior(unknowns, trace);
  addHeightPrior(unknowns, task.knots, ground);
  const { covariance, parts } = inverseByGroups([marks, trace, lens, ground]);
  return {
    covariance,
    parts: { marks: parts[0]!, trace: parts[1]!, lens: parts[2]!, ground: parts[3]! },
  };
};

/** A fit as the answer that is handed on. */
export const refined = (
  task: RefineTask,
  fit: RefineFit,
  focalPriorUsed: boolean | undefined,
): SolvedCamera => {
  const { covariance, parts } = refinedCovariance(task, fit);
  const { columns, scatter } = fit;
  const weights = columns.residual.map((value, i) =>
    Number.isNaN(value) ? 0 : biweight(value / (scatter * columns.samples[i]!.sd)),
  );
  const marks = markResiduals(fit.state.camera, fit.weighed);
  return {
    camera: fit.state.camera,
    covariance,
    parts,
    marks,
    residual: rootMeanSquare(marks.flatMap((mark) => mark.residual)),
    traceResidual: rootMeanSquare([...columns.residual].filter((_, i) => weights[i]! > 0)),
    scatter,
    sampleWeights: weights,
    unevenness: task.sd.height,
    ...(focalPriorUsed === undefined ? {} : { focalPriorUsed }),
  };
};

import { cameraCovariance, inverseByGroups, markGroups } from './covariance-parts.ts';
import { addHeightPrior, addShiftPrior } from './ground-prior.ts';
import { addLensPriors } from './lens-priors.ts';
import { addSamples, standardized } from './line-observations.ts';
import { markResiduals, rootMeanSquare } from './mark-residuals.ts';
import { emptyEquations, type NormalEquations } from './normal-equations.ts';
import type { RefineFit, RefineTask } from './refine-task.ts';
import { biweight, biweightHonesty } from './robust-weights.ts';
import type { CovarianceParts, SolvedCamera } from './types.ts';

/**
 * Normal equations of a fit by cause: marks, trace, lens, ground. The traces' are scaled to the information that robust weights leave; their
 * scatter is in the weights already.
 */
const groupsOf = (
  task: RefineTask,
  { state, columns, weighed, priors, scatter }: RefineFit,
): readonly [NormalEquations, NormalEquations, NormalEquations, NormalEquations] => {
  const { camera, ground: unknowns } = state;
  const noise = { markSd: task.markSd, unevenness: task.sd.height };
  const { marks, ground } = markGroups(camera, weighed, noise, task.size);
  const lens = emptyEquations(task.size);
  addLensPriors(camera, priors, camera.radial[0], lens);
  const trace = emptyEquations(task.size);
  addSamples(camera, unknowns, columns, task.sd, trace);
  const honesty = Math.min(1, biweightHonesty(standardized(columns, scatter)));
  for (let i = 0; i < trace.matrix.length; i++) trace.matrix[i]! *= honesty;
  addShiftPrior(unknowns, trace);
  addHeightPrior(unknowns, task.relief, 1, ground);
  return [marks, trace, lens, ground];
};

/** Covariance of the camera with shifts and heights left free. */
export const refinedCovariance = (task: RefineTask, fit: RefineFit): Float64Array =>
  cameraCovariance(groupsOf(task, fit));

/** The same split by cause. */
const splitRefined = (
  task: RefineTask,
  fit: RefineFit,
): { readonly covariance: Float64Array; readonly parts: CovarianceParts } => {
  const { covariance, parts } = inverseByGroups(groupsOf(task, fit));
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
  const { covariance, parts } = splitRefined(task, fit);
  const { columns, scatter } = fit;
  const weights = standardized(columns, scatter);
  const used: number[] = [];
  for (let i = 0; i < weights.length; i++) {
    weights[i] = Number.isNaN(weights[i]!) ? 0 : biweight(weights[i]!);
    if (weights[i]! > 0) used.push(columns.residual[i]!);
  }
  const marks = markResiduals(fit.state.camera, fit.weighed);
  return {
    camera: fit.state.camera,
    covariance,
    parts,
    marks,
    residual: rootMeanSquare(marks.flatMap((mark) => mark.residual)),
    traceResidual: rootMeanSquare(used),
    scatter,
    sampleWeights: weights,
    unevenness: task.sd.height,
    ...(focalPriorUsed === undefined ? {} : { focalPriorUsed }),
  };
};

import { SIDES } from '../lawn/court.ts';
import { pictureSize } from './fit-marks.ts';
import { focalVerdict } from './focal-verdict.ts';
import { learnedGroundSd } from './ground-evidence.ts';
import { lensPriors } from './lens-priors.ts';
import { sampleColumns } from './line-observations.ts';
import { approach, settle } from './refine-rounds.ts';
import {
  type RefineFit,
  type RefineInput,
  type RefineTask,
  refineTask,
  rescaleHeights,
} from './refine-task.ts';
import { refined } from './refined-covariance.ts';
import type { SolvedCamera } from './types.ts';

/** `fit` and `task` with the ground's height in units of another standard deviation. */
const withGroundSd = (
  task: RefineTask,
  fit: RefineFit,
  height: number,
): { readonly task: RefineTask; readonly fit: RefineFit } => {
  if (height === task.sd.height) return { task, fit };
  return {
    task: { ...task, sd: { ...task.sd, height } },
    fit: { ...fit, state: rescaleHeights(fit.state, height / task.sd.height) },
  };
};

/**
 * The camera fitted to marks and traced boundaries together. A sample's residual is its distance along its normal to the projected inner edge,
 * the lens's curve included. Samples get Tukey's weights on a scale taken from their own scatter, so that people, worn paint and wrong edges
 * do no harm. The ground's undulation under the lines is estimated along with the camera, so that hundreds of samples on one rise do not
 * count as hundreds of witnesses; how uneven it is the lines themselves tell, with the stated unevenness as a first opinion. The photo's
 * focal length is used unless the lines contradict it. Without lines it returns the fit of the marks alone.
 */
export const refineCamera = (start: SolvedCamera, input: RefineInput): SolvedCamera => {
  const stated = refineTask(input);
  const { width, height } = pictureSize(input.width, input.height);
  const free = approach(stated, {
    state: { camera: start.camera, ground: new Float64Array(SIDES.length + stated.knots.places.length) },
    columns: sampleColumns(input.lines),
    weighed: [],
    priors: lensPriors(width, height),
    scatter: 1,
  });
  const { task, fit } = withGroundSd(stated, free, learnedGroundSd(stated, free));
  const photo = input.focalPrior && lensPriors(width, height, input.focalPrior);
  const believed = photo && focalVerdict(task, fit, photo);
  return refined(task, settle(task, believed ? { ...fit, priors: photo } : fit), believed);
};

export { EDGE_SETTING_SD, type RefineInput } from './refine-task.ts';

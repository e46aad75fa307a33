import { SIDES } from '../lawn/court.ts';
import { markMinima, pictureSize } from './fit-marks.ts';
import { focalVerdict } from './focal-verdict.ts';
import { type LearnedGround, learnedGround } from './ground-evidence.ts';
import { lensPriors } from './lens-priors.ts';
import { sampleColumns } from './line-observations.ts';
import { approach, isSuspicious, misfit, settle } from './refine-rounds.ts';
import {
  type RefineFit,
  type RefineInput,
  type RefineTask,
  refineTask,
  rescaleHeights,
} from './refine-task.ts';
import { refined } from './refined-covariance.ts';
import type { Camera, SolvedCamera } from './types.ts';

/** `fit` and `task` with another relief, and the ground's height in units of another standard deviation. */
const withGround = (
  task: RefineTask,
  fit: RefineFit,
  { height, relief }: LearnedGround,
): { readonly task: RefineTask; readonly fit: RefineFit } => {
  const stated = task.sd.height;
  const state = height === stated ? fit.state : rescaleHeights(fit.state, height / stated);
  return { task: { ...task, relief, sd: { ...task.sd, height } }, fit: { ...fit, state } };
};

/** The fit from `start` without the photo's statement; when it is suspicious the best of it and the fits from every camera that the marks allow. */
const freeFit = (task: RefineTask, input: RefineInput, start: Camera): RefineFit => {
  const size = pictureSize(input.width, input.height);
  const priors = lensPriors(size.width, size.height);
  const at = (camera: Camera): RefineFit => ({
    state: { camera, ground: new Float64Array(SIDES.length + task.knots.places.length) },
    columns: sampleColumns(input.lines),
    weighed: [],
    priors,
    scatter: 1,
  });
  const first = input.near ? settle(task, at(start)) : approach(task, at(start));
  if (!isSuspicious(first)) return first;
  const others = markMinima(task.marks, size, priors, task.markSd).map(({ state }) => state);
  const fits = [first, settle(task, at(start)), ...others.map((camera) => approach(task, at(camera)))];
  return fits.sort((a, b) => misfit(a) - misfit(b))[0]!;
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
  const free = freeFit(stated, input, start.camera);
  const { task, fit } = input.groundAsStated
    ? { task: stated, fit: free }
    : withGround(stated, free, learnedGround(stated, free));
  const photo = input.focalPrior && lensPriors(input.width, input.height, input.focalPrior);
  const believed = photo && focalVerdict(task, fit, photo);
  return refined(task, settle(task, believed ? { ...fit, priors: photo } : fit), believed);
};

export { EDGE_SETTING_SD, type RefineInput } from './refine-task.ts';

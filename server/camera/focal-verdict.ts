import { type LensPriors, PRIOR_ODDS_WRONG } from './lens-priors.ts';
import type { RefineFit, RefineTask } from './refine-task.ts';
import { refinedCovariance } from './refined-covariance.ts';
import { CAMERA_PARAMETERS } from './types.ts';

/** Minus twice the logarithm of a normal density at distance `d` with variance `v`, up to a constant. */
const surprise = (d: number, v: number): number => (d * d) / v + Math.log(v);

/**
 * Whether the photo's statement about the focal length is to be believed, from a fit that did not use it. The fit's own broad prior is taken out
 * first: its estimate m with variance v becomes that of the lines and marks alone, and the two hypotheses (stated, or any) are compared by
 * how well they foretell it.
 */
export const focalVerdict = (task: RefineTask, free: RefineFit, photo: LensPriors): boolean => {
  const variance = refinedCovariance(task, free)[6 * (CAMERA_PARAMETERS + 1)]!;
  const broad = free.priors.lnFocalSd ** 2;
  const information = 1 / variance - 1 / broad;
  // Lines and marks say nothing about the focal length: nothing contradicts the photo.
  if (information < 1e-6) return true;
  const own = 1 / information;
  const mean = own * (Math.log(free.state.camera.focal) / variance - free.priors.lnFocal / broad);
  const stated =
    surprise(mean - photo.lnFocal, own + photo.lnFocalSd ** 2) - 2 * Math.log(1 - PRIOR_ODDS_WRONG);
  const any = surprise(mean - free.priors.lnFocal, own + broad) - 2 * Math.log(PRIOR_ODDS_WRONG);
  return stated < any;
};

import type { Court } from '../lawn/court.ts';
import { err, ok, type Result } from '../units/result.ts';
import type { CameraFault } from './camera-fault.ts';
import { checkMarks } from './check-marks.ts';
import { splitCovariance } from './covariance-parts.ts';
import { fitMarks, type MarksFit, type PictureSize, pictureSize, ROBUST_FROM } from './fit-marks.ts';
import { type FocalPrior, k1TailCost, type LensPriors, lensPriors, PRIOR_ODDS_WRONG } from './lens-priors.ts';
import { DEFAULT_MARK_SD, type MarkNoise, markSquares, tailCost } from './mark-observations.ts';
import { bestOrder, markOrder, orderFault } from './mark-order.ts';
import { DEFAULT_GROUND_SD, placeMarks, type SettingSd } from './mark-places.ts';
import { markResiduals, residualFault, rootMeanSquare } from './mark-residuals.ts';
import { cholesky, logDeterminant } from './normal-equations.ts';
import type { MarkedPoint, SolvedCamera } from './types.ts';

/** What a camera is solved from. */
export type SolveInput = {
  readonly points: readonly MarkedPoint[];
  readonly court: Court;
  /** Size of the upright picture in px. */
  readonly width: number;
  readonly height: number;
  /** What the photo states about its focal length; used unless the marks contradict it. */
  readonly focalPrior?: FocalPrior | undefined;
  /** Standard deviation of a finger's mark in px. */
  readonly markSd?: number | undefined;
  /** Standard deviations of the setting of corners, hoops, peg and markers in metres. */
  readonly settingSd?: SettingSd | undefined;
  /** Standard deviation of the ground's height in metres. */
  readonly unevenness?: number | undefined;
};

/** A camera lower than this (metres) looks along the grass, not on it. */
const LOWEST_CAMERA = 0.2;

/** Cost of a fit as minus twice a log-likelihood: robustly weighed marks at their full distance. */
const likelihoodCost = ({ state, weighed, equations }: MarksFit): number => {
  const cost = equations.cost + k1TailCost(state.radial[0]);
  if (weighed.length < ROBUST_FROM) return cost;
  return markSquares(state, weighed).reduce(
    (sum, square, i) => sum + tailCost(square) - weighed[i]!.weight * square,
    cost,
  );
};

/** Minus twice the logarithm of the evidence for a hypothesis about the focal length (Laplace's approximation), up to a constant that all share. */
const surprise = (fit: MarksFit, priors: LensPriors): number => {
  const l = cholesky(fit.equations.matrix, fit.equations.size);
  if (!l) return Number.POSITIVE_INFINITY;
  const odds = priors.fromPhoto ? 1 - PRIOR_ODDS_WRONG : PRIOR_ODDS_WRONG;
  return (
    likelihoodCost(fit) +
    logDeterminant(l, fit.equations.size) +
    2 * Math.log(priors.lnFocalSd) -
    2 * Math.log(odds)
  );
};

/** The fit and the hypothesis about the focal length that it rests on. */
type Chosen = { readonly fit: MarksFit; readonly priors: LensPriors };

const chooseFit = (
  points: readonly MarkedPoint[],
  input: SolveInput,
  size: PictureSize,
  noise: MarkNoise,
): Chosen | null => {
  const placed = placeMarks(points, input.court, input.settingSd);
  const hypotheses = [lensPriors(size.width, size.height)];
  if (input.focalPrior) hypotheses.unshift(lensPriors(size.width, size.height, input.focalPrior));
  const fits = hypotheses.flatMap((priors) => {
    const fit = fitMarks(placed, size, priors, noise);
    return fit ? [{ fit, priors }] : [];
  });
  return fits.sort((a, b) => surprise(a.fit, a.priors) - surprise(b.fit, b.priors))[0] ?? null;
};

const solved = ({ fit, priors }: Chosen, input: SolveInput, noise: MarkNoise): SolvedCamera => {
  const camera = fit.state;
  const { covariance, parts } = splitCovariance(camera, fit.weighed, priors, noise);
  const marks = markResiduals(camera, fit.weighed);
  return {
    camera,
    covariance,
    parts,
    marks,
    residual: rootMeanSquare(marks.flatMap((mark) => mark.residual)),
    unevenness: noise.unevenness,
    ...(input.focalPrior ? { focalPriorUsed: priors.fromPhoto } : {}),
  };
};

const belowLawn = (height: number): CameraFault => ({
  code: 'camera-below-lawn',
  message: `The marks put the camera ${height.toFixed(2)} m above the lawn; a picture from at least ${LOWEST_CAMERA} m is needed. Check which mark belongs to which point.`,
});

/**
 * The camera that sees the named points of `court` where they are marked, with the covariance of all its parameters: a closed-form start from
 * the ground's homography, then least squares with priors on the lens. Permuting `points` changes nothing but rounding. Faults, first found
 * first: too few points, one marked twice, one outside the photo, no four of which no three lie in line, names mirrored or crossed (with the
 * right order), a camera below the lawn, a mark that no finger explains.
 */
export const solveCamera = (input: SolveInput): Result<SolvedCamera, CameraFault> => {
  const { points, court, width, height } = input;
  const fault = checkMarks(points, court, width, height);
  if (fault) return err(fault);
  const size = pictureSize(width, height);
  const noise = {
    markSd: input.markSd ?? DEFAULT_MARK_SD,
    unevenness: input.unevenness ?? DEFAULT_GROUND_SD,
  };
  const properCost = (order: readonly MarkedPoint[]): number | null => {
    if (markOrder(placeMarks(order, court), size) !== 'proper') return null;
    const chosen = chooseFit(order, input, size, noise);
    return chosen && likelihoodCost(chosen.fit);
  };
  const order = markOrder(placeMarks(points, court), size);
  if (order !== 'proper') return err(orderFault(order, points, bestOrder(points, properCost)?.order ?? null));
  const chosen = chooseFit(points, input, size, noise);
  if (!chosen || chosen.fit.state.position[2] < LOWEST_CAMERA)
    return err(belowLawn(chosen?.fit.state.position[2] ?? 0));
  const unexplained = residualFault(chosen.fit, likelihoodCost(chosen.fit), noise, () =>
    bestOrder(points, properCost),
  );
  return unexplained ? err(unexplained) : ok(solved(chosen, input, noise));
};

export { DEFAULT_MARK_SD } from './mark-observations.ts';
export { DEFAULT_GROUND_SD } from './mark-places.ts';

import type { Court } from '../lawn/court.ts';
import { SIDES } from '../lawn/court.ts';
import { moveCamera } from './camera-model.ts';
import { pictureSize } from './fit-marks.ts';
import { focalVerdict } from './focal-verdict.ts';
import { type GroundKnots, groundKnots } from './ground-knots.ts';
import { addHeightPrior, addShiftPrior } from './ground-prior.ts';
import { addLensPriors, type FocalPrior, type LensPriors, lensPriors } from './lens-priors.ts';
import { minimise } from './levenberg-marquardt.ts';
import {
  addSamples,
  type GroundSd,
  HEIGHTS,
  placeFeet,
  type SampleColumns,
  sampleColumns,
} from './line-observations.ts';
import { addMarks, type WeighedMark, weighMark } from './mark-observations.ts';
import { type PlacedMark, placeMarks, type SettingSd } from './mark-places.ts';
import { emptyEquations } from './normal-equations.ts';
import { refined } from './refined-covariance.ts';
import { biweight, coreSpread } from './robust-weights.ts';
import { DEFAULT_GROUND_SD, DEFAULT_MARK_SD } from './solve-camera.ts';
import {
  CAMERA_PARAMETERS,
  type Camera,
  type LineSample,
  type MarkedPoint,
  type SolvedCamera,
} from './types.ts';

/** A boundary's painted edge as a whole is set this well (one standard deviation, m), like a painted corner. Common practice, no source. */
export const EDGE_SETTING_SD = 0.004;

/** What a camera is refined on. */
export type RefineInput = {
  readonly points: readonly MarkedPoint[];
  readonly lines: readonly LineSample[];
  readonly court: Court;
  /** Size of the upright picture in px. */
  readonly width: number;
  readonly height: number;
  readonly focalPrior?: FocalPrior | undefined;
  readonly markSd?: number | undefined;
  readonly settingSd?: SettingSd | undefined;
  /** Standard deviation of the ground's height in metres. */
  readonly unevenness?: number | undefined;
};

/** The unknowns: the camera, and the ground as shifts of the sides and heights of the knots in units of their standard deviations. */
export type RefineState = { readonly camera: Camera; readonly ground: Float64Array };

/** Everything that stays the same while a camera is refined. */
export type RefineTask = {
  readonly court: Court;
  readonly marks: readonly PlacedMark[];
  readonly markSd: number;
  readonly knots: GroundKnots;
  readonly sd: GroundSd;
  readonly size: number;
};

/** A camera refined under one hypothesis about the focal length. */
export type RefineFit = {
  readonly state: RefineState;
  readonly columns: SampleColumns;
  readonly weighed: readonly WeighedMark[];
  readonly priors: LensPriors;
  /** Core spread of the samples' standardized residuals, at least 1. */
  readonly scatter: number;
};

const taskOf = (input: RefineInput): RefineTask => {
  const knots = groundKnots(input.court);
  return {
    court: input.court,
    marks: placeMarks(input.points, input.court, input.settingSd),
    markSd: input.markSd ?? DEFAULT_MARK_SD,
    knots,
    sd: { shift: EDGE_SETTING_SD, height: input.unevenness ?? DEFAULT_GROUND_SD },
    size: HEIGHTS + knots.places.length,
  };
};

/** Samples with feet and robust weights for `state`; the residuals in `columns` are those at `state`. */
const reweigh = (columns: SampleColumns, scatter: number): void => {
  for (let i = 0; i < columns.count; i++) {
    const { sd } = columns.samples[i]!;
    const value = columns.residual[i]! / sd;
    columns.weight[i] = Number.isNaN(value) ? 0 : biweight(value / scatter) / (sd * scatter) ** 2;
  }
};

const standardized = (columns: SampleColumns): Float64Array =>
  columns.residual.map((value, i) => value / columns.samples[i]!.sd);

/** Marks are always weighed robustly here: where lines are traced they tell a slipped finger. */
const weighAll = (task: RefineTask, camera: Camera): WeighedMark[] =>
  task.marks.map((mark) =>
    weighMark(camera, mark, { markSd: task.markSd, unevenness: task.sd.height }, true),
  );

/** Rounds at most; each places the feet anew, reweighs and takes a few steps. */
const ROUNDS = 14;
/** Converged when a round lowers the cost by less than this: a tenth of a standard deviation of the best-known combination of parameters. */
const SETTLED = 0.01;

/** One round from `fit`: feet, residuals, weights, then least squares. */
const round = (task: RefineTask, fit: RefineFit): { readonly fit: RefineFit; readonly gain: number } => {
  const { camera, ground } = fit.state;
  const columns = placeFeet(fit.columns, camera, task.court, task.knots);
  addSamples(camera, ground, columns, task.sd, emptyEquations(task.size));
  const scatter = Math.max(1, coreSpread(standardized(columns)));
  reweigh(columns, scatter);
  const weighed = weighAll(task, camera);
  const k1At = camera.radial[0];
  const assemble = (state: RefineState) => {
    const equations = emptyEquations(task.size);
    addSamples(state.camera, state.ground, columns, task.sd, equations);
    addMarks(state.camera, weighed, equations);
    addLensPriors(state.camera, fit.priors, k1At, equations);
    addShiftPrior(state.ground, equations);
    addHeightPrior(state.ground, task.knots, equations);
    return equations;
  };
  const start = assemble(fit.state);
  const { state, equations } = minimise({ assemble, move }, fit.state, 6, 1e-3);
  return { fit: { ...fit, state, columns, weighed, scatter }, gain: start.cost - equations.cost };
};

const move = (state: RefineState, step: Float64Array): RefineState => ({
  camera: moveCamera(state.camera, step),
  ground: state.ground.map((value, i) => value + step[CAMERA_PARAMETERS + i]!),
});

const settle = (task: RefineTask, start: RefineFit): RefineFit => {
  let fit = start;
  for (let i = 0; i < ROUNDS; i++) {
    const before = fit.scatter;
    const next = round(task, fit);
    fit = next.fit;
    if (next.gain < SETTLED && Math.abs(fit.scatter - before) < 0.01) break;
  }
  return fit;
};

/**
 * The camera fitted to marks and traced boundaries together. A sample's residual is its distance along its normal to the projected inner edge,
 * the lens's curve included. Samples get Tukey's weights on a scale taken from their own scatter, so that people, worn paint and wrong edges do no harm; the
 * ground's undulation under the lines is estimated along with the camera, so that hundreds of samples on one rise do not count as hundreds
 * of witnesses. The photo's focal length is used unless the lines contradict it. Without lines it returns the fit of the marks alone.
 */
export const refineCamera = (start: SolvedCamera, input: RefineInput): SolvedCamera => {
  const task = taskOf(input);
  const { width, height } = pictureSize(input.width, input.height);
  const first: RefineFit = {
    state: { camera: start.camera, ground: new Float64Array(SIDES.length + task.knots.places.length) },
    columns: sampleColumns(input.lines),
    weighed: [],
    priors: lensPriors(width, height),
    scatter: 1,
  };
  const free = settle(task, first);
  const photo = input.focalPrior && lensPriors(width, height, input.focalPrior);
  if (!photo || !focalVerdict(task, free, photo)) return refined(task, free, photo ? false : undefined);
  return refined(task, settle(task, { ...free, priors: photo }), true);
};

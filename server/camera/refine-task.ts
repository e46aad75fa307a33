import { type Court, SIDES } from '../lawn/court.ts';
import { moveCamera } from './camera-model.ts';
import { type GroundKnots, groundKnots, type Relief } from './ground-knots.ts';
import { addHeightPrior, addShiftPrior } from './ground-prior.ts';
import { addLensPriors, type FocalPrior, type LensPriors } from './lens-priors.ts';
import { addSamples, type GroundSd, HEIGHTS, type SampleColumns } from './line-observations.ts';
import { addMarks, DEFAULT_MARK_SD, type WeighedMark } from './mark-observations.ts';
import { DEFAULT_GROUND_SD, type PlacedMark, placeMarks, type SettingSd } from './mark-places.ts';
import { emptyEquations, type NormalEquations } from './normal-equations.ts';
import { CAMERA_PARAMETERS, type Camera, type LineSample, type MarkedPoint } from './types.ts';

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
  /** Standard deviation of the ground's height in metres, as far as anyone knows before looking. */
  readonly unevenness?: number | undefined;
  /** Whether the start already sees the lines where they are, within their noise. */
  readonly near?: boolean | undefined;
  /** Whether the ground is as stated, and not learned from the lines: enough on the way. */
  readonly groundAsStated?: boolean | undefined;
};

/** The unknowns: the camera, and the ground as shifts of the sides and heights of the knots in units of their standard deviations. */
export type RefineState = { readonly camera: Camera; readonly ground: Float64Array };

/** Everything that stays the same while a camera is refined. */
export type RefineTask = {
  readonly court: Court;
  readonly marks: readonly PlacedMark[];
  readonly markSd: number;
  readonly knots: GroundKnots;
  /** How the knots' heights are taken to hang together. */
  readonly relief: Relief;
  readonly sd: GroundSd;
  /** Number of unknowns. */
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

/** The task of `input`, with every default filled in. */
export const refineTask = (input: RefineInput): RefineTask => {
  const knots = groundKnots(input.court);
  return {
    court: input.court,
    marks: placeMarks(input.points, input.court, input.settingSd),
    markSd: input.markSd ?? DEFAULT_MARK_SD,
    knots,
    relief: knots.reliefs[0],
    sd: { shift: EDGE_SETTING_SD, height: input.unevenness ?? DEFAULT_GROUND_SD },
    size: HEIGHTS + knots.places.length,
  };
};

/** Equations of everything but the heights' prior at `state`, with the feet and weights of `fit`; `k1At` as in `addLensPriors`. */
export const observationEquations = (
  task: RefineTask,
  fit: RefineFit,
  state: RefineState,
  k1At: number,
): NormalEquations => {
  const equations = emptyEquations(task.size);
  addSamples(state.camera, state.ground, fit.columns, task.sd, equations);
  addMarks(state.camera, fit.weighed, equations);
  addLensPriors(state.camera, fit.priors, k1At, equations);
  addShiftPrior(state.ground, equations);
  return equations;
};

/** The equations of everything. */
export const allEquations = (
  task: RefineTask,
  fit: RefineFit,
  state: RefineState,
  k1At: number,
): NormalEquations => {
  const equations = observationEquations(task, fit, state, k1At);
  addHeightPrior(state.ground, task.relief, 1, equations);
  return equations;
};

/** The state after a step in all unknowns. */
export const moveState = (state: RefineState, step: Float64Array): RefineState => {
  const ground = state.ground.slice();
  for (let i = 0; i < ground.length; i++) ground[i]! += step[CAMERA_PARAMETERS + i]!;
  return { camera: moveCamera(state.camera, step), ground };
};

/** The state whose ground is in units of a height's standard deviation `factor` times as large: shifts stay, heights are divided. */
export const rescaleHeights = ({ camera, ground }: RefineState, factor: number): RefineState => ({
  camera,
  ground: ground.map((value, i) => (i < SIDES.length ? value : value / factor)),
});

import { type Court, type Side, sideEnds } from '../lawn/court.ts';
import { namedPlace } from '../lawn/named-points.ts';
import { metres } from '../units/numbers.ts';
import { PROJECTION, PROJECTION_LENGTH, pointAtHeight, projectInto } from './camera-model.ts';
import { addLensPriors, type FocalPrior, lensPriors } from './lens-priors.ts';
import {
  addObservation,
  cholesky,
  choleskySolve,
  emptyEquations,
  inverseRows,
  type NormalEquations,
} from './normal-equations.ts';
import {
  CAMERA_PARAMETERS,
  type Camera,
  type LineSample,
  type MarkedPoint,
  type SolvedCamera,
} from './types.ts';

/**
 * How a marked court departs from its stated rectangle, as one picture shows it. `skew`: the west boundary leans east by so many radians; `stretch`: the width
 * is larger than stated by this share when the length is right (one picture does not know the scale). With standard deviations.
 */
export type CourtShape = {
  readonly skew: number;
  readonly skewSd: number;
  readonly stretch: number;
  readonly stretchSd: number;
  /** Diagonal corner 1–3 minus diagonal corner 2–4, metres. */
  readonly diagonals: number;
  readonly diagonalsSd: number;
};

const SKEW = CAMERA_PARAMETERS;
const STRETCH = CAMERA_PARAMETERS + 1;
const UNKNOWNS = CAMERA_PARAMETERS + 2;
/** A finger on a corner, px. */
const MARK_SD = 2;
/** Before looking, a court is out of square by no more than this (one standard deviation, radians and share): 0.3 m on 32 m. A judgement, no source. */
const SHAPE_SD = 0.01;
/** Samples along a line share the paint's and the ground's waves: so many count as one. Common practice, no source. */
const SHARED = 4;

const out = new Float64Array(PROJECTION_LENGTH);

/** Point of `side` nearest to the ground point under the sample; null above the horizon. */
const footOf = (camera: Camera, court: Court, sample: LineSample): { x: number; y: number } | null => {
  const ground = pointAtHeight(camera, sample.image, metres(0));
  if (!ground) return null;
  const [start] = sideEnds(court, sample.side);
  const upright: readonly Side[] = ['west', 'east'];
  return upright.includes(sample.side) ? { x: start.x, y: ground.y } : { x: ground.x, y: start.y };
};

/** Adds the image residual (ex, ey) of the court's point (x, y) along (nx, ny), with the derivatives by camera and shape. */
const addAlong = (
  x: number,
  y: number,
  [nx, ny]: readonly [number, number],
  residual: number,
  sd: number,
  equations: NormalEquations,
): void => {
  const row = new Float64Array(UNKNOWNS);
  for (let k = 0; k < CAMERA_PARAMETERS; k++)
    row[k] = nx * out[PROJECTION.xBy + k]! + ny * out[PROJECTION.yBy + k]!;
  const byX = nx * out[PROJECTION.xByPoint]! + ny * out[PROJECTION.yByPoint]!;
  row[SKEW] = byX * y;
  row[STRETCH] = byX * x;
  addObservation(equations, row, residual, 1 / sd ** 2);
};

const addSamples = (
  camera: Camera,
  court: Court,
  lines: readonly LineSample[],
  equations: NormalEquations,
) => {
  for (const sample of lines) {
    const foot = footOf(camera, court, sample);
    if (!foot || !projectInto(camera, foot.x, foot.y, 0, out)) continue;
    const [nx, ny] = sample.normal;
    const residual = nx * (sample.image.x - out[0]!) + ny * (sample.image.y - out[1]!);
    addAlong(foot.x, foot.y, sample.normal, residual, sample.sd * Math.sqrt(SHARED), equations);
  }
};

const addCorners = (
  camera: Camera,
  court: Court,
  marks: readonly MarkedPoint[],
  equations: NormalEquations,
) => {
  for (const { name, image } of marks) {
    const { x, y } = namedPlace(court, name);
    if (!name.startsWith('corner') || !projectInto(camera, x, y, 0, out)) continue;
    addAlong(x, y, [1, 0], image.x - out[0]!, MARK_SD, equations);
    addAlong(x, y, [0, 1], image.y - out[1]!, MARK_SD, equations);
  }
};

const addShapePrior = (equations: NormalEquations): void => {
  for (const at of [SKEW, STRETCH]) {
    const row = new Float64Array(UNKNOWNS);
    row[at] = 1;
    addObservation(equations, row, 0, 1 / SHAPE_SD ** 2);
  }
};

/**
 * Whether the boundary is a rectangle of the stated proportions: one least-squares step over camera and shape together from the solved camera, which is
 * exact for departures of a few parts in a thousand. The lens prior, the photo's focal length above all, is what tells a skewed court from a turned
 * camera; without it the standard deviations are wide. Diagonals: for a skew γ of a court W × L they differ by 2 W γ L / √(W² + L²).
 * Null when the lines do not fix the camera.
 */
export const courtShape = (
  { camera }: SolvedCamera,
  court: Court,
  marks: readonly MarkedPoint[],
  lines: readonly LineSample[],
  focalPrior: FocalPrior | undefined,
): CourtShape | null => {
  const equations = emptyEquations(UNKNOWNS);
  addSamples(camera, court, lines, equations);
  addCorners(camera, court, marks, equations);
  addLensPriors(camera, lensPriors(camera.width, camera.height, focalPrior), camera.radial[0], equations);
  addShapePrior(equations);
  const l = cholesky(equations.matrix, UNKNOWNS);
  if (!l) return null;
  const step = choleskySolve(l, UNKNOWNS, equations.right);
  const rows = inverseRows(l, UNKNOWNS, UNKNOWNS);
  const sd = (at: number): number => Math.sqrt(rows[at * (UNKNOWNS + 1)]!);
  const { width, length } = court;
  const lever = (2 * width * length) / Math.hypot(width, length);
  return {
    skew: step[SKEW]!,
    skewSd: sd(SKEW),
    stretch: step[STRETCH]!,
    stretchSd: sd(STRETCH),
    diagonals: lever * step[SKEW]!,
    diagonalsSd: lever * sd(SKEW),
  };
};

import { BALL_RADIUS } from '../lawn/ball.ts';
import { type Court, SIDES, type Side, sideEnds } from '../lawn/court.ts';
import { namedPlace, type PointName } from '../lawn/named-points.ts';
import { type Covariance2, type LawnPoint, lawnPoint3 } from '../units/points.ts';
import { PROJECTION, PROJECTION_LENGTH, projectInto, projectPoint } from './camera-model.ts';
import { outer2, propagate2, sum2, transform2 } from './covariance2.ts';
import { type FocalPrior, PHYSICAL_FOCAL, PHYSICAL_LENS } from './lens-priors.ts';
import { pointDerivatives } from './locate-ball.ts';
import {
  addObservation,
  cholesky,
  emptyEquations,
  inverseRows,
  type NormalEquations,
} from './normal-equations.ts';
import type { Camera } from './types.ts';

/** Parameters that the bound's reader must find: position, turn, ln focal, k1. The second radial term is taken as known. */
const BOUND_PARAMETERS = 8;

/** What the ideal reader has to go by. */
export type BoundInput = {
  /** Points that are marked; each helps as far as a finger does. */
  readonly points: readonly PointName[];
  readonly court: Court;
  readonly ball: LawnPoint;
  /** Noise across a line, px. */
  readonly lineSd?: number | undefined;
  /** Independent samples on each whole side; those in the picture count. */
  readonly samplesPerSide?: number | undefined;
  /** Sides that can be traced; all four unless stated. */
  readonly sides?: readonly Side[] | undefined;
  /** Noise of the ball's centre in each direction, px. */
  readonly ballSd?: number | undefined;
  readonly markSd?: number | undefined;
  readonly focalPrior?: FocalPrior | undefined;
  /** Standard deviation of the ground's height under the ball, m. */
  readonly unevenness?: number | undefined;
};

/** Smallest standard deviations (m) and covariance (m²) that any unbiased reader can have. */
export type PositionBound = { readonly sdX: number; readonly sdY: number; readonly covariance: Covariance2 };

/** Default noise of the ideal reader: 0.35 px across a line at 60 independent places a side, 0.25 px of the ball's centre. */
export const IDEAL_READER = { lineSd: 0.35, samplesPerSide: 60, ballSd: 0.25, markSd: 2 } as const;

const projection = new Float64Array(PROJECTION_LENGTH);
const row = new Float64Array(BOUND_PARAMETERS);

const inPicture = (camera: Camera, x: number, y: number): boolean =>
  projectInto(camera, x, y, 0, projection) &&
  projection[0]! >= 0 &&
  projection[0]! <= camera.width &&
  projection[1]! >= 0 &&
  projection[1]! <= camera.height;

/** Information of one sample across the line through (x, y) with lawn direction (ax, ay). */
const addAcross = (ax: number, ay: number, weight: number, information: NormalEquations): void => {
  const { xBy, yBy, xByPoint, yByPoint } = PROJECTION;
  const tx = projection[xByPoint]! * ax + projection[xByPoint + 1]! * ay;
  const ty = projection[yByPoint]! * ax + projection[yByPoint + 1]! * ay;
  const length = Math.hypot(tx, ty);
  for (let k = 0; k < BOUND_PARAMETERS; k++)
    row[k] = (projection[xBy + k]! * ty - projection[yBy + k]! * tx) / length;
  addObservation(information, row, 0, weight);
};

const addSide = (
  camera: Camera,
  court: Court,
  side: Side,
  samples: number,
  sd: number,
  information: NormalEquations,
): void => {
  const [a, b] = sideEnds(court, side);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  for (let i = 0; i < samples; i++) {
    const t = samples === 1 ? 0.5 : i / (samples - 1);
    if (!inPicture(camera, a.x + t * (b.x - a.x), a.y + t * (b.y - a.y))) continue;
    addAcross((b.x - a.x) / length, (b.y - a.y) / length, 1 / sd ** 2, information);
  }
};

const addPoint = (camera: Camera, { x, y }: LawnPoint, sd: number, information: NormalEquations): void => {
  if (!inPicture(camera, x, y)) return;
  for (const from of [PROJECTION.xBy, PROJECTION.yBy]) {
    row.set(projection.subarray(from, from + BOUND_PARAMETERS));
    addObservation(information, row, 0, 1 / sd ** 2);
  }
};

const addLens = (focalPrior: FocalPrior | undefined, information: NormalEquations): void => {
  row.fill(0);
  row[6] = 1;
  addObservation(information, row, 0, 1 / (focalPrior?.sd ?? PHYSICAL_FOCAL.sd) ** 2);
  row[6] = 0;
  row[7] = 1;
  addObservation(information, row, 0, 1 / PHYSICAL_LENS.k1Sd ** 2);
};

/**
 * The Cramér–Rao bound of a ball's place: what an ideal reader of this picture would still not know, whatever its method. The Fisher information of
 * pose, focal length and k1 is that of normal noise: points (2 px), samples across the lines (0.35 px, 60 a side where they are in the
 * picture) and the priors on the lens; its inverse is carried to the ball as in `locateBall`, and the ball's own 0.25 px and the ground's
 * unevenness (0 unless stated) are added. Null when the ball is not seen or the information does not fix the camera.
 */
export const positionBound = (camera: Camera, input: BoundInput): PositionBound | null => {
  const information = emptyEquations(BOUND_PARAMETERS);
  const lineSd = input.lineSd ?? IDEAL_READER.lineSd;
  const samples = input.samplesPerSide ?? IDEAL_READER.samplesPerSide;
  for (const side of input.sides ?? SIDES) addSide(camera, input.court, side, samples, lineSd, information);
  for (const name of input.points)
    addPoint(camera, namedPlace(input.court, name), input.markSd ?? IDEAL_READER.markSd, information);
  addLens(input.focalPrior, information);
  const image = projectPoint(camera, lawnPoint3(input.ball.x, input.ball.y, BALL_RADIUS));
  const l = cholesky(information.matrix, BOUND_PARAMETERS);
  const at = image && pointDerivatives(camera, image, BALL_RADIUS);
  if (!l || !at) return null;
  const ballVariance = (input.ballSd ?? IDEAL_READER.ballSd) ** 2;
  const covariance = sum2(
    propagate2(
      at.xByCamera.subarray(0, BOUND_PARAMETERS),
      at.yByCamera.subarray(0, BOUND_PARAMETERS),
      inverseRows(l, BOUND_PARAMETERS, BOUND_PARAMETERS),
    ),
    transform2(at.byImage, { xx: ballVariance, xy: 0, yy: ballVariance }),
    outer2(at.byHeight[0], at.byHeight[1], (input.unevenness ?? 0) ** 2),
  );
  return { sdX: Math.sqrt(covariance.xx), sdY: Math.sqrt(covariance.yy), covariance };
};

import { PROJECTION, PROJECTION_LENGTH, projectInto } from './camera-model.ts';
import type { PlacedMark } from './mark-places.ts';
import { addObservation, type NormalEquations } from './normal-equations.ts';
import { CAMERA_PARAMETERS, type Camera } from './types.ts';

/** A careful finger on a full-size photo places a mark this well, px (one standard deviation). Common practice, no source. */
export const DEFAULT_MARK_SD = 2;

/** What disturbs a mark: the finger (px) and the height of the ground (m), one standard deviation each. */
export type MarkNoise = { readonly markSd: number; readonly unevenness: number };

/** A mark ready to be fitted: (a, b, c) whiten an image residual (e_x, e_y) to (a·e_x, b·e_x + c·e_y); `weight` is its robust weight. */
export type WeighedMark = {
  readonly placed: PlacedMark;
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly weight: number;
};

/** A mark that a finger alone disturbs. */
export const plainMark = (placed: PlacedMark, markSd: number): WeighedMark => ({
  placed,
  a: 1 / markSd,
  b: 0,
  c: 1 / markSd,
  weight: 1,
});

/** Degrees of freedom of the Student t distribution that stands for careless fingers and ill-set hoops: tails wide enough that one bad mark in six does no harm. */
const TAIL = 4;

/**
 * A mark with the covariance of its image residual: finger + J S Jᵀ for the setting S on the lawn + the ground's height seen in the picture.
 * With `robust` its weight is that of a two-dimensional Student t, (ν + 2)/(ν + d²), never above one.
 */
export const weighMark = (
  camera: Camera,
  placed: PlacedMark,
  noise: MarkNoise,
  robust: boolean,
): WeighedMark => {
  const out = new Float64Array(PROJECTION_LENGTH);
  if (!projectInto(camera, placed.x, placed.y, 0, out)) return plainMark(placed, noise.markSd);
  const [ax, ay, az, bx, by, bz] = out.subarray(PROJECTION.xByPoint) as unknown as number[];
  const { xx, xy, yy } = placed.setting;
  const ground = noise.unevenness ** 2;
  const finger = noise.markSd ** 2;
  const cxx = finger + ax! * (xx * ax! + xy * ay!) + ay! * (xy * ax! + yy * ay!) + ground * az! * az!;
  const cxy = ax! * (xx * bx! + xy * by!) + ay! * (xy * bx! + yy * by!) + ground * az! * bz!;
  const cyy = finger + bx! * (xx * bx! + xy * by!) + by! * (xy * bx! + yy * by!) + ground * bz! * bz!;
  // Inverse of the lower Cholesky factor of [cxx cxy; cxy cyy].
  const l11 = Math.sqrt(cxx);
  const l21 = cxy / l11;
  const l22 = Math.sqrt(cyy - l21 * l21);
  const whitened = { placed, a: 1 / l11, b: -l21 / (l11 * l22), c: 1 / l22 };
  if (!robust) return { ...whitened, weight: 1 };
  const ex = placed.mark.image.x - out[0]!;
  const ey = placed.mark.image.y - out[1]!;
  const square = (whitened.a * ex) ** 2 + (whitened.b * ex + whitened.c * ey) ** 2;
  return { ...whitened, weight: Math.min(1, (TAIL + 2) / (TAIL + square)) };
};

/** Squared standardized residual of each mark; Infinity for a point that the camera cannot see. */
export const markSquares = (camera: Camera, marks: readonly WeighedMark[]): number[] => {
  const out = new Float64Array(PROJECTION_LENGTH);
  return marks.map(({ placed, a, b, c }) => {
    if (!projectInto(camera, placed.x, placed.y, 0, out)) return Number.POSITIVE_INFINITY;
    const ex = placed.mark.image.x - out[0]!;
    const ey = placed.mark.image.y - out[1]!;
    return (a * ex) ** 2 + (b * ex + c * ey) ** 2;
  });
};

/** Minus twice the logarithm of the Student density that robust weights stand for, up to a constant: unlike weighted squares it keeps rising with a bad mark's distance. */
export const tailCost = (square: number): number => (TAIL + 2) * Math.log1p(square / TAIL);

const row = new Float64Array(CAMERA_PARAMETERS);
const projection = new Float64Array(PROJECTION_LENGTH);

/** Adds marks to the normal equations; a point that the camera cannot see makes the cost infinite. */
export const addMarks = (camera: Camera, marks: readonly WeighedMark[], equations: NormalEquations): void => {
  for (const { placed, a, b, c, weight } of marks) {
    if (!projectInto(camera, placed.x, placed.y, 0, projection)) {
      equations.cost = Number.POSITIVE_INFINITY;
      return;
    }
    const ex = placed.mark.image.x - projection[0]!;
    const ey = placed.mark.image.y - projection[1]!;
    for (let i = 0; i < CAMERA_PARAMETERS; i++) row[i] = a * projection[PROJECTION.xBy + i]!;
    addObservation(equations, row, a * ex, weight);
    for (let i = 0; i < CAMERA_PARAMETERS; i++)
      row[i] = b * projection[PROJECTION.xBy + i]! + c * projection[PROJECTION.yBy + i]!;
    addObservation(equations, row, b * ex + c * ey, weight);
  }
};

/**
 * Adds the share of the marks' normal matrix that the ground's height accounts for. The height h of one mark moves its whitened residual by
 * h·γ, and so the estimate by N⁻¹ Σ w rowᵀγ·h: the matrix is the sum of the outer products of Σ w rowᵀγ, times the variance of h.
 */
export const addMarkGround = (
  camera: Camera,
  marks: readonly WeighedMark[],
  unevenness: number,
  equations: NormalEquations,
): void => {
  for (const { placed, a, b, c, weight } of marks) {
    if (!projectInto(camera, placed.x, placed.y, 0, projection)) continue;
    const zx = projection[PROJECTION.xByPoint + 2]!;
    const zy = projection[PROJECTION.yByPoint + 2]!;
    const first = a * zx;
    const second = b * zx + c * zy;
    for (let i = 0; i < CAMERA_PARAMETERS; i++) {
      const byX = projection[PROJECTION.xBy + i]!;
      const byY = projection[PROJECTION.yBy + i]!;
      row[i] = weight * (first * a * byX + second * (b * byX + c * byY));
    }
    addObservation(equations, row, 0, unevenness ** 2);
  }
};

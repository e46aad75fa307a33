import { addLensPriors, type LensPriors } from './lens-priors.ts';
import { addMarkGround, addMarks, type MarkNoise, type WeighedMark } from './mark-observations.ts';
import {
  cholesky,
  completeTriangle,
  emptyEquations,
  inverseRows,
  type NormalEquations,
} from './normal-equations.ts';
import { CAMERA_PARAMETERS, type Camera, type CovarianceParts } from './types.ts';

/** The first nine rows (9 × size) of the inverse of the sum of normal equations. */
const cameraRows = (groups: readonly NormalEquations[]): Float64Array => {
  const size = groups[0]!.size;
  const total = new Float64Array(size * size);
  for (const { matrix } of groups) for (let i = 0; i < total.length; i++) total[i]! += matrix[i]!;
  const l = cholesky(total, size);
  if (!l) throw new Error('Expected positive definite normal equations but received singular ones');
  return inverseRows(l, size, CAMERA_PARAMETERS);
};

const firstSquare = (rows: Float64Array, size: number): Float64Array => {
  const square = new Float64Array(CAMERA_PARAMETERS ** 2);
  for (let i = 0; i < CAMERA_PARAMETERS; i++)
    square.set(rows.subarray(i * size, i * size + CAMERA_PARAMETERS), i * CAMERA_PARAMETERS);
  return square;
};

/** Covariance (9 × 9) of the camera when everything else that was estimated with it is left free. */
export const cameraCovariance = (groups: readonly NormalEquations[]): Float64Array =>
  firstSquare(cameraRows(groups), groups[0]!.size);

/**
 * The first nine rows and columns of N⁻¹ and of N⁻¹ N_g N⁻¹ for each group of observations g. Since the N_g add up to N, the parts add up to the
 * whole: each is the covariance that this group's noise alone would give the estimate.
 */
export const inverseByGroups = (
  groups: readonly NormalEquations[],
): { readonly covariance: Float64Array; readonly parts: Float64Array[] } => {
  const size = groups[0]!.size;
  const rows = cameraRows(groups);
  return {
    covariance: firstSquare(rows, size),
    parts: groups.map(({ matrix }) => sandwich(rows, matrix, size)),
  };
};

/** rows · N_g · rowsᵀ, where only the lower triangle of N_g is filled. */
const sandwich = (rows: Float64Array, lower: Float64Array, size: number): Float64Array => {
  const full = lower.slice();
  completeTriangle(full, size);
  const out = new Float64Array(CAMERA_PARAMETERS ** 2);
  const product = new Float64Array(size);
  for (let i = 0; i < CAMERA_PARAMETERS; i++) {
    product.fill(0);
    for (let k = 0; k < size; k++) {
      const a = rows[i * size + k]!;
      if (a !== 0) for (let m = 0; m < size; m++) product[m]! += a * full[k * size + m]!;
    }
    for (let j = 0; j < CAMERA_PARAMETERS; j++) {
      let sum = 0;
      for (let m = 0; m < size; m++) sum += product[m]! * rows[j * size + m]!;
      out[i * CAMERA_PARAMETERS + j] = sum;
    }
  }
  return out;
};

/** Covariance of a camera solved from marks alone, split by cause. */
export const splitCovariance = (
  camera: Camera,
  weighed: readonly WeighedMark[],
  priors: LensPriors,
  noise: MarkNoise,
): { readonly covariance: Float64Array; readonly parts: CovarianceParts } => {
  const { marks, ground } = markGroups(camera, weighed, noise, CAMERA_PARAMETERS);
  const lens = emptyEquations(CAMERA_PARAMETERS);
  addLensPriors(camera, priors, camera.radial[0], lens);
  const { covariance, parts } = inverseByGroups([marks, lens, ground]);
  const trace = new Float64Array(CAMERA_PARAMETERS ** 2);
  return { covariance, parts: { marks: parts[0]!, lens: parts[1]!, ground: parts[2]!, trace } };
};

/** The marks' normal equations split into what finger and setting give and what the ground's height gives; the two add up to the whole. */
export const markGroups = (
  camera: Camera,
  weighed: readonly WeighedMark[],
  noise: MarkNoise,
  size: number,
): { readonly marks: NormalEquations; readonly ground: NormalEquations } => {
  const marks = emptyEquations(size);
  const ground = emptyEquations(size);
  addMarks(camera, weighed, marks);
  addMarkGround(camera, weighed, noise.unevenness, ground);
  for (let i = 0; i < marks.matrix.length; i++) marks.matrix[i]! -= ground.matrix[i]!;
  return { marks, ground };
};

import { projectionJacobian } from '../camera/camera-model.ts';
import { CAMERA_PARAMETERS, type SolvedCamera } from '../camera/types.ts';
import type { Covariance2, LawnPoint } from '../units/points.ts';
import { lawnPoint, lawnPoint3 } from '../units/points.ts';
import type { Landmark } from '../vision/landmarks/find-landmarks.ts';

/** Where a landmark stands on the lawn, metres, with the picture's and the camera's uncertainty together. */
export type PlacedLandmark = { readonly point: LawnPoint; readonly covariance: Covariance2 };

/** What the model of an upright's foot leaves along its image, px: contact shadow, blades, the pixel grid. */
const FOOT_SD = 0.35;

/** Inverse of the 2 × 2 matrix [a b; c d]; null when it is singular. */
const invert2 = (a: number, b: number, c: number, d: number): [number, number, number, number] | null => {
  const det = a * d - b * c;
  return Math.abs(det) < 1e-12 ? null : [d / det, -b / det, -c / det, a / det];
};

/** J S Jᵀ for a 2 × n matrix J (row by row) and an n × n covariance S. */
const sandwich = (j: Float64Array, s: Float64Array, n: number): Covariance2 => {
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (let a = 0; a < n; a++)
    for (let b = 0; b < n; b++) {
      const v = s[a * n + b]!;
      xx += j[a]! * v * j[b]!;
      xy += j[a]! * v * j[n + b]!;
      yy += j[n + a]! * v * j[n + b]!;
    }
  return { xx, xy, yy };
};

/**
 * Uncertainty of a ground point whose image is fixed, from the camera's: with the image q(X, p), dX/dp = −(dq/dX)⁻¹ dq/dp. The foot's own
 * uncertainty in px is carried over by (dq/dX)⁻¹. Null when the point is not in front of the camera.
 */
const carried = (solved: SolvedCamera, point: LawnPoint): Covariance2 | null => {
  const jacobian = projectionJacobian(solved.camera, lawnPoint3(point.x, point.y, 0));
  if (jacobian === null) return null;
  const [a, b, , c, d] = jacobian.point as unknown as number[];
  const inverse = invert2(a!, b!, c!, d!);
  if (inverse === null) return null;
  const n = CAMERA_PARAMETERS;
  const byCamera = new Float64Array(2 * n);
  for (let k = 0; k < n; k++) {
    const px = jacobian.parameters[k]!;
    const py = jacobian.parameters[n + k]!;
    byCamera[k] = -(inverse[0] * px + inverse[1] * py);
    byCamera[n + k] = -(inverse[2] * px + inverse[3] * py);
  }
  const camera = sandwich(byCamera, solved.covariance, n);
  // An upright's image runs nearly down the picture: only that direction is blunt.
  const foot = FOOT_SD ** 2;
  return {
    xx: camera.xx + foot * inverse[1] ** 2,
    xy: camera.xy + foot * inverse[1] * inverse[3],
    yy: camera.yy + foot * inverse[3] ** 2,
  };
};

/** Places a landmark seen by `solved`; null when it is not in front of the camera. */
export const placeLandmark = (solved: SolvedCamera, { from, fit }: Landmark): PlacedLandmark | null => {
  const point = lawnPoint(from.x + fit.parameters[0]!, from.y + fit.parameters[1]!);
  const camera = carried(solved, point);
  return (
    camera && {
      point,
      covariance: {
        xx: fit.covariance.get(0, 0) + camera.xx,
        xy: fit.covariance.get(0, 1) + camera.xy,
        yy: fit.covariance.get(1, 1) + camera.yy,
      },
    }
  );
};

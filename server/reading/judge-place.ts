import type { Covariance2 } from '../units/points.ts';
import { normalCdf } from '../units/statistics.ts';

/** Whether a displacement lies within a tolerance: `null` when the picture cannot tell at the asked certainty. */
export type Within = boolean | null;

const decide = (probability: number, certainty: number): Within => {
  if (probability >= certainty) return true;
  return probability <= 1 - certainty ? false : null;
};

/** One coordinate: whether |`value`| ≤ `tolerance` (metres) for a normal error of `sd`. */
export const withinAlong = (value: number, sd: number, tolerance: number, certainty: number): Within => {
  if (sd <= 0) return Math.abs(value) <= tolerance;
  return decide(normalCdf((tolerance - value) / sd) - normalCdf((-tolerance - value) / sd), certainty);
};

/** Standard deviation of the direction in which a place is least certain, metres: the square root of the covariance's larger eigenvalue. */
export const worstSd = ({ xx, xy, yy }: Covariance2): number =>
  Math.sqrt((xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy));

/** Standard deviation of the distance from the proper place, metres: along the displacement itself, in the worst direction when there is none. */
export const sdOfDistance = (dx: number, dy: number, covariance: Covariance2): number => {
  const distance = Math.hypot(dx, dy);
  if (distance < 1e-9) return worstSd(covariance);
  const [ux, uy] = [dx / distance, dy / distance];
  return Math.sqrt(ux * ux * covariance.xx + 2 * ux * uy * covariance.xy + uy * uy * covariance.yy);
};

/**
 * A place on the plane: whether its distance from the proper place is within `tolerance`. The distance is judged along the displacement
 * found, and "within" must hold as well for the least certain direction, so that a long thin uncertainty cannot hide a displacement.
 */
export const withinPlane = (
  dx: number,
  dy: number,
  covariance: Covariance2,
  tolerance: number,
  certainty: number,
): Within => {
  const distance = Math.hypot(dx, dy);
  const along = withinAlong(distance, sdOfDistance(dx, dy, covariance), tolerance, certainty);
  const across = withinAlong(0, worstSd(covariance), tolerance, certainty);
  return along === true && across !== true ? null : along;
};

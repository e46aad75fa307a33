import { positionBound } from '../camera/bound.ts';
import { lookAt } from '../camera/rotation.ts';
import type { Camera } from '../camera/types.ts';
import type { Court, Side } from '../lawn/court.ts';
import { POINT_NAMES } from '../lawn/named-points.ts';
import type { LawnPoint } from '../units/points.ts';

/** A coordinate of the lawn: a halfway line is judged across it. */
export type Axis = 'x' | 'y';

/**
 * Standard deviation, metres, of the coordinate `axis` of a ball at `ball` that an ideal reader reaches with a picture from `camera` in which every
 * point in sight is marked and every line in sight (or `sides`) is followed; Infinity when the ball or the lawn is not seen.
 */
export const boundAcross = (
  camera: Camera,
  court: Court,
  ball: LawnPoint,
  axis: Axis,
  unevenness: number,
  sides?: readonly Side[],
): number => {
  const bound = positionBound(camera, {
    points: POINT_NAMES,
    court,
    ball,
    unevenness,
    ...(sides && { sides }),
  });
  if (bound === null) return Number.POSITIVE_INFINITY;
  return axis === 'x' ? bound.sdX : bound.sdY;
};

/** The same camera at another place (metres), held level, looking at `target` on the ground. */
export const movedTo = (
  camera: Camera,
  position: readonly [number, number, number],
  target: LawnPoint,
): Camera => ({
  ...camera,
  position,
  rotation: lookAt(position, [target.x, target.y, 0]),
});

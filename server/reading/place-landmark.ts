import { projectPoint } from '../camera/camera-model.ts';
import { propagate2, sum2, transform2 } from '../camera/covariance2.ts';
import { pointDerivatives } from '../camera/locate-ball.ts';
import type { SolvedCamera } from '../camera/types.ts';
import { metres } from '../units/numbers.ts';
import { type Covariance2, type LawnPoint, lawnPoint, lawnPoint3 } from '../units/points.ts';
import type { Landmark } from '../vision/landmarks/find-landmarks.ts';

/** Where a landmark stands on the lawn, metres, with the picture's and the camera's uncertainty together. */
export type PlacedLandmark = { readonly point: LawnPoint; readonly covariance: Covariance2 };

/** What the model of an upright's foot leaves, px: along its image (nearly down the picture) contact shadow and blades; across it light from one side and the pixel grid. */
const FOOT = { xx: 0.15 ** 2, xy: 0, yy: 0.35 ** 2 } as const;

/**
 * A fit that had to bend a thing's form by more than so many standard deviations took something else for a part of it, such as a shadow in line with it; its place is as much less sure
 * (Birge's ratio).
 */
const STRAINED = 2;

/** Places a landmark seen by `solved`; null when it is not in front of the camera. */
export const placeLandmark = (solved: SolvedCamera, { from, fit }: Landmark): PlacedLandmark | null => {
  const point = lawnPoint(from.x + fit.parameters[0]!, from.y + fit.parameters[1]!);
  const image = projectPoint(solved.camera, lawnPoint3(point.x, point.y, 0));
  const at = image && pointDerivatives(solved.camera, image, metres(0));
  if (!at) return null;
  const bent = Math.max(1, fit.strain / STRAINED) ** 2;
  const own = {
    xx: bent * fit.covariance.get(0, 0),
    xy: bent * fit.covariance.get(0, 1),
    yy: bent * fit.covariance.get(1, 1),
  };
  const camera = propagate2(at.xByCamera, at.yByCamera, solved.covariance);
  return { point, covariance: sum2(own, camera, transform2(at.byImage, FOOT)) };
};

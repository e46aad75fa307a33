import { projectPoint } from '../../server/camera/camera-model.ts';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import type { Camera, MarkedPoint, SolvedCamera } from '../../server/camera/types.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { CORNER_NAMES, namedPlace } from '../../server/lawn/named-points.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { CAMERA, makeNormal, makeRandom } from './lines-scene.ts';

/** The four corners as a finger marks them, with normal errors of `sd` px. */
export const fingerMarks = (seed: number, sd: number, camera: Camera = CAMERA): MarkedPoint[] => {
  const normal = makeNormal(makeRandom(seed));
  return CORNER_NAMES.map((name) => {
    const { x, y } = namedPlace(STANDARD_COURT, name);
    const image = projectPoint(camera, lawnPoint3(x, y, 0))!;
    return { name, image: imagePoint(image.x + sd * normal(), image.y + sd * normal()) };
  });
};

/** The camera solved from such marks. */
export const markedCamera = (points: readonly MarkedPoint[], camera: Camera = CAMERA): SolvedCamera => {
  const solved = solveCamera({ points, court: STANDARD_COURT, width: camera.width, height: camera.height });
  if (!solved.ok) throw new Error(solved.error.message);
  return solved.value;
};

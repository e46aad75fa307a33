import { projectionJacobian } from '../camera/camera-model.ts';
import { propagate2 } from '../camera/covariance2.ts';
import type { SightedMark } from '../camera/solve-sighting.ts';
import { CAMERA_PARAMETERS, type SolvedCamera } from '../camera/types.ts';
import type { Court } from '../lawn/court.ts';
import { HOOP_NUMBERS, type HoopNumber } from '../lawn/hoops.ts';
import { namedPlace, type PointName } from '../lawn/named-points.ts';
import { metres, pixels } from '../units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../units/points.ts';
import type { Raster } from '../units/raster.ts';
import { findHoop, findPeg, type Landmark } from '../vision/landmarks/find-landmarks.ts';
import { footImage } from './snap-marks.ts';

/** What is looked for without being marked: the peg first, which nothing else looks like. */
const UNMARKED: readonly PointName[] = ['peg', ...HOOP_NUMBERS.map((hoop) => `hoop${hoop}` as const)];
/** Something that nobody marked must be as sure as this (standard deviations of its brightness and whiteness). */
const SURE = 8;
/** It is looked for within so many standard deviations of where it should be seen, and of the camera's own uncertainty at most so many px. */
const WITHIN = 3.5;
const FARTHEST = 160;
/** What a hoop's setting, the ground and the fit add to that, px. */
const LEAST_REACH = 8;

/** Where `name` should be seen and how uncertain the camera leaves that, px; null outside the picture. */
const expected = (solved: SolvedCamera, court: Court, name: PointName) => {
  const { x, y } = namedPlace(court, name);
  const jacobian = projectionJacobian(solved.camera, lawnPoint3(x, y, 0));
  if (!jacobian) return null;
  const { image, parameters } = jacobian;
  const { width, height } = solved.camera;
  if (image.x < 0 || image.y < 0 || image.x > width || image.y > height) return null;
  const { xx, yy } = propagate2(
    parameters.subarray(0, CAMERA_PARAMETERS),
    parameters.subarray(CAMERA_PARAMETERS, 2 * CAMERA_PARAMETERS),
    solved.covariance,
  );
  return { place: { x, y }, reach: LEAST_REACH + WITHIN * Math.sqrt(Math.max(xx, yy)) };
};

const look = (raster: Raster, solved: SolvedCamera, court: Court, name: PointName): Landmark | null => {
  const at = expected(solved, court, name);
  if (!at || at.reach > FARTHEST) return null;
  const [cx, cy, height] = solved.camera.position;
  const distance = Math.hypot(at.place.x - cx, at.place.y - cy, height);
  // Metres along the line of sight, where a px stands for most.
  const ground = metres((at.reach * distance ** 2) / (solved.camera.focal * height));
  const reach = { ground, image: pixels(at.reach) };
  const found =
    name === 'peg'
      ? findPeg(raster, solved.camera, court, reach)
      : findHoop(raster, solved.camera, court, Number(name.slice('hoop'.length)) as HoopNumber, reach);
  return found && found.fit.evidence >= SURE ? found : null;
};

/** The next thing of the lawn that is in the picture but was not marked, measured; null when no further one is surely seen. `tried` names grow. */
export const nextUnmarked = (
  raster: Raster,
  solved: SolvedCamera,
  court: Court,
  marks: readonly SightedMark[],
  tried: Set<PointName>,
): SightedMark | null => {
  for (const name of UNMARKED) {
    if (tried.has(name) || marks.some(({ mark }) => mark.name === name)) continue;
    tried.add(name);
    const found = look(raster, solved, court, name);
    const foot = found && footImage(solved.camera, found);
    if (foot) return { mark: { name, image: imagePoint(foot.x, foot.y) }, sd: foot.sd };
  }
  return null;
};

import { pointAtHeight, projectionJacobian } from '../camera/camera-model.ts';
import type { SightedMark } from '../camera/solve-sighting.ts';
import type { Camera, MarkedPoint } from '../camera/types.ts';
import type { Court } from '../lawn/court.ts';
import type { HoopNumber } from '../lawn/hoops.ts';
import { MARKER_NAMES, type MarkerName, markerSide } from '../lawn/named-points.ts';
import { metres, pixels } from '../units/numbers.ts';
import { imagePoint, type LawnPoint, lawnPoint, lawnPoint3 } from '../units/points.ts';
import type { Raster } from '../units/raster.ts';
import { findHoop, findMarkedMarker, findPeg, type Landmark } from '../vision/landmarks/find-landmarks.ts';
import { markerFootOffset } from '../vision/landmarks/shapes.ts';

/** A hand's mark is searched around by so many px; a finger's three standard deviations and some. */
const SEARCH_PX = 8;
/** What the model of an upright's foot leaves, px. */
const FOOT_SD = 0.4;
/** A hand's mark, px. */
export const HAND_SD = 2;

const isMarker = (name: string): name is MarkerName => MARKER_NAMES.includes(name as MarkerName);

/** Metres of ground that a finger's reach stands for along the line of sight, where it stands for most. */
export const groundReach = (camera: Camera, ground: LawnPoint): number => {
  const height = camera.position[2];
  const distance = Math.hypot(ground.x - camera.position[0], ground.y - camera.position[1], height);
  return (SEARCH_PX * distance ** 2) / (camera.focal * height);
};

const measure = (raster: Raster, camera: Camera, court: Court, mark: MarkedPoint): Landmark | null => {
  const ground = pointAtHeight(camera, mark.image, metres(0));
  if (ground === null) return null;
  const reach = { ground: metres(groundReach(camera, ground)), image: pixels(SEARCH_PX) };
  const { name } = mark;
  if (isMarker(name)) {
    // The mark is at the marker's foot; `findMarkedMarker` counts from the boundary.
    const [ox, oy] = markerFootOffset(markerSide(name));
    return findMarkedMarker(raster, camera, court, name, reach, lawnPoint(ground.x - ox, ground.y - oy));
  }
  if (name === 'peg') return findPeg(raster, camera, court, reach, ground);
  if (!name.startsWith('hoop')) return null;
  return findHoop(raster, camera, court, Number(name.slice('hoop'.length)) as HoopNumber, reach, ground);
};

/** Foot of a measured thing in the picture, with its standard deviation across the line of sight and along it together, px. */
export const footImage = (
  camera: Camera,
  { from, fit }: Landmark,
): { x: number; y: number; sd: number } | null => {
  const foot = lawnPoint3(from.x + fit.parameters[0]!, from.y + fit.parameters[1]!, 0);
  const jacobian = projectionJacobian(camera, foot);
  if (jacobian === null) return null;
  const [a, b, , c, d] = jacobian.point as unknown as number[];
  const covariance = fit.covariance;
  const variance = (u: number, v: number): number =>
    u * u * covariance.get(0, 0) + 2 * u * v * covariance.get(0, 1) + v * v * covariance.get(1, 1);
  const sd = Math.sqrt((variance(a!, b!) + variance(c!, d!)) / 2 + FOOT_SD ** 2);
  return { x: jacobian.image.x, y: jacobian.image.y, sd };
};

/** Evidence from which nothing is found by chance, and how often something is below that. */
const NO_CHANCE = 10;
const BY_CHANCE = 0.1;

/**
 * Probability that what was found `apart` px from a hand's mark is not the thing marked: chance finds lie anywhere in a finger's reach, the thing itself lies about the mark as fingers do (a normal
 * distribution in both directions).
 */
const chanceFind = (apart: number, evidence: number): number => {
  if (evidence >= NO_CHANCE) return 0;
  const anywhere = BY_CHANCE / (Math.PI * SEARCH_PX ** 2);
  const about = ((1 - BY_CHANCE) * Math.exp(-0.5 * (apart / HAND_SD) ** 2)) / (2 * Math.PI * HAND_SD ** 2);
  return anywhere / (anywhere + about);
};

/**
 * Replaces each hand's mark of a hoop, the peg or a marker by the measured foot when one is seen within a finger's reach of it; the other
 * marks keep a hand's uncertainty.
 */
export const snapMarks = (
  raster: Raster,
  camera: Camera,
  court: Court,
  marks: readonly MarkedPoint[],
): SightedMark[] =>
  marks.map((mark) => {
    const found = measure(raster, camera, court, mark);
    const foot = found && footImage(camera, found);
    const apart = foot ? Math.hypot(foot.x - mark.image.x, foot.y - mark.image.y) : Number.POSITIVE_INFINITY;
    if (!found || !foot || apart > 1.5 * SEARCH_PX) return { mark, sd: HAND_SD };
    const doubt = apart * Math.sqrt(chanceFind(apart, found.fit.evidence));
    const sd = Math.min(HAND_SD, Math.hypot(foot.sd, doubt));
    return { mark: { name: mark.name, image: imagePoint(foot.x, foot.y) }, sd };
  });

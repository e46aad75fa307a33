import { pointAtHeight } from '../camera/camera-model.ts';
import type { SolvedCamera } from '../camera/types.ts';
import { type CourtCheck, DEFAULT_TOLERANCE } from '../contract/court-check.ts';
import type { Marks } from '../contract/marks.ts';
import { type Court, outwardNormal } from '../lawn/court.ts';
import { HOOP_NUMBERS, hoopPlace, pegPlace } from '../lawn/hoops.ts';
import {
  CORNER_NAMES,
  MARKER_NAMES,
  type MarkerName,
  markerPlace,
  type PointName,
} from '../lawn/named-points.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import { metres } from '../units/numbers.ts';
import { imagePoint, type LawnPoint } from '../units/points.ts';
import {
  findHoop,
  findMarker,
  findPeg,
  type Landmark,
  markerSide,
} from '../vision/landmarks/find-landmarks.ts';
import type { TracedSide } from '../vision/types.ts';
import { checkWarnings, type Turned } from './check-warnings.ts';
import { shapeOf, squarenessOf, tapedScale } from './court-scale.ts';
import { courtOf } from './from-marks.ts';
import { sdOfDistance, withinAlong, withinPlane, worstSd } from './judge-place.ts';
import { placeLandmark } from './place-landmark.ts';
import { poseOf } from './pose-of-photo.ts';
import type { Progress } from './progress.ts';

/** What the steps of one check share. */
export type CheckJob = {
  readonly photo: UprightPhoto;
  readonly court: Court;
  readonly solved: SolvedCamera;
  readonly marks: Marks;
  readonly tolerance: number;
};

type PlaneCheck = CourtCheck['peg'];
type MarkerCheck = CourtCheck['markers'][number];

const UNSEEN: PlaneCheck = { dx: null, dy: null, sd: null, within: null };

/** Distance from a hand's mark within which the thing marked is looked for, metres. */
const BESIDE_MARK = { ground: metres(0.15) };

/** Where the user marked the point, on the ground; the proper place when it was not marked. */
const startAt = (
  job: CheckJob,
  name: PointName,
  proper: LawnPoint,
): { near: LawnPoint; reach?: typeof BESIDE_MARK } => {
  const pair = job.marks.points[name];
  const ground = pair ? pointAtHeight(job.solved.camera, imagePoint(...pair), metres(0)) : null;
  return ground ? { near: ground, reach: BESIDE_MARK } : { near: proper };
};

const planeCheck = (job: CheckJob, proper: LawnPoint, found: Landmark | null): PlaneCheck => {
  const placed = found && placeLandmark(job.solved, found);
  if (!placed) return UNSEEN;
  const dx = placed.point.x - proper.x;
  const dy = placed.point.y - proper.y;
  const { covariance } = placed;
  return {
    dx,
    dy,
    sd: worstSd(covariance),
    sdX: Math.sqrt(covariance.xx),
    sdY: Math.sqrt(covariance.yy),
    distance: Math.hypot(dx, dy),
    sdDistance: sdOfDistance(dx, dy, covariance),
    within: withinPlane(dx, dy, covariance, job.tolerance, job.marks.certainty),
  };
};

const markerCheck = (job: CheckJob, name: MarkerName): MarkerCheck => {
  const proper = markerPlace(job.court, name);
  const { photo, solved, court } = job;
  const found = findMarker(photo.raster, solved.camera, court, name);
  const placed = found && placeLandmark(solved, found);
  const label = name.slice('marker'.length);
  if (!placed) return { name: label, along: null, sd: null, within: null };
  const northward = outwardNormal(markerSide(name))[0] !== 0;
  const along = northward ? placed.point.y - proper.y : placed.point.x - proper.x;
  const sd = Math.sqrt(northward ? placed.covariance.yy : placed.covariance.xx);
  return { name: label, along, sd, within: withinAlong(along, sd, job.tolerance, job.marks.certainty) };
};

/** Turn of a hoop out of the parallel to the short boundaries, radians, when it is three standard deviations or more. */
const turnOf = (name: string, found: Landmark | null): Turned[] => {
  if (!found) return [];
  const turn = found.fit.parameters[4]!;
  const sd = Math.sqrt(found.fit.covariance.get(4, 4));
  return Math.abs(turn) > 3 * sd ? [{ name, turn, sd }] : [];
};

const paintWidths = (sides: readonly TracedSide[]): CourtCheck['paint'] =>
  sides.flatMap(({ side, paintWidth }) => (paintWidth === null ? [] : [{ side, width: paintWidth }]));

/** Marks that say where the camera stood: the corners when all are there, else all; a hoop that is out of place must not move the camera. */
const poseMarks = (marks: Marks): Marks => {
  const corners = CORNER_NAMES.filter((name) => marks.points[name] !== undefined);
  if (corners.length < CORNER_NAMES.length) return marks;
  return { ...marks, points: Object.fromEntries(corners.map((name) => [name, marks.points[name]])) };
};

/**
 * Checks a court's setting on one photo: the eight boundary markers, six hoops and the peg against their proper places and the tolerance
 * (`marks.tolerance`, metres). Displacements in metres, east and north positive. What is not seen has null in place of numbers. Throws
 * `InputError` when the marks cannot be used.
 */
export const checkCourt = (photo: UprightPhoto, marks: Marks, progress: Progress = () => {}): CourtCheck => {
  const court = courtOf(marks);
  const pose = poseOf(photo, poseMarks(marks), progress);
  const { solved, sides } = pose;
  const shape = shapeOf(photo, pose);
  const tolerance = marks.tolerance ?? DEFAULT_TOLERANCE;
  const job: CheckJob = { photo, court, solved, marks, tolerance };
  progress('find', 'Looking for the markers, the hoops and the peg.');
  const hoops = HOOP_NUMBERS.map((hoop) => {
    const { near, reach } = startAt(job, `hoop${hoop}`, hoopPlace(court, hoop));
    return { hoop, found: findHoop(photo.raster, solved.camera, court, hoop, reach, near) };
  });
  const { near, reach } = startAt(job, 'peg', pegPlace(court));
  const peg = findPeg(photo.raster, solved.camera, court, reach, near);
  const checked = {
    markers: MARKER_NAMES.map((name) => markerCheck(job, name)),
    hoops: hoops.map(({ hoop, found }) => ({
      name: `hoop${hoop}`,
      ...planeCheck(job, hoopPlace(court, hoop), found),
    })),
    peg: planeCheck(job, pegPlace(court), peg),
  };
  return {
    tolerance,
    ...checked,
    paint: paintWidths(sides),
    squareness: squarenessOf(shape, court),
    scale: tapedScale(job, checked),
    warnings: checkWarnings(
      checked,
      hoops.flatMap(({ hoop, found }) => turnOf(`hoop${hoop}`, found)),
      sides,
    ),
  };
};

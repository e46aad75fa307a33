import type { SolvedCamera } from '../camera/types.ts';
import { type CourtCheck, DEFAULT_TOLERANCE } from '../contract/court-check.ts';
import type { Marks } from '../contract/marks.ts';
import { type Court, outwardNormal } from '../lawn/court.ts';
import { hoopPlace, pegPlace } from '../lawn/hoops.ts';
import {
  CORNER_NAMES,
  MARKER_NAMES,
  type MarkerName,
  markerPlace,
  markerSide,
} from '../lawn/named-points.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import type { LawnPoint } from '../units/points.ts';
import { findMarker, type Landmark, SEARCH_REACH } from '../vision/landmarks/find-landmarks.ts';
import type { Sun } from '../vision/landmarks/shadows.ts';
import { HOOP_LEAN, HOOP_TURN } from '../vision/landmarks/shapes.ts';
import type { TracedSide } from '../vision/types.ts';
import { checkWarnings, type Turned } from './check-warnings.ts';
import { shapeOf, squarenessOf, tapedScale } from './court-scale.ts';
import { describeCamera } from './describe-camera.ts';
import { findUprights } from './find-uprights.ts';
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

const markerCheck = (job: CheckJob, name: MarkerName, sun: Sun | null): MarkerCheck => {
  const proper = markerPlace(job.court, name);
  const { photo, solved, court } = job;
  const found = findMarker(photo.raster, solved.camera, court, name, SEARCH_REACH, proper, sun);
  const placed = found && placeLandmark(solved, found);
  const label = name.slice('marker'.length);
  if (!placed) return { name: label, along: null, sd: null, within: null };
  const northward = outwardNormal(markerSide(name))[0] !== 0;
  const along = northward ? placed.point.y - proper.y : placed.point.x - proper.x;
  const sd = Math.sqrt(northward ? placed.covariance.yy : placed.covariance.xx);
  return { name: label, along, sd, within: withinAlong(along, sd, job.tolerance, job.marks.certainty) };
};

/** Angles below this are the eye's own: hoops are set by eye, and the camera's yaw is known no better. Radians (1°). */
const BY_EYE = Math.PI / 180;
/** An angle is reported from so many standard deviations. */
const REPORTED = 4;

/** One angle of a hoop as fitted, when it is more than chance and eye explain. */
const angleOf = (name: string, found: Landmark | null, at: number): Turned[] => {
  if (!found) return [];
  const turn = found.fit.parameters[at]!;
  const sd = Math.hypot(Math.sqrt(found.fit.covariance.get(at, at)), BY_EYE);
  return Math.abs(turn) > REPORTED * sd ? [{ name, turn, sd }] : [];
};

/** A hoop's turn and lean as the answer states them, degrees. */
const anglesOf = (found: Landmark | null) => {
  if (!found) return {};
  const { parameters, covariance } = found.fit;
  const angle = (at: number) => (parameters[at]! * 180) / Math.PI;
  const sd = (at: number) => (Math.sqrt(covariance.get(at, at)) * 180) / Math.PI;
  return {
    turn: angle(HOOP_TURN),
    sdTurn: sd(HOOP_TURN),
    lean: angle(HOOP_LEAN),
    sdLean: sd(HOOP_LEAN),
  };
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
  const { hoops, peg, sun } = findUprights(job);
  const checked = {
    markers: MARKER_NAMES.map((name) => markerCheck(job, name, sun)),
    hoops: hoops.map(({ hoop, found }) => ({
      name: `hoop${hoop}`,
      ...planeCheck(job, hoopPlace(court, hoop), found),
      ...anglesOf(found),
    })),
    peg: planeCheck(job, pegPlace(court), peg),
  };
  return {
    tolerance,
    ...checked,
    paint: paintWidths(sides),
    squareness: squarenessOf(shape, court),
    scale: tapedScale(job, checked),
    photo: { width: photo.raster.width, height: photo.raster.height },
    camera: describeCamera(solved, sides, pose.points, court),
    warnings: checkWarnings(
      checked,
      hoops.flatMap(({ hoop, found }) => angleOf(`hoop${hoop}`, found, HOOP_TURN)),
      hoops.flatMap(({ hoop, found }) => angleOf(`hoop${hoop}`, found, HOOP_LEAN)),
      sides,
    ),
  };
};

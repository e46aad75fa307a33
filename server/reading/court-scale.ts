import { type CourtShape, courtShape } from '../camera/court-shape.ts';
import type { CourtCheck } from '../contract/court-check.ts';
import type { Court } from '../lawn/court.ts';
import {
  MARKER_NAMES,
  type MarkerName,
  markerSide,
  namedPlace,
  type PointName,
} from '../lawn/named-points.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import { type LawnPoint, lawnPoint } from '../units/points.ts';
import type { CheckJob } from './check-court.ts';
import { focalPriorOf } from './from-marks.ts';
import type { PhotoPose } from './pose-of-photo.ts';

/** The shape of the marked court on a photo whose pose is known. */
export const shapeOf = (
  photo: UprightPhoto,
  { court, points, solved, sides }: PhotoPose,
): CourtShape | null => {
  const { width, height } = photo.raster;
  const lines = sides.flatMap(({ samples }) => samples);
  return lines.length === 0
    ? null
    : courtShape(solved, court, points, lines, focalPriorOf(photo.focal35, width, height));
};

/** The court's shape as the answer states it: lengths in metres. */
export const squarenessOf = (
  shape: CourtShape | null,
  court: Court,
): NonNullable<CourtCheck['squareness']> | null =>
  shape && {
    diagonals: shape.diagonals,
    diagonalsSd: shape.diagonalsSd,
    width: shape.stretch * court.width,
    widthSd: shape.stretchSd * court.width,
  };

/** A tape held by two people, metres (one standard deviation). Common practice, no source. */
const TAPE_SD = 0.01;
/** A corner of the painted line, metres. */
const CORNER_SD = 0.005;

type Measured = { readonly point: LawnPoint; readonly sd: number };

const isMarker = (name: PointName): name is MarkerName => MARKER_NAMES.includes(name as MarkerName);

/** Where the check found `name`; corners stand where the lines cross. Null when it was not seen. */
const measured = (
  job: CheckJob,
  checked: Pick<CourtCheck, 'markers' | 'hoops' | 'peg'>,
  name: PointName,
): Measured | null => {
  const { x, y } = namedPlace(job.court, name);
  if (name.startsWith('corner')) return { point: lawnPoint(x, y), sd: CORNER_SD };
  if (isMarker(name)) {
    const marker = checked.markers.find((one) => `marker${one.name}` === name);
    if (!marker || marker.along === null || marker.sd === null) return null;
    const upright = ['west', 'east'].includes(markerSide(name));
    return {
      point: upright ? lawnPoint(x, y + marker.along) : lawnPoint(x + marker.along, y),
      sd: marker.sd,
    };
  }
  const place = name === 'peg' ? checked.peg : checked.hoops.find((hoop) => hoop.name === name);
  if (!place || place.dx === null || place.dy === null || place.sd === null) return null;
  return { point: lawnPoint(x + place.dx, y + place.dy), sd: place.sd };
};

/**
 * What a taped distance says of the scale: the same distance in the picture, on a court taken to have its stated size, divided by the tape's. Null without a
 * tape or when an end was not seen.
 */
export const tapedScale = (
  job: CheckJob,
  checked: Pick<CourtCheck, 'markers' | 'hoops' | 'peg'>,
): { ratio: number; sd: number } | null => {
  const { taped } = job.marks;
  const from = taped && measured(job, checked, taped.from);
  const to = taped && measured(job, checked, taped.to);
  if (!taped || !from || !to) return null;
  const seen = Math.hypot(from.point.x - to.point.x, from.point.y - to.point.y);
  return { ratio: seen / taped.distance, sd: Math.hypot(from.sd, to.sd, TAPE_SD) / taped.distance };
};

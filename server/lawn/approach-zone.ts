import { degrees, type Metres, metres, type Radians, radians } from '../units/numbers.ts';
import { type LawnPoint, lawnPoint } from '../units/points.ts';
import type { Court } from './court.ts';
import { type HoopNumber, hoopPlace } from './hoops.ts';

/** Bounds of an approach zone: half its opening angle, and the nearest and farthest distance before the hoop. A setting. */
export type ZoneBounds = { readonly halfAngle: Radians; readonly near: Metres; readonly far: Metres };

/**
 * Common practice, no source: within about 20–30° either side of the hoop's axis, cut off near the hoop and at a distance from which the
 * hoop can be run.
 */
export const DEFAULT_ZONE: ZoneBounds = { halfAngle: degrees(25), near: metres(0.3), far: metres(3) };

/** A hoop and the direction in which it is run: 1 northward, −1 southward. */
export type HoopRun = { readonly hoop: HoopNumber; readonly direction: 1 | -1 };

/** Distance in metres below which a point counts as the hoop's own: far below any reading, far above rounding. */
const AT_THE_HOOP = 1e-6;

/** Corners of the trapezoid before the hoop: near west, near east, far east, far west. */
export const approachZone = (
  court: Court,
  run: HoopRun,
  bounds: ZoneBounds = DEFAULT_ZONE,
): readonly [LawnPoint, LawnPoint, LawnPoint, LawnPoint] => {
  const hoop = hoopPlace(court, run.hoop);
  const corner = (distance: number, east: 1 | -1) =>
    lawnPoint(hoop.x + east * distance * Math.tan(bounds.halfAngle), hoop.y - run.direction * distance);
  return [corner(bounds.near, -1), corner(bounds.near, 1), corner(bounds.far, 1), corner(bounds.far, -1)];
};

/** Distance from `p` to the segment from `a` to `b`. */
const toSegment = (p: LawnPoint, a: LawnPoint, b: LawnPoint): number => {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const along = ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1);
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
};

/** Angle at the hoop between its axis on the playing side and the line to `point`: 0 straight before it, π straight behind. At the hoop itself 0. */
export const angleToHoop = (court: Court, run: HoopRun, point: LawnPoint): Radians => {
  const hoop = hoopPlace(court, run.hoop);
  const before = run.direction * (hoop.y - point.y);
  const aside = Math.abs(point.x - hoop.x);
  // At the hoop itself every direction is as good; rounding must not turn it into "behind".
  return radians(Math.hypot(before, aside) < AT_THE_HOOP ? 0 : Math.atan2(aside, before));
};

/** Whether `point` lies in the approach zone, bounds included. */
export const inApproachZone = (
  court: Court,
  run: HoopRun,
  point: LawnPoint,
  bounds: ZoneBounds = DEFAULT_ZONE,
): boolean => {
  const hoop = hoopPlace(court, run.hoop);
  const before = run.direction * (hoop.y - point.y);
  const aside = Math.abs(point.x - hoop.x);
  return before >= bounds.near && before <= bounds.far && aside <= before * Math.tan(bounds.halfAngle);
};

/** Distance from `point` to the nearest place of the approach zone; 0 inside it. */
export const toApproachZone = (
  court: Court,
  run: HoopRun,
  point: LawnPoint,
  bounds: ZoneBounds = DEFAULT_ZONE,
): Metres => {
  if (inApproachZone(court, run, point, bounds)) return metres(0);
  const corners = approachZone(court, run, bounds);
  return metres(Math.min(...corners.map((corner, i) => toSegment(point, corner, corners[(i + 1) % 4]!))));
};

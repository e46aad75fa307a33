import type { Court } from '../lawn/court.ts';
import { namedPlace } from '../lawn/named-points.ts';
import type { CameraFault } from './camera-fault.ts';
import type { MarkedPoint } from './types.ts';

type Plane = { readonly x: number; readonly y: number };

/** A triangle flatter than this share of the court's diagonal counts as three points in line. */
const FLAT_ON_LAWN = 0.01;
/** A triangle of marks flatter than this many px tells no more than a line does: three standard deviations of a finger. */
const FLAT_IN_PHOTO = 6;

/** Smallest height of the triangle abc: twice its area over its longest side. */
const flatness = (a: Plane, b: Plane, c: Plane): number => {
  const area = Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
  const side = Math.max(
    Math.hypot(a.x - b.x, a.y - b.y),
    Math.hypot(b.x - c.x, b.y - c.y),
    Math.hypot(a.x - c.x, a.y - c.y),
  );
  return side === 0 ? 0 : area / side;
};

type Triangle = (i: number, j: number, k: number) => boolean;

/** Whether four of `count` points have no three in line, by the test `open` on three of them. */
const hasFour = (count: number, open: Triangle): boolean => {
  for (let a = 0; a < count; a++)
    for (let b = a + 1; b < count; b++)
      for (let c = b + 1; c < count; c++) {
        if (!open(a, b, c)) continue;
        for (let d = c + 1; d < count; d++) if (open(a, b, d) && open(a, c, d) && open(b, c, d)) return true;
      }
  return false;
};

/** Names of the three points of the flattest triangle. */
const flattest = (names: readonly string[], places: readonly Plane[]): string => {
  let best = { height: Number.POSITIVE_INFINITY, text: '' };
  for (let i = 0; i < names.length; i++)
    for (let j = i + 1; j < names.length; j++)
      for (let k = j + 1; k < names.length; k++) {
        const height = flatness(places[i]!, places[j]!, places[k]!);
        if (height < best.height) best = { height, text: `${names[i]}, ${names[j]} and ${names[k]}` };
      }
  return best.text;
};

const tooFew = (points: readonly MarkedPoint[]): CameraFault => ({
  code: 'too-few-points',
  message: `Found ${points.length} marked point${points.length === 1 ? '' : 's'}; at least four are needed. Mark the four corners, or hoops and the peg when a corner is out of the picture.`,
});

const inLine = (
  where: 'lawn' | 'photo',
  points: readonly MarkedPoint[],
  places: readonly Plane[],
): CameraFault => ({
  code: 'points-in-line',
  message:
    where === 'lawn'
      ? `Among the ${points.length} marked points there are no four of which no three lie in one line (${flattest(
          points.map((p) => p.name),
          places,
        )} do). Mark another point aside from that line.`
      : `The marks of ${flattest(
          points.map((p) => p.name),
          places,
        )} lie in one line in the photo, so they do not fix the lawn. Mark another point aside from that line, or move the mark that is wrong.`,
});

const outside = (points: readonly MarkedPoint[], width: number, height: number): CameraFault | null => {
  const point = points.find(
    ({ image }) => !(image.x >= 0 && image.x <= width && image.y >= 0 && image.y <= height),
  );
  if (!point) return null;
  return {
    code: 'point-outside',
    point: point.name,
    message: `The mark of ${point.name} at (${point.image.x}, ${point.image.y}) is outside the photo of ${width} × ${height} px. Move it into the photo, or leave it out and mark another point.`,
  };
};

const twice = (points: readonly MarkedPoint[]): CameraFault | null => {
  const point = points.find((p, i) => points.findIndex((q) => q.name === p.name) < i);
  if (!point) return null;
  return {
    code: 'point-twice',
    point: point.name,
    message: `${point.name} is marked twice; each point can be marked once. Remove one of the two marks.`,
  };
};

/** The first reason why these marks cannot fix a camera, whatever the camera; null when there is none. */
export const checkMarks = (
  points: readonly MarkedPoint[],
  court: Court,
  width: number,
  height: number,
): CameraFault | null => {
  if (points.length < 4) return tooFew(points);
  const fault = twice(points) ?? outside(points, width, height);
  if (fault) return fault;
  const lawn = points.map((p) => namedPlace(court, p.name));
  const photo = points.map((p) => p.image);
  const flat = FLAT_ON_LAWN * Math.hypot(court.width, court.length);
  const openOnLawn: Triangle = (i, j, k) => flatness(lawn[i]!, lawn[j]!, lawn[k]!) > flat;
  if (!hasFour(points.length, openOnLawn)) return inLine('lawn', points, lawn);
  const open: Triangle = (i, j, k) =>
    openOnLawn(i, j, k) && flatness(photo[i]!, photo[j]!, photo[k]!) > FLAT_IN_PHOTO;
  return hasFour(points.length, open) ? null : inLine('photo', points, photo);
};

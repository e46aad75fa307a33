import { CORNER_NAMES, type PointName } from '../lawn/named-points.ts';
import type { CameraFault } from './camera-fault.ts';
import { centredHomography, type PictureSize } from './fit-marks.ts';
import { homographyDepth } from './homography.ts';
import type { PlacedMark } from './mark-places.ts';
import { det3 } from './rotation.ts';
import type { MarkedPoint } from './types.ts';

/** How the marks lie: as a lawn seen from above, as its mirror image, or crossing over. */
export type MarkOrder = 'proper' | 'mirrored' | 'crossed';

/** Twice the signed area of the triangle abc in the picture (y down): positive when it runs clockwise to the eye. */
const turn = (a: MarkedPoint, b: MarkedPoint, c: MarkedPoint): number =>
  (b.image.x - a.image.x) * (c.image.y - a.image.y) - (b.image.y - a.image.y) * (c.image.x - a.image.x);

/** Corners 1, 2, 3, 4 run clockwise around a convex figure when the lawn is seen from above. */
const cornerOrder = (corners: readonly MarkedPoint[]): MarkOrder => {
  const turns = corners.map((corner, i) => turn(corner, corners[(i + 1) % 4]!, corners[(i + 2) % 4]!));
  if (turns.every((value) => value > 0)) return 'proper';
  return turns.every((value) => value < 0) ? 'mirrored' : 'crossed';
};

/**
 * For other points the homography tells: the ground's area element is mapped with the sign of det H / w³, negative for a lawn seen from above
 * (north is up on the lawn, down is positive in the picture).
 */
const homographyOrder = (marks: readonly PlacedMark[], size: PictureSize): MarkOrder => {
  const h = centredHomography(marks, size);
  const depths = marks.map((mark) => homographyDepth(h, mark));
  if (!depths.every((depth) => depth > 0) && !depths.every((depth) => depth < 0)) return 'crossed';
  return det3(h) * Math.sign(depths[0]!) < 0 ? 'proper' : 'mirrored';
};

/** Order of the marks: by the corners when all four are marked, else by the homography of all points. */
export const markOrder = (marks: readonly PlacedMark[], size: PictureSize): MarkOrder => {
  const corners = CORNER_NAMES.flatMap((name) => marks.find(({ mark }) => mark.name === name)?.mark ?? []);
  return corners.length === 4 ? cornerOrder(corners) : homographyOrder(marks, size);
};

/** Name of the point that lies mirrored east–west. */
const EAST_WEST: Partial<Record<PointName, PointName>> = {
  corner1: 'corner4',
  corner2: 'corner3',
  hoop1: 'hoop4',
  hoop2: 'hoop3',
  markerW: 'markerE',
  'markerS10.5': 'markerS17.5',
  'markerN10.5': 'markerN17.5',
};
/** Name of the point that lies mirrored north–south. */
const NORTH_SOUTH: Partial<Record<PointName, PointName>> = {
  corner1: 'corner2',
  corner4: 'corner3',
  hoop1: 'hoop2',
  hoop4: 'hoop3',
  hoop5: 'hoop6',
  'markerS10.5': 'markerN10.5',
  markerS14: 'markerN14',
  'markerS17.5': 'markerN17.5',
};

const mirrored = (
  points: readonly MarkedPoint[],
  map: Partial<Record<PointName, PointName>>,
): MarkedPoint[] => {
  const both = new Map(
    Object.entries(map).flatMap(([a, b]) => [
      [a as PointName, b],
      [b, a as PointName],
    ]),
  );
  return points.map((point) => ({ ...point, name: both.get(point.name) ?? point.name }));
};

const permutations = <T>(items: readonly T[]): T[][] =>
  items.length < 2
    ? [[...items]]
    : items.flatMap((item, i) =>
        permutations(items.filter((_, j) => j !== i)).map((rest) => [item, ...rest]),
      );

/** The same marks under every other order of their corner names, and mirrored as a whole. */
export const otherOrders = (points: readonly MarkedPoint[]): MarkedPoint[][] => {
  const corners = points.map((p) => p.name).filter((name) => name.startsWith('corner'));
  const shuffled = permutations(corners)
    .filter((order) => order.some((name, i) => name !== corners[i]))
    .map((order) => {
      const names = new Map(corners.map((name, i) => [name, order[i]!]));
      return points.map((point) => ({ ...point, name: names.get(point.name) ?? point.name }));
    });
  const all = [...shuffled, mirrored(points, EAST_WEST), mirrored(points, NORTH_SOUTH)];
  return all.filter((order, i) => all.findIndex((other) => sameNames(order, other)) === i);
};

const sameNames = (a: readonly MarkedPoint[], b: readonly MarkedPoint[]): boolean =>
  a.every((point, i) => point.name === b[i]!.name);

/** How many marks keep their name. */
const kept = (order: readonly MarkedPoint[], points: readonly MarkedPoint[]): number =>
  order.filter((point, i) => point.name === points[i]!.name).length;

/** A difference of cost (in variances) below this does not tell two orders apart. */
const TELLING = 9;

/** The order that fits best by `cost`; among orders that fit about equally the one that keeps most names. Null when none fits. */
export const bestOrder = (
  points: readonly MarkedPoint[],
  cost: (order: readonly MarkedPoint[]) => number | null,
): { readonly order: MarkedPoint[]; readonly cost: number } | null => {
  const rated = otherOrders(points)
    .map((order) => ({ order, cost: cost(order) ?? Number.POSITIVE_INFINITY, kept: kept(order, points) }))
    .filter((entry) => Number.isFinite(entry.cost));
  const least = Math.min(...rated.map((entry) => entry.cost));
  const close = rated.filter((entry) => entry.cost <= least + TELLING);
  return close.sort((a, b) => b.kept - a.kept || a.cost - b.cost)[0] ?? null;
};

const list = (points: readonly MarkedPoint[], found: readonly MarkedPoint[]): string =>
  points
    .map((point, i) => ({ was: found[i]!.name, is: point.name }))
    .filter(({ was, is }) => was !== is)
    .map(({ was, is }) => `${was} is ${is}`)
    .join(', ');

/** The fault of marks in the wrong order, with the order that fits when there is one. */
export const orderFault = (
  order: Exclude<MarkOrder, 'proper'>,
  points: readonly MarkedPoint[],
  suggestion: readonly MarkedPoint[] | null,
): CameraFault => {
  const found =
    order === 'mirrored'
      ? 'The marks run the wrong way round: they show the lawn as in a mirror.'
      : 'The marks cross over: joined in order they do not go round the lawn.';
  const advice = suggestion
    ? `Put them in this order: ${list(suggestion, points)}.`
    : 'Check which mark belongs to which point.';
  return {
    code: order === 'mirrored' ? 'mirrored-order' : 'crossed-order',
    message: `${found} Corners 1, 2, 3, 4 (south-west, north-west, north-east, south-east) run clockwise seen from above. ${advice}`,
    ...(suggestion ? { suggestion } : {}),
  };
};

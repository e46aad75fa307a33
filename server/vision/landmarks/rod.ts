import { projectPoint } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { lawnPoint3 } from '../../units/points.ts';
import type { Patch } from './patch.ts';

/** A straight rod of the lawn frame: its ends and half its thickness, metres. `layer` groups rods that share one brightness. */
export type Rod = {
  readonly from: readonly [number, number, number];
  readonly to: readonly [number, number, number];
  readonly radius: number;
  readonly layer: number;
};

/** A rod as the camera sees it: its first end, direction and length (px), half thickness at either end, and by how much its round ends stick out, as a share of that. */
export type SeenRod = {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
  readonly length: number;
  readonly from: number;
  readonly to: number;
  readonly cap: number;
};

/** Mean height of a half ellipse of height 1 over its base. */
const HALF_ELLIPSE = Math.PI / 4;

/**
 * How far the round end of a cylinder sticks out beyond its axis' end, as a share of its radius: the rim is a circle seen as an ellipse
 * whose half height is the cosine of the angle between axis and line of sight. Without it every foot would be placed a radius too near.
 */
const capShare = (camera: Camera, { from, to }: Rod): number => {
  const axis = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  const view = from.map((value, i) => value - camera.position[i]!);
  const dot = axis.reduce((sum, value, i) => sum + value * view[i]!, 0);
  return (HALF_ELLIPSE * Math.abs(dot)) / (Math.hypot(...axis) * Math.hypot(...view));
};

const depthOf = (camera: Camera, [x, y, z]: readonly [number, number, number]): number => {
  const r = camera.rotation;
  const [cx, cy, cz] = camera.position;
  return r[6]! * (x - cx) + r[7]! * (y - cy) + r[8]! * (z - cz);
};

/** The rod's image; null when an end is behind the camera. */
export const seeRod = (camera: Camera, rod: Rod): SeenRod | null => {
  const a = projectPoint(camera, lawnPoint3(...rod.from));
  const b = projectPoint(camera, lawnPoint3(...rod.to));
  if (a === null || b === null) return null;
  const length = Math.max(1e-6, Math.hypot(b.x - a.x, b.y - a.y));
  return {
    x: a.x,
    y: a.y,
    dx: (b.x - a.x) / length,
    dy: (b.y - a.y) / length,
    length,
    from: (rod.radius * camera.focal) / depthOf(camera, rod.from),
    to: (rod.radius * camera.focal) / depthOf(camera, rod.to),
    cap: capShare(camera, rod),
  };
};

/** Ends of the table of the normal distribution function, and its entries for each standard deviation. */
const TABLE = { reach: 5, each: 256 } as const;

/** Normal distribution function by a logistic of a cubic (largest error 1.4e-4; Bowling et al., Journal of Industrial Engineering and Management 2, 2009): the blur of a lens is not known better. */
const NORMAL = Float64Array.from({ length: 2 * TABLE.reach * TABLE.each + 2 }, (_, k) => {
  const z = k / TABLE.each - TABLE.reach;
  return 1 / (1 + Math.exp(-(1.5976 * z + 0.07056 * z * z * z)));
});

/** The same from the table, straight between its entries. */
const smoothStep = (z: number): number => {
  if (z >= TABLE.reach) return 1;
  if (z <= -TABLE.reach) return 0;
  const at = (z + TABLE.reach) * TABLE.each;
  const k = Math.floor(at);
  return NORMAL[k]! + (at - k) * (NORMAL[k + 1]! - NORMAL[k]!);
};

/** Where a rod's coverage goes: one array a blur; `shade`, where given, gets the same times the place across the rod, −1 to 1: how a cylinder lit from one side differs from an even one. */
export type RodCover = {
  readonly sigma: number;
  readonly out: Float64Array;
  readonly shade?: Float64Array | undefined;
};

/** First and last sample of a row (or column) of `count` that lie between two px. */
const between = (low: number, high: number, origin: number, step: number, count: number) =>
  [
    Math.max(0, Math.floor((low - origin) / step - 0.5)),
    Math.min(count - 1, Math.ceil((high - origin) / step - 0.5)),
  ] as const;

/** Adds the rod's coverage, 0 to 1 a sample, blurred by a Gaussian of each cover's `sigma` px, to its `out`. */
export const coverRod = (rod: SeenRod, patch: Patch, covers: readonly RodCover[]): void => {
  const blur = Math.max(...covers.map(({ sigma }) => sigma));
  const reach = 4 * blur + Math.max(rod.from, rod.to);
  const endX = rod.x + rod.dx * rod.length;
  const endY = rod.y + rod.dy * rod.length;
  const xs = [Math.min(rod.x, endX) - reach, Math.max(rod.x, endX) + reach] as const;
  const ys = [Math.min(rod.y, endY) - reach, Math.max(rod.y, endY) + reach] as const;
  const [firstColumn, lastColumn] = between(...xs, patch.left, patch.step, patch.columns);
  const [firstRow, lastRow] = between(...ys, patch.top, patch.step, patch.rows);
  for (let j = firstRow; j <= lastRow; j++) {
    const y = patch.top + (j + 0.5) * patch.step - rod.y;
    for (let i = firstColumn; i <= lastColumn; i++)
      coverSample(rod, patch.left + (i + 0.5) * patch.step - rod.x, y, covers, j * patch.columns + i);
  }
};

/** Adds to sample `index` at (x, y) px from the rod's first end. */
const coverSample = (
  rod: SeenRod,
  x: number,
  y: number,
  covers: readonly RodCover[],
  index: number,
): void => {
  const across = x * rod.dy - y * rod.dx;
  const along = x * rod.dx + y * rod.dy;
  const half = rod.from + (rod.to - rod.from) * Math.min(1, Math.max(0, along / rod.length));
  const before = along + rod.from * rod.cap;
  const behind = along - rod.length - rod.to * rod.cap;
  for (let c = 0; c < covers.length; c++) {
    const { sigma, out, shade } = covers[c]!;
    const wide = smoothStep((across + half) / sigma) - smoothStep((across - half) / sigma);
    if (wide < 1e-6) continue;
    const cover = wide * (smoothStep(before / sigma) - smoothStep(behind / sigma));
    out[index]! += cover;
    // Blur pulls the place across that a sample stands for towards the axis.
    if (shade) shade[index]! += (cover * across) / Math.hypot(half, sigma);
  }
};

/** Bounds of the rods' images, widened by `margin` px; null when one of them cannot be seen. */
export const rodBounds = (camera: Camera, rods: readonly Rod[], margin: number) => {
  const seen = rods.map((rod) => seeRod(camera, rod));
  if (seen.some((rod) => rod === null)) return null;
  const xs = (seen as SeenRod[]).flatMap((rod) => [rod.x, rod.x + rod.dx * rod.length]);
  const ys = (seen as SeenRod[]).flatMap((rod) => [rod.y, rod.y + rod.dy * rod.length]);
  return {
    left: Math.min(...xs) - margin,
    top: Math.min(...ys) - margin,
    right: Math.max(...xs) + margin,
    bottom: Math.max(...ys) + margin,
  };
};

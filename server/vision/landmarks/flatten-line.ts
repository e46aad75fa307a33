import { pointAtHeight } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { type Court, outwardNormal, type Side, sideEnds } from '../../lawn/court.ts';
import { metres } from '../../units/numbers.ts';
import { imagePoint } from '../../units/points.ts';
import type { Patch } from './patch.ts';

/** Width of the strips parallel to the boundary over which the paint's brightness is taken as even, metres; never narrower than the samples. */
const STRIP = 0.01;

const median = (values: number[]): number => {
  const sorted = values.sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
};

/**
 * The patch without the boundary line: from each strip parallel to `side` its median is taken off, so that what stands beside the line or
 * on it stays, with the contrast that white has there. Samples above the horizon become 0.
 */
export const flattenLine = (camera: Camera, court: Court, side: Side, patch: Patch): Patch => {
  const [start] = sideEnds(court, side);
  const [nx, ny] = outwardNormal(side);
  const strips = new Map<number, number[]>();
  const stripOf = new Int32Array(patch.values.length);
  const outward = new Float64Array(patch.values.length);
  const width = Math.max(STRIP, stripWidth(camera, court, side, patch));
  for (let index = 0; index < patch.values.length; index++) {
    const image = imagePoint(
      patch.left + ((index % patch.columns) + 0.5) * patch.step,
      patch.top + (Math.floor(index / patch.columns) + 0.5) * patch.step,
    );
    const ground = pointAtHeight(camera, image, metres(0));
    const out = ground ? (ground.x - start.x) * nx + (ground.y - start.y) * ny : Number.NaN;
    outward[index] = out;
    const strip = Number.isNaN(out) ? Number.MIN_SAFE_INTEGER : Math.round(out / width);
    stripOf[index] = strip;
    const members = strips.get(strip) ?? [];
    members.push(patch.values[index]!);
    strips.set(strip, members);
  }
  const level = new Map([...strips].map(([strip, members]) => [strip, median(members)]));
  const levels = Float64Array.from(outward, (out, index) => between(level, stripOf[index]!, out / width));
  const show = contrastOf([...level.values()]);
  return {
    ...patch,
    values: patch.values.map((value, index) => value - levels[index]!),
    contrast: levels.map(show),
  };
};

/** Level at `at` (in strips) between the middles of the strips on either side; the nearer strip's own where the other has no samples. */
const between = (level: ReadonlyMap<number, number>, strip: number, at: number): number => {
  const own = level.get(strip)!;
  if (Number.isNaN(at)) return own;
  const other = level.get(strip + Math.sign(at - strip));
  return other === undefined ? own : own + (other - own) * Math.abs(at - strip);
};

/** Paint must be brighter than grass by so much (0 to 255) to hide anything. */
const PAINT_ABOVE_GRASS = 15;

/** What of a white object shows on a strip of this brightness: all on grass, nothing on the brightest paint. */
const contrastOf = (levels: readonly number[]): ((level: number) => number) => {
  const grass = median([...levels]);
  const paint = Math.max(...levels) - grass;
  if (paint < PAINT_ABOVE_GRASS) return () => 1;
  return (level) => Math.min(1, Math.max(0, 1 - (level - grass) / paint));
};

/** Half the outward distance between neighbouring samples in the middle of the patch, metres. */
const stripWidth = (camera: Camera, court: Court, side: Side, patch: Patch): number => {
  const [start] = sideEnds(court, side);
  const [nx, ny] = outwardNormal(side);
  const x = patch.left + (patch.columns / 2) * patch.step;
  const y = patch.top + (patch.rows / 2) * patch.step;
  const outward = (image: { x: number; y: number }): number => {
    const ground = pointAtHeight(camera, imagePoint(image.x, image.y), metres(0));
    return ground ? (ground.x - start.x) * nx + (ground.y - start.y) * ny : Number.NaN;
  };
  const here = outward({ x, y });
  const steps = [outward({ x: x + patch.step, y }) - here, outward({ x, y: y + patch.step }) - here];
  return Math.hypot(...steps.filter(Number.isFinite)) / 2;
};

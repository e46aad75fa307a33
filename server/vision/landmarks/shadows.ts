import { projectPoint } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { type LawnPoint, lawnPoint3 } from '../../units/points.ts';
import type { Raster } from '../../units/raster.ts';
import type { Rod } from './rod.ts';
import type { Shape } from './shapes.ts';

/** Where the sun throws shadows: metres east and north on the ground for each metre of height. */
export type Sun = readonly [east: number, north: number];

/** Something upright whose shadow may be seen: its foot and its height, metres. */
export type Upright = { readonly foot: LawnPoint; readonly height: number };

/** `shape` with the shadow that `sun` throws of it on level ground. */
export const withShadow = (shape: Shape, sun: Sun | null): Shape => {
  if (sun === null) return shape;
  const cast = ([x, y, z]: Rod['from']): Rod['from'] => [x + sun[0] * z, y + sun[1] * z, 0];
  return {
    ...shape,
    layers: shape.layers + 1,
    shadow: shape.layers,
    rods: (parameters) => {
      const rods = shape.rods(parameters);
      const shadows = rods.map(({ from, to, radius }) => ({
        from: cast(from),
        to: cast(to),
        radius,
        layer: shape.layers,
      }));
      return [...rods, ...shadows];
    },
  };
};

/** Directions and lengths tried: a shadow per metre of height between a sun 68° and one 18° high. */
const DIRECTIONS = 72;
const LENGTHS = [0.4, 0.6, 0.8, 1, 1.25, 1.6, 2, 2.5, 3] as const;
/** Places looked at along a shadow, from beyond the foot to short of its end. */
const SHARES = [0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1] as const;
/** The ground beside a shadow is looked at so far to either side of its middle, px. */
const BESIDE = 4;
/** A direction counts when its darkness stands out by so many standard deviations of all directions' darkness. A wrong one does little harm: how dark the shadow is is fitted. */
const STANDS_OUT = 3.3;

const lightAt = (raster: Raster, x: number, y: number): number => {
  const [i, j] = [Math.floor(x), Math.floor(y)];
  if (i < 0 || j < 0 || i >= raster.width || j >= raster.height) return Number.NaN;
  const at = (j * raster.width + i) * 3;
  return (raster.data[at]! + raster.data[at + 1]! + raster.data[at + 2]!) / 3;
};

/** How much darker the ground is along the shadow of one thing than beside it, mean over the places that are seen; NaN when none is. */
const darkness = (raster: Raster, camera: Camera, { foot, height }: Upright, [ex, ey]: Sun): number => {
  const end = projectPoint(camera, lawnPoint3(foot.x + ex * height, foot.y + ey * height, 0));
  const start = projectPoint(camera, lawnPoint3(foot.x, foot.y, 0));
  if (!end || !start) return Number.NaN;
  const length = Math.hypot(end.x - start.x, end.y - start.y);
  if (length < BESIDE) return Number.NaN;
  const [nx, ny] = [(-BESIDE * (end.y - start.y)) / length, (BESIDE * (end.x - start.x)) / length];
  let sum = 0;
  for (const share of SHARES) {
    const x = start.x + share * (end.x - start.x);
    const y = start.y + share * (end.y - start.y);
    const beside = (lightAt(raster, x + nx, y + ny) + lightAt(raster, x - nx, y - ny)) / 2;
    sum += (beside - lightAt(raster, x, y)) / Math.max(20, beside);
  }
  return sum / SHARES.length;
};

/** Share of the things that is listened to, the least dark ones: one may have a person's shadow beside it. */
const LISTENED = 0.75;

/** Darkness of all shadows together, times the root of the length, since chance darkens a long streak less. */
const darknessOfAll = (raster: Raster, camera: Camera, things: readonly Upright[], sun: Sun): number => {
  const seen = things.map((thing) => darkness(raster, camera, thing, sun)).filter(Number.isFinite);
  if (seen.length === 0) return 0;
  const kept = seen.sort((a, b) => a - b).slice(0, Math.ceil(LISTENED * seen.length));
  const mean = kept.reduce((sum, value) => sum + value, 0) / kept.length;
  return mean * Math.sqrt(Math.hypot(...sun));
};

/**
 * Where the sun throws shadows, from the dark streaks that start at the feet of `things`; null when no direction stands out of the others, under an
 * overcast sky or where shadows fall behind the things that throw them.
 */
export const findSun = (raster: Raster, camera: Camera, things: readonly Upright[]): Sun | null => {
  const tried = Array.from({ length: DIRECTIONS }, (_, k) => (2 * Math.PI * k) / DIRECTIONS).flatMap(
    (angle) =>
      LENGTHS.map((length) => {
        const sun: Sun = [length * Math.cos(angle), length * Math.sin(angle)];
        return { sun, dark: darknessOfAll(raster, camera, things, sun) };
      }),
  );
  const best = tried.reduce((a, b) => (b.dark > a.dark ? b : a));
  const spread = tried.map(({ dark }) => Math.abs(dark)).sort((a, b) => a - b)[tried.length >> 1]!;
  return best.dark > STANDS_OUT * 1.4826 * spread ? best.sun : null;
};

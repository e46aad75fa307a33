import { viewRay } from '../../server/camera/camera-model.ts';
import type { Camera } from '../../server/camera/types.ts';
import { imagePoint } from '../../server/units/points.ts';
import type { Raster } from '../../server/units/raster.ts';
import { normal, seeded } from '../accuracy/random.ts';

/** An upright white cylinder: foot (metres), radius, height. */
export type Post = {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly height: number;
};
/** A white cylinder that lies west–east: middle of its axis (metres), radius, half its length. */
export type Bar = {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly radius: number;
  readonly half: number;
};
/** A white strip of ground: x or y between two values, metres. */
export type Strip = { readonly axis: 'x' | 'y'; readonly from: number; readonly to: number };
/** What stands on the grass, and the grain of the picture (0 to 255 scale). */
export type Scene = {
  readonly posts: readonly Post[];
  readonly bars?: readonly Bar[];
  readonly strips?: readonly Strip[];
  readonly grain: number;
  readonly seed: number;
};

const GRASS = 90;
const WHITE = 220;

/** Nearest distance along the ray at which it meets the post's mantle or its flat top; Infinity when it misses. */
const meets = (origin: readonly number[], ray: readonly number[], post: Post): number => {
  const [ox, oy, oz] = [origin[0]! - post.x, origin[1]! - post.y, origin[2]!];
  const [dx, dy, dz] = ray as [number, number, number];
  const hits: number[] = [];
  const a = dx * dx + dy * dy;
  const b = ox * dx + oy * dy;
  const c = ox * ox + oy * oy - post.radius ** 2;
  const root = b * b - a * c;
  if (root > 0) {
    const t = (-b - Math.sqrt(root)) / a;
    const z = oz + t * dz;
    if (z >= 0 && z <= post.height) hits.push(t);
  }
  const top = (post.height - oz) / dz;
  if (top > 0 && Math.hypot(ox + top * dx, oy + top * dy) <= post.radius) hits.push(top);
  return Math.min(Number.POSITIVE_INFINITY, ...hits);
};

/** Whether the ray meets the bar's mantle. */
const meetsBar = (origin: readonly number[], ray: readonly number[], bar: Bar): boolean => {
  const [oy, oz] = [origin[1]! - bar.y, origin[2]! - bar.z];
  const [dx, dy, dz] = ray as [number, number, number];
  const a = dy * dy + dz * dz;
  const b = oy * dy + oz * dz;
  const root = b * b - a * (oy * oy + oz * oz - bar.radius ** 2);
  if (root <= 0) return false;
  const t = (-b - Math.sqrt(root)) / a;
  return t > 0 && Math.abs(origin[0]! + t * dx - bar.x) <= bar.half;
};

const onStrip = (strip: Strip, x: number, y: number): boolean => {
  const value = strip.axis === 'x' ? x : y;
  return value >= strip.from && value <= strip.to;
};

const shade = (camera: Camera, scene: Scene, px: number, py: number): number => {
  const ray = viewRay(camera, imagePoint(px, py));
  if (ray === null || ray[2] >= 0) return GRASS;
  if (scene.posts.some((post) => Number.isFinite(meets(camera.position, ray, post)))) return WHITE;
  if (scene.bars?.some((bar) => meetsBar(camera.position, ray, bar))) return WHITE;
  const reach = -camera.position[2] / ray[2];
  const x = camera.position[0] + reach * ray[0];
  const y = camera.position[1] + reach * ray[1];
  return scene.strips?.some((strip) => onStrip(strip, x, y)) ? WHITE : GRASS;
};

const SUB = 4;

/**
 * Renders a window of the picture by casting 4 × 4 rays a pixel at cylinders and painted strips, blurred by the pixel alone, with grain.
 * It shares no code with the templates that are fitted. Outside the window the picture is black.
 */
export const renderWindow = (
  camera: Camera,
  scene: Scene,
  window: { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number },
): Raster => {
  const { width, height } = camera;
  const random = seeded(scene.seed);
  const data = new Uint8Array(width * height * 3);
  for (let y = Math.max(0, Math.floor(window.top)); y < Math.min(height, window.bottom); y++)
    for (let x = Math.max(0, Math.floor(window.left)); x < Math.min(width, window.right); x++) {
      let sum = 0;
      for (let k = 0; k < SUB * SUB; k++)
        sum += shade(camera, scene, x + ((k % SUB) + 0.5) / SUB, y + (Math.floor(k / SUB) + 0.5) / SUB);
      const value = Math.round(sum / SUB ** 2 + scene.grain * normal(random));
      data.fill(Math.min(255, Math.max(0, value)), (y * width + x) * 3, (y * width + x) * 3 + 3);
    }
  return { width, height, data };
};

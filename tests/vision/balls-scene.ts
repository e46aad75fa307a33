import { projectPoint } from '../../server/camera/camera-model.ts';
import type { Camera } from '../../server/camera/types.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { pixels } from '../../server/units/numbers.ts';
import { type ImagePoint, lawnPoint3 } from '../../server/units/points.ts';
import type { Raster } from '../../server/units/raster.ts';

/**
 * A small ray tracer for tests: spheres on a textured plane under sun and sky, sampled many times a pixel. It shares nothing with the finder but
 * the camera that says where each pixel looks.
 */
export type SceneBall = { readonly colour: BallColour | 'grey'; readonly x: number; readonly y: number };

export type SceneOptions = {
  readonly balls: readonly SceneBall[];
  /** Unit vector towards the sun; null for an overcast sky. */
  readonly sun?: readonly [number, number, number] | null;
  /** Linear gains of red, green, blue: light and white balance. */
  readonly gains?: readonly [number, number, number];
  /** Standard deviation of added noise in grey levels. */
  readonly noise?: number;
  /** Exponent of the tone curve. */
  readonly gamma?: number;
  /** Upright boxes (metres: x from, to, y from, to, z from, to) with a linear colour: people, hoops, boards. */
  readonly boxes?: readonly SceneBox[];
  /** People who stand where the picture does not show them, and keep the sun from balls and lawn. */
  readonly shades?: readonly SceneShade[];
  readonly seed?: number;
};

export type SceneBox = { readonly at: readonly number[]; readonly rgb: readonly [number, number, number] };

/** An upright cylinder, metres. */
export type SceneShade = {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly height: number;
};

/** Reflectances as a dye-maker's card would give them; not the finder's own table. */
const DYES: Readonly<Record<SceneBall['colour'], readonly [number, number, number]>> = {
  blue: [0.02, 0.07, 0.35],
  red: [0.5, 0.02, 0.02],
  black: [0.02, 0.02, 0.02],
  yellow: [0.75, 0.55, 0.03],
  green: [0.02, 0.26, 0.08],
  pink: [0.8, 0.4, 0.48],
  brown: [0.22, 0.08, 0.035],
  white: [0.82, 0.82, 0.8],
  grey: [0.25, 0.25, 0.25],
};
const RADIUS = 0.046;
const GRASS = [0.13, 0.25, 0.06] as const;
const SKY = 0.55;
const SUN = 2;
/** Samples along each side of a pixel that may show more than grass. */
const FINE = 5;

/** A repeatable number from 0 to 1 for two whole numbers (a hash after Jarzynski and Olano, "Hash functions for GPU rendering", JCGT 9, 2020: pcg). */
const hash = (i: number, j: number, seed: number): number => {
  let s = (Math.imul(i, 1664525) + Math.imul(j, 22695477) + Math.imul(seed, 747796405) + 2891336453) >>> 0;
  s = Math.imul((s >>> ((s >>> 28) + 4)) ^ s, 277803737) >>> 0;
  return (((s >>> 22) ^ s) >>> 0) / 4294967296;
};

type Vector = readonly [number, number, number];
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** A camera at `position` (metres) that looks at the lawn point `at`, without roll or distortion. */
export const lookAt = (
  position: readonly [number, number, number],
  at: readonly [number, number],
  focal: number,
  width: number,
  height: number,
): Camera => {
  const f: Vector = [at[0] - position[0], at[1] - position[1], -position[2]];
  const length = Math.hypot(...f);
  const z: Vector = [f[0] / length, f[1] / length, f[2] / length];
  const flat = Math.hypot(z[0], z[1]);
  const x: Vector = [z[1] / flat, -z[0] / flat, 0];
  const y: Vector = [z[1] * x[2] - z[2] * x[1], z[2] * x[0] - z[0] * x[2], z[0] * x[1] - z[1] * x[0]];
  return {
    position,
    rotation: [...x, ...y, ...z],
    focal: pixels(focal),
    radial: [0, 0],
    width: pixels(width),
    height: pixels(height),
  };
};

/** Image of the centre of a ball at (x, y): the truth that the finder is held against. */
export const centreOf = (camera: Camera, ball: { readonly x: number; readonly y: number }): ImagePoint =>
  projectPoint(camera, lawnPoint3(ball.x, ball.y, RADIUS))!;

type Hit = { readonly t: number; readonly rgb: Vector };

const light = (n: Vector, sun: Vector | null, sunny: number): number =>
  SKY * ((1 + n[2]) / 2 + 0.1 * ((1 - n[2]) / 2)) +
  (sun === null ? 0 : SUN * sunny * Math.max(0, dot(n, sun)));

/** Whether one of `shades` keeps the sun from the point `p`. */
const isShaded = (p: Vector, sun: Vector, shades: readonly SceneShade[]): boolean =>
  shades.some(({ x, y, radius, height }) => {
    const [dx, dy] = [x - p[0], y - p[1]];
    const flat2 = sun[0] * sun[0] + sun[1] * sun[1];
    const along = (dx * sun[0] + dy * sun[1]) / flat2;
    const miss2 = dx * dx + dy * dy - along * along * flat2;
    return along > 0 && miss2 < radius * radius && p[2] + along * sun[2] < height;
  });

const hitBall = (
  o: Vector,
  d: Vector,
  ball: SceneBall,
  most: number,
  { sun = SUNNY, shades = [] }: SceneOptions,
): Hit | null => {
  const c: Vector = [ball.x - o[0], ball.y - o[1], RADIUS - o[2]];
  const b = dot(c, d);
  const under = b * b - dot(c, c) + RADIUS * RADIUS;
  if (under < 0) return null;
  const t = b - Math.sqrt(under);
  if (t < 0 || t >= most) return null;
  const n: Vector = [
    (o[0] + t * d[0] - ball.x) / RADIUS,
    (o[1] + t * d[1] - ball.y) / RADIUS,
    (o[2] + t * d[2] - RADIUS) / RADIUS,
  ];
  const at: Vector = [o[0] + t * d[0], o[1] + t * d[1], o[2] + t * d[2]];
  const lit = sun !== null && !isShaded(at, sun, shades);
  const l = light(n, sun, lit ? 1 : 0);
  const h = sun === null || !lit ? 0 : Math.max(0, dot(n, sun) - dot(d, n) * 0.5);
  const gloss = 0.02 * SKY + (!lit ? 0 : 0.35 * Math.min(1, h) ** 60);
  const dye = DYES[ball.colour];
  return { t, rgb: [dye[0] * l + gloss, dye[1] * l + gloss, dye[2] * l + gloss] };
};

const hitBox = (o: Vector, d: Vector, { at, rgb }: SceneBox, most: number): Hit | null => {
  let near = 0;
  let far = most;
  for (let k = 0; k < 3; k++) {
    const a = (at[2 * k]! - o[k]!) / d[k]!;
    const b = (at[2 * k + 1]! - o[k]!) / d[k]!;
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
  }
  return near > 0 && near < far ? { t: near, rgb: [rgb[0] * SKY, rgb[1] * SKY, rgb[2] * SKY] } : null;
};

/** Whether the ground point (x, y) sees the sun, and how much of the sky the balls hide from it. */
const groundLight = (
  x: number,
  y: number,
  balls: readonly SceneBall[],
  { sun = SUNNY, shades = [] }: SceneOptions,
): number => {
  let sky = 1;
  let lit = sun !== null && isShaded([x, y, 0], sun, shades) ? 0 : 1;
  for (const ball of balls) {
    const c: Vector = [ball.x - x, ball.y - y, RADIUS];
    const d2 = dot(c, c);
    if (d2 > 0.25) continue;
    sky -= (RADIUS * RADIUS * RADIUS) / d2 ** 1.5;
    if (sun === null) continue;
    const along = dot(c, sun);
    if (along > 0 && d2 - along * along < RADIUS * RADIUS) lit = 0;
  }
  return SKY * Math.max(0, sky) + (sun === null ? 0 : SUN * lit * sun[2]);
};

const trace = (camera: Camera, px: number, py: number, o: SceneOptions): Vector => {
  const r = camera.rotation;
  const u = (px - camera.width / 2) / camera.focal;
  const v = (py - camera.height / 2) / camera.focal;
  const ray = [0, 1, 2].map((k) => r[k]! * u + r[3 + k]! * v + r[6 + k]!) as unknown as Vector;
  const length = Math.hypot(...ray);
  const d: Vector = [ray[0] / length, ray[1] / length, ray[2] / length];
  const ground = d[2] < 0 ? -camera.position[2] / d[2] : Number.POSITIVE_INFINITY;
  const hits = [
    ...o.balls.map((ball) => hitBall(camera.position, d, ball, ground, o)),
    ...(o.boxes ?? []).map((box) => hitBox(camera.position, d, box, ground)),
  ].filter((hit) => hit !== null);
  if (hits.length > 0) return hits.reduce((a, b) => (b.t < a.t ? b : a)).rgb;
  if (ground === Number.POSITIVE_INFINITY) return [0.4, 0.5, 0.7];
  const x = camera.position[0] + ground * d[0];
  const y = camera.position[1] + ground * d[1];
  const l = groundLight(x, y, o.balls, o);
  return [GRASS[0] * l, GRASS[1] * l, GRASS[2] * l];
};

/** Sun in the south-west, 40° high. */
export const SUNNY: Vector = [-0.5417, -0.5417, 0.6428];

/** Pixels about the balls and boxes that are sampled finely. */
const fineMask = (camera: Camera, o: SceneOptions): Uint8Array => {
  const mask = new Uint8Array(camera.width * camera.height);
  const mark = (x: number, y: number, z: number, reach: number): void => {
    const p = projectPoint(camera, lawnPoint3(x, y, z));
    if (p === null) return;
    const far = Math.hypot(x - camera.position[0], y - camera.position[1], camera.position[2]);
    const r = (reach * camera.focal) / far + 3;
    for (let j = Math.max(0, Math.floor(p.y - r)); j < Math.min(camera.height, p.y + r); j++)
      for (let i = Math.max(0, Math.floor(p.x - r)); i < Math.min(camera.width, p.x + r); i++)
        mask[j * camera.width + i] = 1;
  };
  for (const ball of o.balls) mark(ball.x, ball.y, RADIUS, 0.2);
  for (const { at } of o.boxes ?? [])
    for (let z = at[4]!; z <= at[5]! + 0.05; z += 0.05)
      mark((at[0]! + at[1]!) / 2, (at[2]! + at[3]!) / 2, z, (at[1]! - at[0]! + at[3]! - at[2]!) / 2 + 0.05);
  return mask;
};

const normal = (i: number, j: number, seed: number): number =>
  Math.sqrt(-2 * Math.log(hash(i, j, seed) + 1e-12)) * Math.cos(2 * Math.PI * hash(i, j, seed + 7919));

/** Blades: brightness of each pixel's grass varies by a tenth or so, alike in all channels, the more the nearer. */
const blade = (i: number, j: number, seed: number): number => 1 + 0.13 * normal(i, j, seed);

/** Renders the scene: 8-bit, tone curve applied, edges averaged over FINE² samples a pixel. */
export const render = (camera: Camera, o: SceneOptions): Raster => {
  const { width, height } = camera;
  const seed = o.seed ?? 1;
  const data = new Uint8Array(width * height * 3);
  const mask = fineMask(camera, o);
  const gains = o.gains ?? [1, 1, 1];
  const tone = 1 / (o.gamma ?? 2.2);
  for (let j = 0; j < height; j++)
    for (let i = 0; i < width; i++) {
      const n = mask[j * width + i] ? FINE : 1;
      const sum = [0, 0, 0];
      for (let b = 0; b < n; b++)
        for (let a = 0; a < n; a++) {
          const rgb = trace(camera, i + (a + 0.5) / n, j + (b + 0.5) / n, o);
          for (let c = 0; c < 3; c++) sum[c] = sum[c]! + rgb[c]! / (n * n);
        }
      const grassy = blade(i, j, seed);
      for (let c = 0; c < 3; c++) {
        const shade = mask[j * width + i] ? 1 + (grassy - 1) * 0.6 : grassy;
        const level = 255 * Math.max(0, Math.min(1, sum[c]! * gains[c]! * shade * 0.62)) ** tone;
        const noise = o.noise ? o.noise * normal(i * 3 + c, j, seed + 17) : 0;
        data[(j * width + i) * 3 + c] = Math.max(0, Math.min(255, Math.round(level + noise)));
      }
    }
  return { width, height, data };
};

import sharp from 'sharp';
import { pointAtHeight, projectPoint } from '../../server/camera/camera-model.ts';
import { lookAt } from '../../server/camera/rotation.ts';
import type { Camera } from '../../server/camera/types.ts';
import { type Side, STANDARD_COURT } from '../../server/lawn/court.ts';
import { metres, pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import type { Raster } from '../../server/units/raster.ts';

/** A drawn lawn: what is on the ground, how the picture is spoilt. Everything follows from `seed`. */
export type Scene = {
  readonly seed: number;
  /** Width of the paint in metres; 0.003 draws a string whose middle is the boundary. */
  readonly paint?: number;
  readonly string?: boolean;
  /** Standard deviation (m) by which each edge of the paint wanders, correlated over 0.25 m. */
  readonly ragged?: number;
  /** Share of the paint's strength that is left, and share of its length that is gone. */
  readonly strength?: number;
  readonly gaps?: number;
  readonly missing?: readonly Side[];
  /** Shade over all places with 0.6 x + y above this, down to 30 % of the light. */
  readonly shade?: number;
  /** White boxes that stand on the boundary: metres along the south and the west side, 0.5 m wide, 1 m of ground hidden. */
  readonly people?: readonly number[];
  /** A second line as white as the first, this far outside the south boundary, m. */
  readonly second?: number;
  /** Lighter grass from this far outside the court, m, by a quarter. */
  readonly mown?: number;
  /** Gaussian blur, px, and unsharp masking (share of what the blur took). */
  readonly blur?: number;
  readonly sharpen?: number;
  /** Noise of a pixel, 8-bit codes. */
  readonly noise?: number;
  /** JPEG quality with 4:2:0 colours; none when not given. */
  readonly quality?: number;
};

/** A terrace camera: south of the court, 8 m up. */
export const CAMERA: Camera = {
  position: [11.8, -17, 8],
  rotation: lookAt([11.8, -17, 8], [12.6, 9, 0], 0.015),
  focal: pixels(1040),
  radial: [-0.02, 0.002],
  width: pixels(1760),
  height: pixels(1000),
};

const WIDTH = CAMERA.width;
const HEIGHT = CAMERA.height;

/** Mulberry32: uniform in 0 to 1. */
export const makeRandom = (seed: number): (() => number) => {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = a;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
};

export const makeNormal = (random: () => number) => (): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

type Edge = { readonly along: number; readonly out: number; readonly side: Side; readonly length: number };

/** The sides in whose strip (−`reach` to `reach` metres out) the place lies. */
const edges = (x: number, y: number, reach: number): Edge[] => {
  const { width: w, length: l } = STANDARD_COURT;
  const all: Edge[] = [
    { side: 'south', along: x, out: -y, length: w },
    { side: 'north', along: x, out: y - l, length: w },
    { side: 'west', along: y, out: -x, length: l },
    { side: 'east', along: y, out: x - w, length: l },
  ];
  return all.filter((e) => Math.abs(e.out) < reach && e.along > -reach && e.along < e.length + reach);
};

/** Wandering edge: values every 0.25 m, straight between them. */
const wander = (seed: number, sd: number): ((at: number) => number) => {
  const normal = makeNormal(makeRandom(seed));
  const knots = Array.from({ length: 200 }, () => sd * normal());
  return (at) => {
    const p = (at + 5) / 0.25;
    const i = Math.floor(p);
    return (knots[i] ?? 0) * (1 - p + i) + (knots[i + 1] ?? 0) * (p - i);
  };
};

const SIDE_NUMBER: Record<Side, number> = { south: 1, west: 2, north: 3, east: 4 };

/** Share of paint (0 or the paint's strength) at a place of the ground. */
const painter = (scene: Scene): ((x: number, y: number) => number) => {
  const width = scene.paint ?? 0.04;
  const shift = scene.string ? -width / 2 : 0;
  const wanders = new Map(
    (['south', 'west', 'north', 'east'] as const).map((side) => {
      const base = scene.seed * 97 + 11 * SIDE_NUMBER[side];
      const sd = scene.ragged ?? 0;
      return [
        side,
        { inner: wander(base, sd), outer: wander(base + 5, sd), gap: wander(base + 7, 1) },
      ] as const;
    }),
  );
  // Paint is gone where a wandering value is below the quantile that the share of gaps asks for.
  const gapBelow = scene.gaps ? -1.6 + 3.2 * scene.gaps : Number.NEGATIVE_INFINITY;
  return (x, y) => {
    for (const { side, along, out, length } of edges(x, y, 0.3)) {
      if (scene.missing?.includes(side) || along < -width || along > length + width) continue;
      const { inner, outer, gap } = wanders.get(side)!;
      if (out < shift + inner(along) || out > shift + width + outer(along)) continue;
      if (gap(along / 4) < gapBelow) continue;
      return scene.strength ?? 1;
    }
    const second = scene.second ?? 0;
    return second && -y > second && -y < second + width && x > -8 && x < 34 ? 1 : 0;
  };
};

const GRASS = [0.09, 0.2, 0.045] as const;
const PAINT = [0.62, 0.63, 0.58] as const;

/** Light at a place of the ground into `out`. */
const shader = (scene: Scene) => {
  const paint = painter(scene);
  return (x: number, y: number, out: Float64Array): void => {
    const { width: w, length: l } = STANDARD_COURT;
    const stripe = Math.floor(x / 0.9) & 1 ? 1.12 : 0.88;
    const mottle = 1 + 0.12 * Math.sin(x * 2.1 + 1.3 * Math.sin(y * 0.7)) * Math.sin(y * 1.7);
    const beyond = Math.max(-x, x - w, -y, y - l);
    const rough = scene.mown !== undefined && beyond > scene.mown ? 1.25 : 1;
    const light = scene.shade !== undefined && 0.6 * x + y > scene.shade ? 0.3 : 1;
    const share = paint(x, y);
    for (let c = 0; c < 3; c++)
      out[c] = light * (share * PAINT[c]! + (1 - share) * GRASS[c]! * stripe * mottle * rough);
  };
};

/** Sub-columns of a pixel near paint, and most sub-rows. */
const COLUMNS = 3;
const MOST_ROWS = 64;

/** Sub-rows that a pixel whose ground is `deep` metres deep needs for six of them to fall on the paint; 1 far from any paint. */
const rowsFor = (x: number, y: number, deep: number, scene: Scene): number => {
  const reach = 0.1 + 1.5 * deep;
  const second = scene.second !== undefined && Math.abs(-y - scene.second) < reach;
  if (edges(x, y, reach).length === 0 && !second) return 1;
  return Math.min(MOST_ROWS, Math.max(4, Math.ceil((6 * deep) / (scene.paint ?? 0.04))));
};

/** Blocks of so many px are drawn or left as even grass together. */
const BLOCK = 16;
/** Ground this near to a boundary is drawn, m. */
const STRIP = 2.4;

/** 1 for each block with ground near a boundary: nothing else can matter to a boundary's trace. */
const drawnBlocks = (camera: Camera): Uint8Array => {
  const across = Math.ceil(WIDTH / BLOCK);
  const drawn = new Uint8Array(across * Math.ceil(HEIGHT / BLOCK));
  for (let i = 0; i < drawn.length; i++) {
    const x = (i % across) * BLOCK;
    const y = Math.floor(i / across) * BLOCK;
    const corners = [0, 1, 2, 3].map((k) => imagePoint(x + (k & 1) * BLOCK, y + (k >> 1) * BLOCK));
    const seen = [...corners, imagePoint(x + BLOCK / 2, y + BLOCK / 2)].map((q) =>
      pointAtHeight(camera, q, metres(0)),
    );
    // A block above or across the horizon holds no boundary.
    if (seen.every((p) => p !== null) && seen.some((p) => edges(p!.x, p!.y, STRIP).length > 0)) drawn[i] = 1;
  }
  return drawn;
};

const blockOf = (row: number, column: number): number =>
  Math.floor(row / BLOCK) * Math.ceil(WIDTH / BLOCK) + Math.floor(column / BLOCK);

/** Draws the ground in linear light, three channels; sub-rows start at a random place, so that thin far paint is neither lost nor doubled. */
const drawGround = (scene: Scene, camera: Camera, drawn: Uint8Array): Float32Array => {
  const light = new Float32Array(3 * WIDTH * HEIGHT);
  const shade = shader(scene);
  const random = makeRandom(scene.seed * 13 + 3);
  const colour = new Float64Array(3);
  const add = (px: number, py: number, at: number, weight: number): void => {
    const p = pointAtHeight(camera, imagePoint(px, py), metres(0));
    if (p) shade(p.x, p.y, colour);
    for (let c = 0; c < 3; c++) light[at + c] = light[at + c]! + weight * colour[c]!;
  };
  for (let row = 0; row < HEIGHT; row++)
    for (let column = 0; column < WIDTH; column++) {
      const at = 3 * (row * WIDTH + column);
      if (!drawn[blockOf(row, column)]) {
        light.set(GRASS, at);
        continue;
      }
      const p = pointAtHeight(camera, imagePoint(column + 0.5, row + 0.5), metres(0));
      const q = pointAtHeight(camera, imagePoint(column + 0.5, row + 1.5), metres(0));
      const rows = p && q ? rowsFor(p.x, p.y, Math.hypot(p.x - q.x, p.y - q.y), scene) : 1;
      const columns = rows > 1 ? COLUMNS : 1;
      for (let i = 0; i < columns; i++) {
        const start = rows > 1 ? random() : 0.5;
        for (let j = 0; j < rows; j++)
          add(column + (i + 0.5) / columns, row + (j + start) / rows, at, 1 / (rows * columns));
      }
    }
  return light;
};

/** People: upright white boxes with a dark foot, 0.5 m wide and 1.7 m high, as flat shapes facing the camera. */
const drawPeople = (scene: Scene, camera: Camera, light: Float32Array): void => {
  const spots = (scene.people ?? []).flatMap((at) => [
    [at, -0.02],
    [-0.02, at],
  ]);
  for (const [x, y] of spots) {
    const foot = projectPoint(camera, lawnPoint3(x!, y!, 0));
    const head = projectPoint(camera, lawnPoint3(x!, y!, 1.7));
    if (!foot || !head) continue;
    const half = (foot.y - head.y) * 0.15;
    for (let row = Math.max(0, Math.floor(head.y)); row < Math.min(HEIGHT, foot.y + half / 2); row++)
      for (let column = Math.floor(foot.x - half); column < foot.x + half; column++) {
        if (column < 0 || column >= WIDTH) continue;
        const value = row > foot.y - half / 2 ? 0.03 : 0.6;
        light.fill(value, 3 * (row * WIDTH + column), 3 * (row * WIDTH + column) + 3);
      }
  }
};

/** Gaussian blur of three interleaved channels inside the drawn blocks. */
const blurred = (light: Float32Array, sigma: number, drawn: Uint8Array): Float32Array => {
  const reach = Math.ceil(3 * sigma);
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / 2 / sigma ** 2),
  );
  const total = kernel.reduce((a, b) => a + b);
  const pass = (from: Float32Array, level: boolean): Float32Array => {
    const out = Float32Array.from(from);
    const step = level ? 3 : 3 * WIDTH;
    for (let row = 0; row < HEIGHT; row++)
      for (let column = 0; column < WIDTH; column++) {
        const place = level ? column : row;
        const size = level ? WIDTH : HEIGHT;
        if (!drawn[blockOf(row, column)] || place < reach || place >= size - reach) continue;
        for (let at = 3 * (row * WIDTH + column), c = 0; c < 3; c++, at++) {
          let sum = 0;
          for (let k = -reach; k <= reach; k++) sum += kernel[k + reach]! * from[at + k * step]!;
          out[at] = sum / total;
        }
      }
    return out;
  };
  return pass(pass(light, true), false);
};

const encode = (v: number): number =>
  255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * Math.min(1, v) ** (1 / 2.4) - 0.055);

/** Draws the scene as a phone would deliver it. */
export const drawScene = async (scene: Scene, camera: Camera = CAMERA): Promise<Raster> => {
  const drawn = drawnBlocks(camera);
  let light = drawGround(scene, camera, drawn);
  drawPeople(scene, camera, light);
  light = blurred(light, scene.blur ?? 0.5, drawn);
  if (scene.sharpen) {
    const soft = blurred(light, 1, drawn);
    const { sharpen } = scene;
    light = light.map((v, i) => Math.max(0, v + sharpen * (v - soft[i]!)));
  }
  const normal = makeNormal(makeRandom(scene.seed * 31 + 7));
  const data = new Uint8Array(light.length);
  const even = GRASS.map((v) => Math.round(encode(v)));
  for (let i = 0; i < light.length; i += 3) {
    if (!drawn[blockOf(Math.floor(i / 3 / WIDTH), (i / 3) % WIDTH)]) {
      data.set(even, i);
      continue;
    }
    const grain = (scene.noise ?? 3) * normal();
    for (let c = 0; c < 3; c++)
      data[i + c] = Math.min(255, Math.max(0, Math.round(encode(light[i + c]!) + grain + normal())));
  }
  const raster = { width: WIDTH, height: HEIGHT, data };
  return scene.quality ? recompress(raster, scene.quality) : raster;
};

const recompress = async (raster: Raster, quality: number): Promise<Raster> => {
  const raw = { width: raster.width, height: raster.height, channels: 3 as const };
  const jpeg = await sharp(raster.data, { raw }).jpeg({ quality, chromaSubsampling: '4:2:0' }).toBuffer();
  const data = await sharp(jpeg).removeAlpha().raw().toBuffer();
  return { width: raster.width, height: raster.height, data: new Uint8Array(data) };
};

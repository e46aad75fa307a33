import type { Raster } from '../../types.ts';
import { lumaOf } from '../../ycc.ts';

/** Places where something narrow is brighter than the grass on both sides. Struct of arrays; px of the reduced picture. */
export type Ridges = {
  readonly count: number;
  readonly x: Float32Array;
  readonly y: Float32Array;
  /** True where the profile was taken upright, so the line lies rather level. */
  readonly level: Uint8Array;
  /** The reduced picture: its size and how many photo px one of its px is wide. */
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  /** 1 where a ridge was found, row by row. */
  readonly mask: Uint8Array;
};

/** Long side of the reduced picture, px: a far line stays visible and a pass takes milliseconds. */
const LONG_SIDE = 1700;
/** Noises by which a ridge stands out of the picture's own ridges: one chance ridge in some hundred px. */
const STANDS_OUT = 3;
/** Grass is greener than grey by this share of its light at least; holds under warm and cold white balance. */
const GREEN_SHARE = 0.03;
/** Least height of a ridge in 8-bit codes of green. */
const LEAST = 2;

/** Ridges of `raster`, from a reduced copy of it. */
export const whiteRidges = (raster: Raster): Ridges => {
  const scale = Math.max(1, Math.round(Math.max(raster.width, raster.height) / LONG_SIDE));
  const small = reduce(raster, scale);
  const { width, height } = small;
  const found = { x: [] as number[], y: [] as number[], level: [] as number[] };
  const mask = new Uint8Array(width * height);
  for (const upright of [true, false]) {
    const response = respond(small, upright);
    const noise = grassNoise(response, width, height);
    collect(response, noise, small, upright, mask, found);
  }
  return {
    count: found.x.length,
    x: Float32Array.from(found.x),
    y: Float32Array.from(found.y),
    level: Uint8Array.from(found.level),
    width,
    height,
    scale,
    mask,
  };
};

type Small = {
  readonly width: number;
  readonly height: number;
  /** Luma, and how much greener than grey. */
  readonly light: Float32Array;
  readonly green: Float32Array;
};

/** Mean over squares of `scale` px. */
const reduce = (raster: Raster, scale: number): Small => {
  const width = Math.floor(raster.width / scale);
  const height = Math.floor(raster.height / scale);
  const light = new Float32Array(width * height);
  const green = new Float32Array(width * height);
  for (let row = 0; row < height * scale; row++) {
    const to = Math.floor(row / scale) * width;
    for (let column = 0, at = 3 * row * raster.width; column < width * scale; column++, at += 3) {
      const r = raster.data[at]!;
      const g = raster.data[at + 1]!;
      const b = raster.data[at + 2]!;
      const i = to + ((column / scale) | 0);
      light[i] = light[i]! + lumaOf(r, g, b);
      green[i] = green[i]! + g - (r + b) / 2;
    }
  }
  const n = scale * scale;
  for (let i = 0; i < light.length; i++) {
    light[i] = light[i]! / n;
    green[i] = green[i]! / n;
  }
  return { width, height, light, green };
};

/** Nearest and farthest px of a flank: clear of a line three px wide. */
const FLANK = [3, 4] as const;

/** Light over the brighter flank where both flanks are grass; −1 elsewhere. */
const respond = ({ width, height, light, green }: Small, upright: boolean): Float32Array => {
  const out = new Float32Array(width * height).fill(-1);
  const step = upright ? width : 1;
  const [near, far] = FLANK;
  for (let y = upright ? far : 0; y < height - (upright ? far : 0); y++)
    for (let x = upright ? 0 : far; x < width - (upright ? 0 : far); x++) {
      const i = y * width + x;
      const before = (light[i - near * step]! + light[i - far * step]!) / 2;
      const after = (light[i + near * step]! + light[i + far * step]!) / 2;
      if (green[i - near * step]! < GREEN_SHARE * before || green[i + near * step]! < GREEN_SHARE * after)
        continue;
      out[i] = Math.max(0, light[i]! - Math.max(before, after));
    }
  return out;
};

/** Rows above and below whose noise is compared: a line that runs along a row must not pass for that row's noise. */
const ROWS = 12;

/** Noise of the grass about each row: grass is coarser near the camera than far off. */
const grassNoise = (response: Float32Array, width: number, height: number): Float32Array => {
  const rows = rowNoise(response, width, height);
  return rows.map((_, y) => {
    const about = rows.slice(Math.max(0, y - ROWS), y + ROWS + 1).sort();
    return about[about.length >> 1]!;
  });
};

const rowNoise = (response: Float32Array, width: number, height: number): Float32Array => {
  const noise = new Float32Array(height);
  const row: number[] = [];
  for (let y = 0; y < height; y++) {
    row.length = 0;
    for (let x = 0; x < width; x++) if (response[y * width + x]! >= 0) row.push(response[y * width + x]!);
    row.sort((a, b) => a - b);
    // The upper quartile of a value cut off at zero: half of it is zero by construction.
    noise[y] =
      row.length > width / 20 ? Math.max(LEAST / STANDS_OUT, row[Math.floor(row.length * 0.84)]!) : 255;
  }
  return noise;
};

const collect = (
  response: Float32Array,
  noise: Float32Array,
  { width, height, light }: Small,
  upright: boolean,
  mask: Uint8Array,
  found: { x: number[]; y: number[]; level: number[] },
): void => {
  const step = upright ? width : 1;
  for (let y = 1; y < height - 1; y++)
    for (let x = 1; x < width - 1; x++) {
      const i = y * width + x;
      const r = response[i]!;
      // Only the crest counts.
      if (r < STANDS_OUT * noise[y]! || light[i]! < light[i - step]! || light[i]! < light[i + step]!)
        continue;
      if (!mask[i]) mask[i] = 1;
      found.x.push(x + 0.5);
      found.y.push(y + 0.5);
      found.level.push(upright ? 1 : 0);
    }
};

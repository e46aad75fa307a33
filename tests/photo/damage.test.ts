import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../server/errors.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { quarters } from './pictures.ts';

/** Seeded numbers from 0 to 1 (a linear congruential generator; Numerical Recipes' constants). */
const seeded = (seed: number): (() => number) => {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
};

/** A file with a few bytes changed, or cut off, or with a stretch left out. */
const damaged = (bytes: Buffer, chance: () => number): Buffer => {
  const at = (): number => Math.floor(chance() * bytes.length);
  const kind = Math.floor(chance() * 3);
  if (kind === 0) return bytes.subarray(0, at());
  if (kind === 1) return Buffer.concat([bytes.subarray(0, at()), bytes.subarray(at())]);
  const copy = Buffer.from(bytes);
  for (let change = 0; change < 1 + chance() * 8; change++) copy[at()] = Math.floor(chance() * 256);
  return copy;
};

const ROUNDS = 60;

describe('a damaged photo', () => {
  it.each<[string, () => Promise<Buffer>]>([
    ['JPEG', () => quarters().jpeg().toBuffer()],
    ['progressive JPEG', () => quarters().jpeg({ progressive: true }).toBuffer()],
    ['PNG', () => quarters().png().toBuffer()],
    ['WebP', () => quarters().webp().toBuffer()],
    ['TIFF', () => quarters().tiff({ compression: 'lzw' }).toBuffer()],
    ['AVIF', () => quarters().avif().toBuffer()],
    ['HEIC', async () => readFileSync(new URL('heic/turned.heic', import.meta.url))],
  ])('is a picture still or refused as an input, never anything else (%s)', async (name, make) => {
    const whole = await make();
    const chance = seeded(name.length);
    for (let round = 0; round < ROUNDS; round++) {
      const opened = await openPhoto(damaged(whole, chance)).catch((error: unknown) => error);
      if (opened instanceof InputError) continue;
      expect(opened).toHaveProperty('raster');
      const { raster } = opened as Awaited<ReturnType<typeof openPhoto>>;
      expect(raster.data.length).toBe(raster.width * raster.height * 3);
    }
    expect((await openPhoto(whole)).raster.data.length).toBeGreaterThan(0);
  });
});

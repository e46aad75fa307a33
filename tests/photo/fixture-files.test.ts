import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../server/errors.ts';
import { rasterToThumbnail } from '../../server/photo/encode.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';

const folder = (name: string): URL => new URL(`../../fixtures/${name}/`, import.meta.url);
const namesIn = (name: string, ending: RegExp): string[] =>
  readdirSync(folder(name)).filter((file) => ending.test(file));
const bytesOf = (name: string, file: string): Buffer => readFileSync(new URL(file, folder(name)));

const PICTURE = /\.(jpg|png|webp|tiff|avif|heic)$/;

/** A small picture of the photo, for comparing formats of different size: 3 bytes a pixel. */
const small = async (file: string): Promise<Uint8Array> => {
  const { raster } = await openPhoto(bytesOf('formats', file));
  return (
    await openPhoto(await rasterToThumbnail(raster, 240), { maxBytes: 1e6, maxPixels: 1e6, minSide: 1 })
  ).raster.data;
};

const meanDifference = (a: Uint8Array, b: Uint8Array): number =>
  a.reduce((sum, value, at) => sum + Math.abs(value - b[at]!), 0) / a.length;

describe('fixtures', () => {
  const formats = namesIn('formats', PICTURE);
  it('are of every format that is read', () => {
    const endings = new Set(formats.map((file) => file.split('.').at(-1)));
    expect(endings).toEqual(new Set(['jpg', 'png', 'webp', 'tiff', 'avif', 'heic']));
  });

  // One photograph stored in each format and turn: upright they differ by what compression loses, some 3 codes of 255 on the mean; the same
  // picture upside down differs by more than 30.
  it.each(formats)('%s shows the same picture upright', async (file) => {
    const first = await small('terrace-turn1.jpg');
    const other = await small(file);
    expect(other.length).toBe(first.length);
    expect(meanDifference(first, other)).toBeLessThan(8);
    expect(meanDifference(first, Uint8Array.from(first).reverse())).toBeGreaterThan(20);
  });

  it.each(namesIn('bad', /./))('%s is refused in one sentence', async (file) => {
    const error = await openPhoto(bytesOf('bad', file)).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(InputError);
    expect((error as InputError).message).toMatch(/^[A-Z][^\n]*\.$/);
  });
});

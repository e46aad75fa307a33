import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { blocksOf } from '../../server/photo/jpeg-blocks.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';

const size = { width: 163, height: 117 };
const picture = {
  create: {
    ...size,
    channels: 3,
    background: '#3a7a2a',
    noise: { type: 'gaussian', mean: 90, sigma: 30 },
  },
} as const;
const jpeg = (quality: number, chromaSubsampling = '4:2:0'): Promise<Buffer> =>
  sharp(picture).jpeg({ quality, chromaSubsampling }).toBuffer();

describe('the blocks in which a JPEG is stored', () => {
  it("have the example tables of ITU-T T.81, annex K, at quality 50, which is libjpeg's scale of one", async () => {
    const [luma, blue, red] = blocksOf(await jpeg(50), 1, size)!;
    // Tables K.1 and K.2: first row, first column, last entry.
    expect([...luma.steps.slice(0, 8)]).toEqual([16, 11, 10, 16, 24, 40, 51, 61]);
    expect([0, 1, 2, 3].map((k) => luma.steps[8 * k])).toEqual([16, 12, 14, 14]);
    expect(luma.steps[63]).toBe(99);
    expect([...blue.steps.slice(0, 5)]).toEqual([17, 18, 24, 47, 99]);
    expect(red.steps).toEqual(blue.steps);
  });

  it('tell how coarse the colours are', async () => {
    const of = async (sampling: string) =>
      blocksOf(await jpeg(80, sampling), 1, size)!.map(({ sample }) => sample);
    expect(await of('4:2:0')).toEqual([
      [1, 1],
      [2, 2],
      [2, 2],
    ]);
    expect(await of('4:4:4')).toEqual([
      [1, 1],
      [1, 1],
      [1, 1],
    ]);
  });

  it('are turned with the photo, and their grid begins where its stored first px comes to lie', async () => {
    const bytes = await jpeg(50);
    const [turned] = blocksOf(bytes, 6, { width: 117, height: 163 })!;
    expect([...turned.steps.slice(0, 4)]).toEqual([16, 12, 14, 14]);
    expect(turned.origin).toEqual([117, 0]);
    expect(blocksOf(bytes, 3, size)![0].origin).toEqual([163, 117]);
    expect(blocksOf(bytes, 8, { width: 117, height: 163 })![0].origin).toEqual([0, 163]);
  });

  it('are known of an opened photo, and of no other format', async () => {
    const bytes = readFileSync(new URL('../../fixtures/rendered/old-phone.jpg', import.meta.url));
    expect((await openPhoto(bytes)).raster.blocks).not.toBeNull();
    const png = await sharp(bytes).resize(800).png().toBuffer();
    expect((await openPhoto(png)).raster.blocks).toBeNull();
  });

  it('are unknown of a grey photo and of a header without tables or frame', async () => {
    expect(blocksOf(await sharp(picture).toColourspace('b-w').jpeg().toBuffer(), 1, size)).toBeNull();
    const bytes = await jpeg(50);
    expect(blocksOf(bytes.subarray(0, 60), 1, size)).toBeNull();
    expect(blocksOf(Buffer.from([0xff, 0xd8, 0xff, 0xdb, 0, 9]), 1, size)).toBeNull();
    expect(blocksOf(Buffer.alloc(0), 1, size)).toBeNull();
  });
});

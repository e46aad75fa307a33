import sharp, { type JpegOptions } from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { InputError } from '../../server/errors.ts';
import { decodeRaster } from '../../server/photo/decode.ts';
import { type DecodeHalves, decodeHalves } from '../../server/photo/decode-halves.ts';
import { beginPhoto } from '../../server/photo/open-photo.ts';

const WIDTH = 1800;
const HEIGHT = 1203;
/** Every px differs from its neighbours, so that a row in the wrong place shows. */
const noise = Buffer.from(Uint8Array.from({ length: 3 * WIDTH * HEIGHT }, (_, k) => (k * 2654435761) >>> 24));
const picture = () => sharp(noise, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } });
const jpeg = (options: JpegOptions = {}) => picture().jpeg({ quality: 80, ...options });

/** Decodes in halves and counts how often. */
const counted = (): { readonly decode: DecodeHalves; readonly count: () => number } => {
  let count = 0;
  return {
    decode: (bytes, known) => {
      count++;
      return decodeHalves(bytes, { ...known, data: new Uint8Array(3 * known.width * known.height) });
    },
    count: () => count,
  };
};

const emptyRaster = () => ({ width: WIDTH, height: HEIGHT, data: new Uint8Array(3 * WIDTH * HEIGHT) });

const codeOf = (job: Promise<unknown>): Promise<string> =>
  job.then(
    () => 'none',
    (error: unknown) => (error instanceof InputError ? error.code : String(error)),
  );

describe('a photo decoded in two halves', () => {
  let bytes: Buffer;
  beforeAll(async () => {
    bytes = await jpeg().toBuffer();
  });

  it('has the pixels that it has when it is decoded whole', async () => {
    const whole = await decodeRaster(bytes);
    const { data } = await decodeHalves(bytes, emptyRaster()).whole;
    expect(Buffer.compare(data, whole.data)).toBe(0);
  });

  it('has its upper rows when they are said to be there', async () => {
    const whole = await decodeRaster(bytes);
    const { upper } = decodeHalves(bytes, emptyRaster());
    const part = (await upper)!;
    expect(part.rows).toBeGreaterThan(HEIGHT / 2);
    expect(part.rows).toBeLessThan(HEIGHT);
    const end = 3 * WIDTH * part.rows;
    expect(Buffer.compare(part.raster.data.subarray(0, end), whole.data.subarray(0, end))).toBe(0);
  });

  it('is refused when it is cut off, though its upper half is whole', async () => {
    const { upper, whole } = decodeHalves(bytes.subarray(0, bytes.length - 3000), emptyRaster());
    expect(await codeOf(whole)).toBe('photo-cut-off');
    await upper;
  });

  it('writes nothing more once it is refused', async () => {
    const raster = emptyRaster();
    expect(await codeOf(decodeHalves(bytes.subarray(0, 20_000), raster).whole)).toBe('photo-cut-off');
    raster.data.fill(7);
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect(raster.data.every((value) => value === 7)).toBe(true);
  });
});

describe('opening a photo', () => {
  const openedInHalves = async (bytes: Uint8Array): Promise<number> => {
    const { decode, count } = counted();
    const coming = await beginPhoto(bytes, undefined, decode);
    const { raster } = await coming.photo;
    const whole = await (await beginPhoto(bytes)).photo;
    expect(Buffer.compare(raster.data, whole.raster.data)).toBe(0);
    expect((await coming.upper) !== null).toBe(count() === 1);
    return count();
  };

  it('takes halves of a large JPEG', async () => {
    expect(await openedInHalves(await jpeg().toBuffer())).toBe(1);
  });

  it.each([
    ['a JPEG whose rows come in passes', () => jpeg({ progressive: true }).toBuffer()],
    ['one that lies on its side', () => jpeg().withMetadata({ orientation: 6 }).toBuffer()],
    ['one upside down', () => jpeg().withMetadata({ orientation: 3 }).toBuffer()],
    ['a PNG', () => picture().png().toBuffer()],
    ['a small one', () => jpeg().resize(1200, 800).toBuffer()],
  ])('decodes %s whole', async (_, make) => {
    expect(await openedInHalves(await make())).toBe(0);
  });
});

import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { InputError } from '../../server/errors.ts';
import { decodeRaster } from '../../server/photo/decode.ts';
import { type DecodeBeside, openDecodeBeside } from '../../server/reading/decode-beside.ts';

const SIZE = { width: 640, height: 480 };
const picture = (shade: number): Promise<Buffer> =>
  sharp(Buffer.from(Uint8Array.from({ length: 3 * 640 * 480 }, (_, k) => (k * shade) >>> 3)), {
    raw: { ...SIZE, channels: 3 },
  })
    .jpeg()
    .toBuffer();

/** Memory that threads share, as much as is asked for. */
const room = (bytes: number): Uint8Array => new Uint8Array(new SharedArrayBuffer(bytes));

const codeOf = (job: Promise<unknown>): Promise<unknown> =>
  job.then(
    () => 'none',
    (error: unknown) => (error instanceof InputError ? [error.code, error.status] : String(error)),
  );

describe('decoding in a thread', () => {
  let beside: DecodeBeside;
  beforeAll(async () => {
    beside = openDecodeBeside(room);
    await beside.ready;
  });
  afterAll(() => beside.close());

  it('gives the pixels, the upper ones first, into memory of the room', async () => {
    const bytes = await picture(7);
    const { upper, whole } = beside.decode(bytes, SIZE);
    const part = (await upper)!;
    expect(part.rows).toBeLessThan(SIZE.height);
    const raster = await whole;
    expect(raster.data.buffer).toBeInstanceOf(SharedArrayBuffer);
    expect(raster.data.buffer).toBe(part.raster.data.buffer);
    expect(Buffer.compare(Buffer.from(raster.data), (await decodeRaster(bytes)).data)).toBe(0);
  });

  it('answers two photos at once, each with its own pixels', async () => {
    const files = await Promise.all([picture(3), picture(5)]);
    const both = await Promise.all(files.map((bytes) => beside.decode(bytes, SIZE).whole));
    for (const [i, { data }] of both.entries())
      expect(Buffer.compare(Buffer.from(data), (await decodeRaster(files[i]!)).data)).toBe(0);
  });

  it('keeps code and status of a fault of the photo', async () => {
    const bytes = await picture(7);
    const { whole } = beside.decode(bytes.subarray(0, bytes.length - 2000), SIZE);
    expect(await codeOf(whole)).toEqual(['photo-cut-off', 422]);
    expect(await codeOf(beside.decode(bytes, SIZE).whole)).toBe('none');
  });
});

describe('when that thread is not there', () => {
  it('the caller decodes before it is loaded', async () => {
    const beside = openDecodeBeside(room);
    const bytes = await picture(7);
    const { data } = await beside.decode(bytes, SIZE).whole;
    expect(Buffer.compare(Buffer.from(data), (await decodeRaster(bytes)).data)).toBe(0);
    await beside.close();
  });

  it('the caller decodes what it died over, and all that comes after', async () => {
    const beside = openDecodeBeside(room);
    await beside.ready;
    const bytes = await picture(7);
    const { upper, whole } = beside.decode(bytes, SIZE);
    await beside.close();
    await upper;
    for (const { data } of [await whole, await beside.decode(bytes, SIZE).whole])
      expect(Buffer.compare(Buffer.from(data), (await decodeRaster(bytes)).data)).toBe(0);
  });
});

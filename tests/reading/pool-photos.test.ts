import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { photosIn } from '../../server/reading/in-workers.ts';
import { openPool } from '../../server/reading/pool.ts';

const pool = openPool({ threads: 1 });
const photos = photosIn(pool);
afterAll(() => pool.close());

const lying = (): Promise<Buffer> =>
  sharp({ create: { width: 640, height: 480, channels: 3, background: '#386b2b' } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();

describe('photos in worker threads', () => {
  it('tell their header upright', async () => {
    expect(await photos.facts(await lying())).toMatchObject({ width: 480, height: 640, format: 'jpeg' });
  });
  it('come upright and small as asked', async () => {
    const bytes = await lying();
    expect(await sharp(await photos.upright(bytes)).metadata()).toMatchObject({ width: 480, height: 640 });
    expect(await sharp(await photos.thumbnail(bytes, 64)).metadata()).toMatchObject({
      width: 48,
      height: 64,
    });
  });
  it('that are cut off are refused with code and sentence, and the next one is opened', async () => {
    const bytes = await lying();
    await expect(photos.upright(bytes.subarray(0, bytes.length - 40))).rejects.toMatchObject({
      name: 'InputError',
      code: 'photo-cut-off',
      status: 422,
    });
    expect((await photos.thumbnail(bytes, 64)).length).toBeGreaterThan(0);
  });
});

import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { openPool } from '../../server/reading/pool.ts';

const pool = openPool({ threads: 1 });
afterAll(() => pool.close());

const lying = (): Promise<Buffer> =>
  sharp({ create: { width: 640, height: 480, channels: 3, background: '#386b2b' } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();

describe('photos in worker threads', () => {
  it('come upright and small as asked', async () => {
    const bytes = await lying();
    expect(await sharp(await pool.run('upright', { photo: bytes })).metadata()).toMatchObject({
      width: 480,
      height: 640,
    });
    expect(await sharp(await pool.run('thumbnail', { photo: bytes, side: 64 })).metadata()).toMatchObject({
      width: 48,
      height: 64,
    });
  });
  it('that are cut off are refused with code and sentence, and the next one is opened', async () => {
    const bytes = await lying();
    await expect(pool.run('upright', { photo: bytes.subarray(0, bytes.length - 40) })).rejects.toMatchObject({
      name: 'InputError',
      code: 'photo-cut-off',
      status: 422,
    });
    expect((await pool.run('thumbnail', { photo: bytes, side: 64 })).length).toBeGreaterThan(0);
  });
});

import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { rasterToPng } from '../../server/photo/encode.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { thumbnail, uprightJpeg } from '../../server/photo/page-images.ts';
import { quarters } from './pictures.ts';

const turned = () =>
  quarters(640, 480)
    .withExif({ IFD0: { Make: 'Example' } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();

describe("the page's pictures", () => {
  it('are upright at full size and free of the original tags', async () => {
    const found = await sharp(await uprightJpeg(await turned())).metadata();
    expect(found).toMatchObject({ format: 'jpeg', width: 480, height: 640 });
    expect(found.exif).toBeUndefined();
    expect(found.orientation).toBeUndefined();
  });

  it('are small as thumbnails, the longer side as asked', async () => {
    const found = await sharp(await thumbnail(await turned(), 160)).metadata();
    expect(found).toMatchObject({ format: 'jpeg', width: 120, height: 160 });
  });

  it('are never larger than the photo', async () => {
    const found = await sharp(await thumbnail(await turned(), 5000)).metadata();
    expect(found).toMatchObject({ width: 480, height: 640 });
  });

  it('as PNG give every pixel back', async () => {
    const { raster } = await openPhoto(await turned());
    const again = await openPhoto(await rasterToPng(raster));
    expect(Buffer.from(again.raster.data).equals(Buffer.from(raster.data))).toBe(true);
  });
});

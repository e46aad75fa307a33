import { describe, expect, it } from 'vitest';
import { cutOut, drawingToPng, pictureSize } from '../../server/photo/draw.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { quarters } from './pictures.ts';

const limits = { maxBytes: 1e6, maxPixels: 1e6, minSide: 1 };

describe('a drawing', () => {
  // An SVG of 40 × 20 pt with a red left half, at 3 px a point: 120 × 60 px.
  it('becomes a PNG on white at the scale asked for', async () => {
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20"><rect width="20" height="20" fill="#c00000"/></svg>';
    const { raster } = await openPhoto(await drawingToPng(svg, 3), limits);
    expect([raster.width, raster.height]).toEqual([120, 60]);
    expect([...raster.data.subarray(0, 3)]).toEqual([0xc0, 0, 0]);
    expect([...raster.data.subarray(-3)]).toEqual([255, 255, 255]);
  });
});

describe('a part of a picture', () => {
  it('is cut out in px and made no larger than asked', async () => {
    const picture = await quarters(400, 200).png().toBuffer();
    expect(await pictureSize(picture)).toEqual({ width: 400, height: 200 });
    const right = await cutOut(picture, { x: 200.7, y: 0, width: 199, height: 100 }, 100);
    const { raster } = await openPhoto(right, limits);
    expect(raster.width).toBe(100);
    // All of it is of the top right quarter: green leads by far (30, 180, 40).
    const green = Array.from({ length: raster.width * raster.height }, (_, at) => raster.data[at * 3 + 1]!);
    const red = Array.from({ length: raster.width * raster.height }, (_, at) => raster.data[at * 3]!);
    expect(Math.min(...green)).toBeGreaterThan(160);
    expect(Math.max(...red)).toBeLessThan(50);
  });
  it('is not made larger than it is', async () => {
    const picture = await quarters(400, 200).png().toBuffer();
    const part = await cutOut(picture, { x: 0, y: 0, width: 50, height: 50 }, 500);
    expect(await pictureSize(part)).toEqual({ width: 50, height: 50 });
  });
});

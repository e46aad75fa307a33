import { describe, expect, it } from 'vitest';
import { pointAtHeight, projectPoint } from '../../server/camera/camera-model.ts';
import { lookAt } from '../../server/camera/rotation.ts';
import type { Camera } from '../../server/camera/types.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { metres, pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint, lawnPoint3 } from '../../server/units/points.ts';
import type { Raster } from '../../server/units/raster.ts';
import { fromOverhead, overheadExtent, overheadPicture, toOverhead } from '../../server/vision/overhead.ts';

const camera: Camera = {
  position: [11, -12, 7],
  rotation: lookAt([11, -12, 7], [13, 14, 0], 0.03),
  focal: pixels(900),
  radial: [-0.06, 0.01],
  width: pixels(1200),
  height: pixels(900),
};

/** A photo in which the ground's colour is a known function of its place: red tells x, green y, in steps of one code per 0.15 m. */
const paintedGround = (): Raster => {
  const data = new Uint8Array(3 * camera.width * camera.height);
  for (let row = 0; row < camera.height; row++)
    for (let column = 0; column < camera.width; column++) {
      const p = pointAtHeight(camera, imagePoint(column + 0.5, row + 0.5), metres(0));
      const at = 3 * (row * camera.width + column);
      if (!p) continue;
      data[at] = Math.min(255, Math.max(0, 20 + p.x / 0.15));
      data[at + 1] = Math.min(255, Math.max(0, 20 + p.y / 0.15));
      data[at + 2] = 200;
    }
  return { width: camera.width, height: camera.height, data };
};

describe('the straightened picture', () => {
  const size = { pixelsPerMetre: 20, margin: metres(1) };
  const picture = overheadPicture(paintedGround(), camera, STANDARD_COURT, size);

  it('has the court and its margin at the asked scale', () => {
    // (25.6032 + 2) · 20 and (32.004 + 2) · 20, rounded.
    expect(overheadExtent(STANDARD_COURT, size)).toEqual({ width: 552, height: 680 });
    expect(picture.data.length).toBe(3 * 552 * 680);
  });

  it('shows every place of the ground at its place, lens included', () => {
    let compared = 0;
    for (let row = 5; row < picture.height; row += 16)
      for (let column = 5; column < picture.width; column += 16) {
        const p = fromOverhead(STANDARD_COURT, size, imagePoint(column + 0.5, row + 0.5));
        const q = projectPoint(camera, lawnPoint3(p.x, p.y, 0));
        const at = 3 * (row * picture.width + column);
        if (!q || q.x < 2 || q.y < 2 || q.x > camera.width - 2 || q.y > camera.height - 2) continue;
        compared++;
        // One code is 0.15 m; colours are truncated once and rounded once, and a far pixel spans up to 0.3 m of ground.
        expect(Math.abs(picture.data[at]! - (20 + p.x / 0.15))).toBeLessThan(1.6);
        expect(Math.abs(picture.data[at + 1]! - (20 + p.y / 0.15))).toBeLessThan(2.6);
      }
    expect(compared).toBeGreaterThan(600);
  });

  it('leaves places grey that the photo does not show', () => {
    const outside = { pixelsPerMetre: 4, margin: metres(30) };
    const wide = overheadPicture(paintedGround(), camera, STANDARD_COURT, outside);
    // The lower left corner lies 30 m behind and beside the camera.
    const at = 3 * (wide.height - 1) * wide.width;
    expect(Array.from(wide.data.subarray(at, at + 3))).toEqual([96, 96, 96]);
  });

  it('averages where the photo is finer than the result', () => {
    const data = new Uint8Array(3 * camera.width * camera.height);
    for (let i = 0; i < data.length; i++)
      data[i] = (Math.floor(i / 3) + Math.floor(i / 3 / camera.width)) % 2 ? 255 : 0;
    const checked = { width: camera.width, height: camera.height, data };
    const coarse = { pixelsPerMetre: 4, margin: metres(0) };
    const small = overheadPicture(checked, camera, STANDARD_COURT, coarse);
    const p = toOverhead(STANDARD_COURT, coarse, lawnPoint(12, 2));
    // There a result pixel covers some 12 × 6 px of a checkerboard of single pixels: grey, not black or white.
    const value = small.data[3 * (Math.floor(p.y) * small.width + Math.floor(p.x))]!;
    expect(value).toBeGreaterThan(100);
    expect(value).toBeLessThan(155);
  });

  it('returns from the picture to the lawn', () => {
    const p = lawnPoint(3.2, 30.1);
    const back = fromOverhead(STANDARD_COURT, size, toOverhead(STANDARD_COURT, size, p));
    expect(back.x).toBeCloseTo(p.x, 12);
    expect(back.y).toBeCloseTo(p.y, 12);
  });

  it('refuses a size that no page needs', () => {
    expect(() =>
      overheadPicture(paintedGround(), camera, STANDARD_COURT, { pixelsPerMetre: 400, margin: metres(1) }),
    ).toThrow(/24000000 px/);
  });
});

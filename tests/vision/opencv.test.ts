import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { lookAt } from '../../server/camera/rotation.ts';
import type { Camera } from '../../server/camera/types.ts';
import { pixels } from '../../server/units/numbers.ts';
import { lawnPoint3 } from '../../server/units/points.ts';
import { loadOpenCv, OpenCvError, type Pair } from '../../server/vision/opencv.ts';

const empty = (cv: Awaited<ReturnType<typeof loadOpenCv>>): void =>
  cv.guard((raw) => {
    const a = new raw.Mat();
    const b = new raw.Mat();
    try {
      raw.GaussianBlur(a, b, new raw.Size(5, 5), 0, 0, 4);
    } finally {
      a.delete();
      b.delete();
    }
  });

const square: Pair[] = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];

describe('loading opencv', () => {
  it('ends although the library looks like a promise, and adds no process-wide handlers', async () => {
    const before = ['uncaughtException', 'unhandledRejection'].map(
      (e) => process.listeners(e as never).length,
    );
    const cv = await loadOpenCv();
    expect('then' in (await cv.guard((raw) => ({ raw }))).raw).toBe(false);
    const after = ['uncaughtException', 'unhandledRejection'].map(
      (e) => process.listeners(e as never).length,
    );
    expect(after).toEqual(before);
  });

  it('gives the same library at the second call', async () => {
    expect(await loadOpenCv()).toBe(await loadOpenCv());
  });
});

describe('errors of opencv', () => {
  it('come out as errors with a message, not as pointers', async () => {
    const cv = await loadOpenCv();
    expect(() => empty(cv)).toThrow(OpenCvError);
    expect(() => empty(cv)).toThrow(/GaussianBlur/);
  });

  it('do not poison later calls: two thousand of them leave the library working', async () => {
    const cv = await loadOpenCv();
    let thrown = 0;
    for (let i = 0; i < 2000; i++) {
      try {
        empty(cv);
      } catch (error) {
        if (error instanceof OpenCvError && /GaussianBlur/.test(error.message)) thrown++;
      }
    }
    expect(thrown).toBe(2000);
    expect(cv.homography(square, square)).not.toBeNull();
  });

  it('reports a deleted matrix in one line', async () => {
    const cv = await loadOpenCv();
    const call = () =>
      cv.guard((raw) => {
        const mat = new raw.Mat();
        mat.delete();
        raw.GaussianBlur(mat, mat, new raw.Size(5, 5), 0, 0, 4);
      });
    expect(call).toThrow(OpenCvError);
    try {
      call();
    } catch (error) {
      expect((error as Error).message).not.toContain('\n');
    }
  });
});

describe('what opencv computes for us', () => {
  it('finds a drawn segment where it was drawn', async () => {
    const cv = await loadOpenCv();
    const mask = new Uint8Array(200 * 100);
    for (let x = 20; x < 180; x++) mask[200 * 40 + x] = 255;
    const found = cv.segments(mask, 200, 100, {
      votes: 40,
      length: 60,
      gap: 4,
      step: 1,
      angle: Math.PI / 180,
    });
    expect(found).toHaveLength(1);
    // Pixel 20 to pixel 179 of row 40; pixel centres lie at halves.
    const xs = [found[0]!.x0, found[0]!.x1].sort((a, b) => a - b);
    expect(xs[0]).toBeCloseTo(20.5, 0);
    expect(xs[1]).toBeCloseTo(179.5, 0);
    expect(found[0]!.y0).toBe(40.5);
  });

  it('finds the homography of a shifted and doubled square', async () => {
    const cv = await loadOpenCv();
    const h = cv.homography(
      square,
      square.map(([x, y]) => [2 * x + 3, 2 * y - 1] as const),
    )!;
    // By hand: x' = 2x + 3, y' = 2y − 1.
    for (const [i, value] of [2, 0, 3, 0, 2, -1, 0, 0, 1].entries())
      expect(h[i]! / h[8]!).toBeCloseTo(value, 5);
  });

  it('recovers focal length, lens and place of a simulated camera', async () => {
    const cv = await loadOpenCv();
    const camera: Camera = {
      position: [12, -6.5, 5.6],
      rotation: lookAt([12, -6.5, 5.6], [13, 14, 0], 0.02),
      focal: pixels(2912),
      radial: [-0.08, 0],
      width: pixels(4032),
      height: pixels(3024),
    };
    const plane = [4, 9, 14, 19, 24].flatMap((x) => [6, 12, 18, 24].map((y): Pair => [x, y]));
    const image = plane.map(([x, y]): Pair => {
      const p = projectPoint(camera, lawnPoint3(x, y, 0))!;
      return [p.x, p.y];
    });
    const found = cv.calibratePlane({ plane, image, width: 4032, height: 3024, focal: 3300 });
    // Noiseless points in 32-bit floats: a thousandth of a px in 4000.
    expect(found.focal / 2912).toBeCloseTo(1, 3);
    expect(found.k1).toBeCloseTo(-0.08, 3);
    for (const [i, value] of [12, -6.5, 5.6].entries()) expect(found.position[i]!).toBeCloseTo(value, 1);
  });

  it('moves a picture by whole pixels without changing them', async () => {
    const cv = await loadOpenCv();
    const data = Uint8Array.from({ length: 8 * 6 * 3 }, (_, i) => (i * 37) % 251);
    const moved = cv.warp({ width: 8, height: 6, data }, [1, 0, 2, 0, 1, 1, 0, 0, 1], 4, 3);
    const at = (x: number, y: number) => Array.from(data.subarray(3 * (8 * y + x), 3 * (8 * y + x) + 3));
    expect(Array.from(moved.data.subarray(0, 3))).toEqual(at(2, 1));
    expect(Array.from(moved.data.subarray(33, 36))).toEqual(at(5, 3));
  });
});

import { describe, expect, it } from 'vitest';
import { applyHomography, homography } from '../../server/camera/homography.ts';
import { focalsFromHomography } from '../../server/camera/pose-from-homography.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { namedPlace } from '../../server/lawn/named-points.ts';
import { loadOpenCv, type Pair } from '../../server/vision/opencv.ts';
import { normal, seeded } from '../accuracy/random.ts';
import { cameraAt, marksOf } from './cameras.ts';

const random = seeded(7);
const FROM: Pair[] = [
  [0, 0],
  [0, 32],
  [25.6, 32],
  [25.6, 0],
  [12.8, 16],
  [6.4, 6.4],
  [19.2, 25.6],
  [12.8, 22.4],
];
const TRUE = [90, 25, 400, 4, -38, 1900, 0.004, 0.031, 1];
const noisy = (sd: number): Pair[] =>
  FROM.map(([x, y]) => {
    const p = applyHomography(TRUE, { x, y });
    return [p.x + sd * normal(random), p.y + sd * normal(random)];
  });
const pairs = (to: readonly Pair[]) =>
  to.map(([x, y], i) => ({ from: { x: FROM[i]![0], y: FROM[i]![1] }, to: { x, y } }));

describe('the ground homography', () => {
  it('of four points is exact', () => {
    const to = noisy(2).slice(0, 4);
    const h = homography(pairs(to));
    to.forEach(([x, y], i) => {
      const p = applyHomography(h, { x: FROM[i]![0], y: FROM[i]![1] });
      expect(Math.hypot(p.x - x, p.y - y)).toBeLessThan(1e-6);
    });
  });

  // opencv-wasm's findHomography minimises the reprojection error after its linear start; ours is the linear start. With 0.5 px of noise on eight points
  // the two differ by a fraction of that noise; on four points and on exact points they are the same.
  it.each([
    { name: 'four noisy points', count: 4, sd: 2, tolerance: 1e-3 },
    { name: 'eight exact points', count: 8, sd: 0, tolerance: 1e-3 },
    { name: 'eight noisy points', count: 8, sd: 0.5, tolerance: 0.5 },
  ])('agrees with opencv on $name', async ({ count, sd, tolerance }) => {
    const cv = await loadOpenCv();
    const to = noisy(sd).slice(0, count);
    const ours = homography(pairs(to));
    const theirs = cv.homography(FROM.slice(0, count), to)!;
    for (const [x, y] of FROM.slice(0, count)) {
      const a = applyHomography(ours, { x, y });
      const b = applyHomography(theirs, { x, y });
      expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeLessThan(tolerance);
    }
  });

  it('gives the focal length of an exact pinhole view', () => {
    const camera = cameraAt([2, -14, 7], [15, 14, 0], { radial: [0, 0], roll: 0.1 });
    const marks = marksOf(camera, ['corner1', 'corner2', 'corner3', 'corner4']);
    const h = homography(
      marks.map(({ name, image }) => ({
        from: namedPlace(STANDARD_COURT, name),
        to: { x: image.x - camera.width / 2, y: image.y - camera.height / 2 },
      })),
    );
    const focals = focalsFromHomography(h);
    expect(focals).toHaveLength(2);
    for (const focal of focals) expect(focal).toBeCloseTo(2900, 4);
  });
});

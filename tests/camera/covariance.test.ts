import { describe, expect, it } from 'vitest';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import { CAMERA_PARAMETERS } from '../../server/camera/types.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { CORNER_NAMES, HOOP_NAMES } from '../../server/lawn/named-points.ts';
import { pixels } from '../../server/units/numbers.ts';
import { imagePoint } from '../../server/units/points.ts';
import { normal, seeded } from '../accuracy/random.ts';
import { cameraAt, marksOf } from './cameras.ts';

const RUNS = 400;

describe('the covariance of a camera from marks', () => {
  // Independent of our own algebra: 400 pictures of the same scene with fresh fingers. A standard deviation from 400 runs is itself known to 1/√800 = 3.5 %.
  it('is what 400 simulated markings scatter by', () => {
    const camera = cameraAt([5, -14, 7], [13, 15, 0], {
      radial: [-0.03, 1.8 * 0.03 ** 2],
      focal: pixels(2200),
    });
    const exact = marksOf(camera, [...CORNER_NAMES, 'peg', ...HOOP_NAMES]);
    const random = seeded(99);
    const settingSd = { corner: 1e-5, hoop: 1e-5, peg: 1e-5 };
    const positions: number[][] = [];
    const stated = new Float64Array(3);
    for (let run = 0; run < RUNS; run++) {
      const points = exact.map(({ name, image }) => ({
        name,
        image: imagePoint(image.x + 2 * normal(random), image.y + 2 * normal(random)),
      }));
      const { width, height } = camera;
      const result = solveCamera({ points, court: STANDARD_COURT, width, height, unevenness: 0, settingSd });
      if (!result.ok) throw new Error(result.error.message);
      positions.push([...result.value.camera.position]);
      for (let i = 0; i < 3; i++)
        stated[i]! += Math.sqrt(result.value.covariance[i * (CAMERA_PARAMETERS + 1)]!) / RUNS;
    }
    for (let i = 0; i < 3; i++) {
      const mean = positions.reduce((sum, p) => sum + p[i]!, 0) / RUNS;
      const sd = Math.sqrt(positions.reduce((sum, p) => sum + (p[i]! - mean) ** 2, 0) / (RUNS - 1));
      // The prior on the lens is centred 0.01 beside the true k1 and narrows the scatter a little; robust weights widen what is stated a little.
      expect(stated[i]! / sd).toBeGreaterThan(0.85);
      expect(stated[i]! / sd).toBeLessThan(1.25);
      expect(Math.abs(mean - camera.position[i]!)).toBeLessThan(0.5 * sd);
    }
  });
});

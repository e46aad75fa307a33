import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { BUDGET_PARTS, locateBall } from '../../server/camera/locate-ball.ts';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import type { Camera, SolvedCamera } from '../../server/camera/types.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { CORNER_NAMES } from '../../server/lawn/named-points.ts';
import { pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { anyCamera, cameraAt, marksOf, TERRACE } from './cameras.ts';

/** A camera about which everything is known. */
const certain = (camera: Camera): SolvedCamera => ({
  camera,
  covariance: new Float64Array(81),
  residual: 0,
  marks: [],
});

const NOTHING = { xx: 0, xy: 0, yy: 0 };

describe('locating a ball', () => {
  it('finds the place a ball was seen from', () => {
    fc.assert(
      fc.property(
        anyCamera,
        fc.double({ min: 0, max: 25, noNaN: true }),
        fc.double({ min: 0, max: 32, noNaN: true }),
        (camera, x, y) => {
          const image = projectPoint(camera, lawnPoint3(x, y, BALL_RADIUS));
          if (!image) return;
          const { point } = locateBall(certain(camera), image, NOTHING, { unevenness: 0 })!;
          expect(Math.hypot(point.x - x, point.y - y)).toBeLessThan(1e-7);
        },
      ),
    );
  });

  it('is null above the horizon', () => {
    expect(locateBall(certain(TERRACE), imagePoint(1632, 100), NOTHING, { unevenness: 0.005 })).toBeNull();
  });

  // By hand: 10 mm of ground 30 m from a camera 6.046 m up (6 m above the ball's centre) move the reading by 10 · 30 / 6 = 50 mm, along the line of sight.
  it('carries unevenness along the line of sight, times distance over height', () => {
    const camera = cameraAt([10, -10, 6.046], [10, 20, 0]);
    const image = projectPoint(camera, lawnPoint3(10, 20, BALL_RADIUS))!;
    const { covariance, budget } = locateBall(certain(camera), image, NOTHING, {
      unevenness: 0.01,
      grass: 0,
    })!;
    expect(Math.sqrt(covariance.yy)).toBeCloseTo(0.05, 6);
    expect(Math.sqrt(covariance.xx)).toBeLessThan(1e-6);
    expect(budget.unevenness).toEqual(covariance);
  });

  // By hand, looking straight down from 10.046 m: 1 px is 10 / 2000 = 5 mm in both directions.
  it('carries the fit of the ball by the scale of the picture', () => {
    const camera = cameraAt([5, 5, 10.046], [5, 5, 0], { focal: pixels(2000), radial: [0, 0] });
    const image = projectPoint(camera, lawnPoint3(5, 5, BALL_RADIUS))!;
    const { budget } = locateBall(certain(camera), image, { xx: 1, xy: 0, yy: 4 }, { unevenness: 0 })!;
    expect(Math.sqrt(budget.fit.xx)).toBeCloseTo(0.005, 9);
    expect(Math.sqrt(budget.fit.yy)).toBeCloseTo(0.01, 9);
  });

  it('has a budget that adds up to its covariance', () => {
    const result = solveCamera({
      points: marksOf(TERRACE, CORNER_NAMES),
      court: STANDARD_COURT,
      width: TERRACE.width,
      height: TERRACE.height,
    });
    if (!result.ok) throw new Error(result.error.message);
    const { covariance, budget } = locateBall(
      result.value,
      projectPoint(TERRACE, lawnPoint3(12, 16, BALL_RADIUS))!,
      { xx: 0.04, xy: 0.01, yy: 0.09 },
      { unevenness: 0.005 },
    )!;
    for (const key of ['xx', 'xy', 'yy'] as const) {
      const sum = BUDGET_PARTS.reduce((total, part) => total + budget[part][key], 0);
      expect(sum).toBeCloseTo(covariance[key], 12);
    }
    expect(Object.keys(budget)).toEqual([...BUDGET_PARTS]);
  });
});

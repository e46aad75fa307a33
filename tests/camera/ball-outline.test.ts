import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ballContour,
  ballDiameter,
  ballOutline,
  outlineCentreToBallCentre,
} from '../../server/camera/ball-outline.ts';
import { viewRay } from '../../server/camera/camera-model.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { pixels } from '../../server/units/numbers.ts';
import { lawnPoint } from '../../server/units/points.ts';
import { anyCamera, cameraAt } from './cameras.ts';

const anyPlace = fc.record({
  x: fc.double({ min: 0, max: 25, noNaN: true }),
  y: fc.double({ min: 0, max: 32, noNaN: true }),
});

describe('the outline of a ball', () => {
  // Straight down from 5.046 m, 5 m above the centre: sin α = 0.046/5, radius = f tan α = 2000 · 0.0092004 = 18.4008 px.
  it('is a circle straight below the camera', () => {
    const camera = cameraAt([5, 5, 5.046], [5, 5, 0], { focal: pixels(2000), radial: [0, 0] });
    const { semiAxes, centre, ball } = ballOutline(camera, lawnPoint(5, 5))!;
    expect(semiAxes[0]).toBeCloseTo(18.4008, 3);
    expect(semiAxes[1]).toBeCloseTo(18.4008, 3);
    expect(Math.hypot(centre.x - ball.x, centre.y - ball.y)).toBeLessThan(1e-6);
  });

  // A sphere's contour is where rays touch it: their distance to its centre is the radius. The rays come from the inverse of the lens, so this
  // checks the conic and the lens together.
  it('consists of rays that touch the ball', () => {
    fc.assert(
      fc.property(anyCamera, anyPlace, (camera, { x, y }) => {
        const contour = ballContour(camera, lawnPoint(x, y), 12);
        if (!contour) return;
        const [px, py, pz] = camera.position;
        const to = [x - px, y - py, BALL_RADIUS - pz] as const;
        for (const point of contour) {
          const ray = viewRay(camera, point)!;
          const along = to[0] * ray[0] + to[1] * ray[1] + to[2] * ray[2];
          const apart = Math.sqrt(to[0] ** 2 + to[1] ** 2 + to[2] ** 2 - along ** 2);
          expect(apart).toBeCloseTo(BALL_RADIUS, 6);
        }
      }),
    );
  });

  it('as an ellipse follows the exact contour, lens included', () => {
    fc.assert(
      fc.property(anyCamera, anyPlace, (camera, { x, y }) => {
        const outline = ballOutline(camera, lawnPoint(x, y));
        const contour = ballContour(camera, lawnPoint(x, y), 24);
        if (!outline || !contour) return;
        const { centre, semiAxes, angle } = outline;
        for (const point of contour) {
          const [dx, dy] = [point.x - centre.x, point.y - centre.y];
          const u = (dx * Math.cos(angle) + dy * Math.sin(angle)) / semiAxes[0];
          const v = (-dx * Math.sin(angle) + dy * Math.cos(angle)) / semiAxes[1];
          // The lens is applied to the axes' ends alone; between them the third order of the ball's size is missing.
          expect(Math.abs(Math.hypot(u, v) - 1) * semiAxes[0]).toBeLessThan(0.01 + 0.002 * semiAxes[0]);
        }
      }),
    );
  });

  // By hand at 45°: sin α = 0.046/2, tan(45° ± α) = 1.04710, 0.95502; middle 1.00106, image of the centre 1: 1.06 px outwards at f = 1000.
  it('has its middle outside the image of the centre', () => {
    const camera = cameraAt([0, 0, 0.046], [1, 1, 0.046], { focal: pixels(1000), radial: [0, 0] });
    const forward = lawnPoint(2, 0);
    const { centre, ball } = ballOutline(camera, forward)!;
    expect(ball.x - 2016).toBeCloseTo(1000, 6);
    expect(centre.x - ball.x).toBeCloseTo(1.059, 2);
  });

  it('leads from its middle back to the image of the centre', () => {
    fc.assert(
      fc.property(anyCamera, anyPlace, (camera, { x, y }) => {
        const outline = ballOutline(camera, lawnPoint(x, y));
        if (!outline) return;
        const back = outlineCentreToBallCentre(camera, outline.centre)!;
        expect(Math.hypot(back.x - outline.ball.x, back.y - outline.ball.y)).toBeLessThan(1e-5);
      }),
    );
  });

  it('is null when the ball is behind the camera or reaches round it', () => {
    const camera = cameraAt([0, 0, 2], [0, 10, 0]);
    expect(ballOutline(camera, lawnPoint(0, -10))).toBeNull();
    expect(ballDiameter(camera, lawnPoint(0, -10))).toBeNull();
  });

  // 92 mm at 20.04 m through 2357 px: 10.8 px.
  it('is as wide as the ball over its distance, times the focal length', () => {
    const camera = cameraAt([0, 0, 1.3], [0, 20, 0.046], { focal: pixels(2357), radial: [0, 0] });
    expect(ballDiameter(camera, lawnPoint(0, 20))).toBeCloseTo((0.092 / Math.hypot(20, 1.254)) * 2357, 2);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  moveCamera,
  pointAtHeight,
  projectionJacobian,
  projectPoint,
  viewRay,
} from '../../server/camera/camera-model.ts';
import { CAMERA_PARAMETERS, type Camera } from '../../server/camera/types.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { metres, pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { anyCamera, cameraAt, TERRACE } from './cameras.ts';

const onLawn = fc.record({
  x: fc.double({ min: 0, max: STANDARD_COURT.width, noNaN: true }),
  y: fc.double({ min: 0, max: STANDARD_COURT.length, noNaN: true }),
  z: fc.double({ min: 0, max: 0.45, noNaN: true }),
});

describe('projecting', () => {
  // By hand: c = (1, 0.5, 10), u = 0.1, v = 0.05, s = 0.0125, d = 1 − 0.1·0.0125 + 0.2·0.0125² = 0.99878125.
  it('follows the model of pinhole and radial terms', () => {
    const level: Camera = {
      position: [0, 0, 0],
      rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
      focal: pixels(1000),
      radial: [-0.1, 0.2],
      width: pixels(800),
      height: pixels(600),
    };
    const image = projectPoint(level, lawnPoint3(1, 0.5, 10));
    expect(image?.x).toBeCloseTo(400 + 1000 * 0.1 * 0.99878125, 10);
    expect(image?.y).toBeCloseTo(300 + 1000 * 0.05 * 0.99878125, 10);
  });

  it('sees the middle of the picture along its axis, whatever the lens', () => {
    const image = projectPoint(TERRACE, lawnPoint3(12.8, 8, 0));
    expect(image?.x).toBeCloseTo(3264 / 2, 6);
    expect(image?.y).toBeCloseTo(2448 / 2, 6);
  });

  it('is null behind the camera', () => {
    expect(projectPoint(TERRACE, lawnPoint3(11.5, -25, 0))).toBeNull();
  });

  it('is null where the lens folds back', () => {
    // 1 + 3 k1 s = 0 at s = 1/0.6: a ray at r = 1.3 (s = 1.69) is beyond it.
    const barrel = cameraAt([0, 0, 10], [0, 0, 0], { radial: [-0.2, 0] });
    expect(projectPoint(barrel, lawnPoint3(12, 0, 0))).not.toBeNull();
    expect(projectPoint(barrel, lawnPoint3(13, 0, 0))).toBeNull();
  });
});

describe('image to lawn', () => {
  it('comes back to the same point at any height, for any camera', () => {
    fc.assert(
      fc.property(anyCamera, onLawn, (camera, p) => {
        const image = projectPoint(camera, lawnPoint3(p.x, p.y, p.z));
        if (!image) return;
        const back = pointAtHeight(camera, image, metres(p.z));
        expect(Math.hypot(back!.x - p.x, back!.y - p.y)).toBeLessThan(1e-7);
      }),
    );
  });

  it('is null at and above the horizon', () => {
    const level = cameraAt([0, 0, 2], [10, 0, 2], { radial: [0, 0] });
    expect(pointAtHeight(level, imagePoint(2016, 1512), metres(0))).toBeNull();
    expect(pointAtHeight(level, imagePoint(2016, 1400), metres(0))).toBeNull();
    // 2 m below over 10 m ahead is focal · 0.2 = 580 px under the horizon.
    expect(pointAtHeight(level, imagePoint(2016, 1512 + 580), metres(0))?.x).toBeCloseTo(10, 6);
  });

  it('is null for a plane that the camera is not above', () => {
    expect(pointAtHeight(TERRACE, imagePoint(1632, 2000), metres(8))).toBeNull();
  });

  it('gives rays of unit length', () => {
    const ray = viewRay(cameraAt([5, -10, 6]), imagePoint(100, 2900))!;
    expect(Math.hypot(...ray)).toBeCloseTo(1, 12);
  });

  // By hand: a ball's centre at 46 mm, seen from 7.2 m up and 35 m away, meets the ground 46 · 35000 / (7200 − 46) = 225 mm beyond.
  it('puts a ball on bare ground too far by 46 mm · distance / (height − 46 mm)', () => {
    const camera = cameraAt([0, 0, 7.2], [0, 30, 0]);
    const image = projectPoint(camera, lawnPoint3(0, 35, 0.046))!;
    const onGround = pointAtHeight(camera, image, metres(0))!;
    expect(onGround.y - 35).toBeCloseTo((0.046 * 35) / (7.2 - 0.046), 9);
    expect(onGround.y - 35).toBeCloseTo(0.225, 3);
  });

  it('is mirrored with a mirrored lawn', () => {
    fc.assert(
      fc.property(anyCamera, onLawn, (camera, p) => {
        const { position, rotation: r } = camera;
        // Mirrored east–west: x → −x on the lawn and in the camera.
        const mirrored: Camera = {
          ...camera,
          position: [-position[0], position[1], position[2]],
          rotation: [r[0]!, -r[1]!, -r[2]!, -r[3]!, r[4]!, r[5]!, -r[6]!, r[7]!, r[8]!],
        };
        const a = projectPoint(camera, lawnPoint3(p.x, p.y, p.z));
        const b = projectPoint(mirrored, lawnPoint3(-p.x, p.y, p.z));
        if (!a) return;
        expect(b!.x).toBeCloseTo(camera.width - a.x, 6);
        expect(b!.y).toBeCloseTo(a.y, 6);
      }),
    );
  });
});

/** Central difference of the image by parameter `i` (or by coordinate i − 9 of the point). */
const difference = (camera: Camera, p: { x: number; y: number; z: number }, i: number): [number, number] => {
  const h = 1e-6;
  const at = (sign: number) => {
    const step = new Float64Array(CAMERA_PARAMETERS);
    if (i < CAMERA_PARAMETERS) step[i] = sign * h;
    const moved = moveCamera(camera, step);
    const [dx, dy, dz] = [9, 10, 11].map((k) => (k === i ? sign * h : 0)) as [number, number, number];
    return projectPoint(moved, lawnPoint3(p.x + dx, p.y + dy, p.z + dz))!;
  };
  const [a, b] = [at(1), at(-1)];
  return [(a.x - b.x) / (2 * h), (a.y - b.y) / (2 * h)];
};

describe('derivatives of the projection', () => {
  it('agree with differences of the projection itself', () => {
    fc.assert(
      fc.property(anyCamera, onLawn, (camera, p) => {
        const jacobian = projectionJacobian(camera, lawnPoint3(p.x, p.y, p.z));
        if (!jacobian) return;
        for (let i = 0; i < 12; i++) {
          const [dx, dy] = difference(camera, p, i);
          const row = i < 9 ? jacobian.parameters : jacobian.point;
          const [at, width] = i < 9 ? [i, 9] : [i - 9, 3];
          // Differences of 1e-6 lose about 1e-3 px to rounding on values of up to 1e4 px.
          const tolerance = 1e-5 * (1 + Math.abs(dx) + Math.abs(dy)) + 2e-3;
          expect(Math.abs(row[at]! - dx)).toBeLessThan(tolerance);
          expect(Math.abs(row[at + width]! - dy)).toBeLessThan(tolerance);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('are null where there is no image', () => {
    expect(projectionJacobian(TERRACE, lawnPoint3(11.5, -25, 0))).toBeNull();
  });
});

describe('moving a camera', () => {
  it('needs all nine numbers', () => {
    expect(() => moveCamera(TERRACE, [1, 2])).toThrow('Expected 9 numbers for step but received 2');
  });

  it('leaves its argument as it was', () => {
    const camera = cameraAt([1, 2, 3]);
    const before = structuredClone(camera);
    moveCamera(camera, [1, 1, 1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1]);
    expect(camera).toEqual(before);
  });
});

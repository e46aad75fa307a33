import fc from 'fast-check';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { lookAt, type Vector3 } from '../../server/camera/rotation.ts';
import type { Camera, MarkedPoint } from '../../server/camera/types.ts';
import { type Court, STANDARD_COURT } from '../../server/lawn/court.ts';
import { namedPlace, type PointName } from '../../server/lawn/named-points.ts';
import { pixels } from '../../server/units/numbers.ts';
import { lawnPoint3 } from '../../server/units/points.ts';

// The same properties are tried with the same cases everywhere: a failure can be repeated.
fc.configureGlobal({ seed: 1871 });

/** A camera at `position` that looks at `target`, 4032 × 3024 px unless stated. */
export const cameraAt = (
  position: Vector3,
  target: Vector3 = [12.8, 14, 0],
  options: Partial<Camera> & { readonly roll?: number } = {},
): Camera => {
  const { roll = 0, ...rest } = options;
  return {
    position,
    rotation: lookAt(position, target, roll),
    focal: pixels(2900),
    radial: [-0.06, 0.008],
    width: pixels(4032),
    height: pixels(3024),
    ...rest,
  };
};

/** The terrace of the first sample picture: 19 m south of the court, 7.2 m up, focal length 2357 px on 3264 × 2448 px. */
export const TERRACE = cameraAt([11.5, -19.5, 7.2], [12.8, 8, 0], {
  focal: pixels(2357),
  radial: [0, 0],
  width: pixels(3264),
  height: pixels(2448),
});

/** Exact marks of named points. */
export const marksOf = (
  camera: Camera,
  names: readonly PointName[],
  court: Court = STANDARD_COURT,
): MarkedPoint[] =>
  names.map((name) => {
    const { x, y } = namedPlace(court, name);
    const image = projectPoint(camera, lawnPoint3(x, y, 0));
    if (!image) throw new Error(`Expected ${name} before the camera but it is behind`);
    return { name, image };
  });

/** Cameras from which people photograph lawns: 3 to 20 m up, outside the court, looking in, lenses from barrel to pincushion. */
export const anyCamera: fc.Arbitrary<Camera> = fc
  .record({
    angle: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
    distance: fc.double({ min: 22, max: 45, noNaN: true }),
    height: fc.double({ min: 3, max: 20, noNaN: true }),
    roll: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
    focal: fc.double({ min: 1700, max: 4000, noNaN: true }),
    k1: fc.double({ min: -0.2, max: 0.1, noNaN: true }),
  })
  .map(({ angle, distance, height, roll, focal, k1 }) =>
    cameraAt([12.8 + distance * Math.cos(angle), 16 + distance * Math.sin(angle), height], [12.8, 16, 0], {
      roll,
      focal: pixels(focal),
      radial: [k1, 1.8 * k1 * k1],
    }),
  );

import type { Court } from '../lawn/court.ts';
import { pixels } from '../units/numbers.ts';
import { err, ok, type Result } from '../units/result.ts';
import type { CameraFault } from './camera-fault.ts';
import type { PictureSize } from './fit-marks.ts';
import { placeMarks } from './mark-places.ts';
import { multiply3, rotationBy } from './rotation.ts';
import type { Camera, MarkedPoint } from './types.ts';

/** Distance behind the near end in which the camera is looked for, metres. */
const BEHIND = { least: 0.2, most: 60 } as const;
const BISECTIONS = 60;

/** Angle between the directions of two ground points `near` and `far` metres away on level ground, from `height` metres above it. */
const depression = (near: number, far: number, height: number): number =>
  Math.atan2(height, near) - Math.atan2(height, far);

/** Distance from the near end at which two ends `length` apart are seen `angle` apart, by bisection: the angle falls with the distance. */
const distanceBehind = (angle: number, length: number, height: number): number => {
  let low: number = BEHIND.least;
  let high: number = BEHIND.most;
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = Math.sqrt(low * high);
    if (depression(middle, middle + length, height) > angle) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
};

/**
 * A camera to start from: level, `height` metres above the ground, behind the nearer of the two `ends` and in line with them but for the
 * slant of the line in the picture. A fault when the far end is not above the near one in the picture.
 */
export const startSighting = (
  ends: readonly [MarkedPoint, MarkedPoint],
  court: Court,
  size: PictureSize,
  focal: number,
  height: number,
): Result<Camera, CameraFault> => {
  const [near, far] = placeMarks(ends, court);
  const length = Math.hypot(far!.x - near!.x, far!.y - near!.y);
  const [ux, uy] = [(far!.x - near!.x) / length, (far!.y - near!.y) / length];
  const at = ({ image }: MarkedPoint): [number, number] => [
    (image.x - size.width / 2) / focal,
    (image.y - size.height / 2) / focal,
  ];
  const [nearX, nearY] = at(ends[0]);
  const [farX, farY] = at(ends[1]);
  const angle = Math.atan(nearY) - Math.atan(farY);
  if (angle <= 0)
    return err({
      code: 'ends-reversed',
      message:
        'The far end of the halfway line is marked below the near one. Mark the end you stand behind lower in the picture, the other higher.',
    });
  const behind = distanceBehind(angle, length, height);
  // The line's slant in the picture is the offset aside divided by the height.
  const aside = (height * (farX - nearX)) / (nearY - farY);
  const position: [number, number, number] = [
    near!.x - behind * ux - aside * uy,
    near!.y - behind * uy + aside * ux,
    height,
  ];
  const pitch = Math.atan2(height, behind + length) - Math.atan(farY);
  const heading = Math.atan2(far!.y - position[1], far!.x - position[0]) + Math.atan(farX);
  return ok({
    position,
    rotation: levelRotation(heading, pitch),
    focal: pixels(focal),
    radial: [0, 0],
    width: size.width,
    height: size.height,
  });
};

/** Rotation lawn → camera of a level camera that looks along `heading` (radians from east, anticlockwise) and `pitch` below the horizon. */
const levelRotation = (heading: number, pitch: number): number[] => {
  const [c, s] = [Math.cos(heading), Math.sin(heading)];
  // Right, down and forward of a camera that looks horizontally.
  const level = [s, -c, 0, 0, 0, -1, c, s, 0];
  return multiply3(rotationBy([pitch, 0, 0]), level);
};

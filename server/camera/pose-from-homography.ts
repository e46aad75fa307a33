import { type Pixels, pixels } from '../units/numbers.ts';
import { homographyDepth } from './homography.ts';
import { nearestRotation, rotateBack } from './rotation.ts';
import type { Camera } from './types.ts';

/**
 * Focal lengths (px) that a ground homography in centred image coordinates implies. H ~ diag(f, f, 1) [r1 r2 t] with r1, r2 orthonormal, so
 * h1·ω·h2 = 0 and h1·ω·h1 = h2·ω·h2 with ω = diag(1/f², 1/f², 1) (Z. Zhang, "A flexible new technique for camera calibration", 2000). Each
 * equation gives at most one value; none when it is not positive (a view square to the lawn's sides, or noise).
 */
export const focalsFromHomography = (h: readonly number[]): number[] => {
  const squares = [
    -(h[0]! * h[1]! + h[3]! * h[4]!) / (h[6]! * h[7]!),
    (h[1]! ** 2 + h[4]! ** 2 - h[0]! ** 2 - h[3]! ** 2) / (h[6]! ** 2 - h[7]! ** 2),
  ];
  return squares.filter((square) => square > 0 && Number.isFinite(square)).map(Math.sqrt);
};

/**
 * The pinhole camera of focal length `focal` whose ground homography is nearest to `h` (centred image coordinates). `seen` is a lawn point
 * that the camera must have in front of it; it fixes the sign.
 */
export const poseFromHomography = (
  h: readonly number[],
  focal: number,
  seen: { readonly x: number; readonly y: number },
  size: { readonly width: Pixels; readonly height: Pixels },
): Camera => {
  const sign = homographyDepth(h, seen) < 0 ? -1 : 1;
  const column = (i: number): [number, number, number] => [
    (sign * h[i]!) / focal,
    (sign * h[i + 3]!) / focal,
    sign * h[i + 6]!,
  ];
  const [a, b, t] = [column(0), column(1), column(2)];
  const scale = 2 / (Math.hypot(...a) + Math.hypot(...b));
  const r1 = a.map((value) => value * scale);
  const r2 = b.map((value) => value * scale);
  const r3 = [
    r1[1]! * r2[2]! - r1[2]! * r2[1]!,
    r1[2]! * r2[0]! - r1[0]! * r2[2]!,
    r1[0]! * r2[1]! - r1[1]! * r2[0]!,
  ];
  const rotation = nearestRotation([0, 1, 2].flatMap((row) => [r1[row]!, r2[row]!, r3[row]!]));
  const [x, y, z] = rotateBack(rotation, [t[0] * scale, t[1] * scale, t[2] * scale]);
  return { position: [-x, -y, -z], rotation, focal: pixels(focal), radial: [0, 0], ...size };
};

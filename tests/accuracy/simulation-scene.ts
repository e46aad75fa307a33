import { projectPoint } from '../../server/camera/camera-model.ts';
import { monotoneLimit, unstretch } from '../../server/camera/lens.ts';
import type { FocalPrior } from '../../server/camera/lens-priors.ts';
import { lookAt, type Vector3 } from '../../server/camera/rotation.ts';
import type { Camera } from '../../server/camera/types.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { pixels } from '../../server/units/numbers.ts';
import { type ImagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { between, normal } from './random.ts';

/** Sizes of the upright picture in px, and how often each is met. */
const SIZES = [
  [4032, 3024],
  [3264, 2448],
  [4000, 2252],
  [3024, 4032],
] as const;

const pick = <T>(random: () => number, items: readonly T[]): T => items[Math.floor(random() * items.length)]!;

/** Whether the picture's corner is inside the lens's one-to-one range, with a little to spare. */
const wholePicture = ({ focal, radial, width, height }: Camera): boolean => {
  const corner = unstretch(radial, Math.hypot(width, height) / 2 / focal);
  return corner * corner < 0.8 * monotoneLimit(radial);
};

/** A place to stand outside the court, `back` metres behind one of the sides or beyond a corner. */
const standingPlace = (random: () => number): readonly [number, number] => {
  const { width, length } = STANDARD_COURT;
  const back = between(random, 2, 20);
  const along = between(random, -0.1, 1.1);
  return pick(random, [
    [along * width, -back],
    [along * width, length + back],
    [-back, along * length],
    [width + back, along * length],
  ] as const);
};

/** A random camera on a terrace, balcony or mast: 4 to 20 m up, 50° to 100° across its long side, k1 from −0.25 to 0.1, a little askew. */
export const randomCamera = (random: () => number): Camera => {
  for (;;) {
    const [width, height] = pick(random, SIZES);
    const [x, y] = standingPlace(random);
    const position: Vector3 = [x, y, 4 * Math.exp(between(random, 0, Math.log(5)))];
    const target: Vector3 = [
      STANDARD_COURT.width * between(random, 0.35, 0.65),
      STANDARD_COURT.length * between(random, 0.35, 0.65),
      0,
    ];
    const across = (between(random, 50, 100) * Math.PI) / 180;
    const k1 = between(random, -0.25, 0.1);
    const camera: Camera = {
      position,
      rotation: lookAt(position, target, 0.04 * normal(random)),
      focal: pixels(Math.max(width, height) / 2 / Math.tan(across / 2)),
      radial: [k1, 1.8 * k1 * k1 + 0.02 * normal(random)],
      width: pixels(width),
      height: pixels(height),
    };
    if (wholePicture(camera)) return camera;
  }
};

/** Height of the ground (m) at a place. */
export type Ground = (x: number, y: number) => number;

const WAVES = 48;

/**
 * Smooth random ground: a sum of plane waves whose wave vectors are normal, so heights are correlated as exp(−d²/2l²) with a length l of 2 to 8 m and
 * have the standard deviation `sd`.
 */
export const randomGround = (random: () => number, sd: number): Ground => {
  const length = between(random, 2, 8);
  const waves = Array.from({ length: WAVES }, () => ({
    kx: normal(random) / length,
    ky: normal(random) / length,
    phase: between(random, 0, 2 * Math.PI),
  }));
  const scale = sd * Math.sqrt(2 / WAVES);
  return (x, y) =>
    scale * waves.reduce((sum, { kx, ky, phase }) => sum + Math.cos(kx * x + ky * y + phase), 0);
};

/** Image of a place of the lawn `above` metres above the ground there; null when it is outside the picture. */
export const seenAt = (
  camera: Camera,
  ground: Ground,
  x: number,
  y: number,
  above = 0,
): ImagePoint | null => {
  const image = projectPoint(camera, lawnPoint3(x, y, ground(x, y) + above));
  const inside = image && image.x >= 0 && image.y >= 0 && image.x <= camera.width && image.y <= camera.height;
  return inside ? image : null;
};

/** How a photo's own data speak about its focal length. */
export const EXIF_KINDS = ['right', 'absent', 'wrong'] as const;
export type ExifKind = (typeof EXIF_KINDS)[number];

const EXIF_SD = 0.028;

/** The photo's stated focal length: right (within its spread) in 60 of 100, absent in 25, and wrong by a zoom or crop in 15. */
export const randomExif = (
  random: () => number,
  camera: Camera,
): { readonly kind: ExifKind; readonly prior: FocalPrior | undefined } => {
  const draw = random();
  if (draw < 0.25) return { kind: 'absent', prior: undefined };
  const kind = draw < 0.4 ? 'wrong' : 'right';
  const off =
    kind === 'wrong' ? between(random, 0.2, 0.9) * (random() < 0.8 ? -1 : 1) : EXIF_SD * 0.7 * normal(random);
  return { kind, prior: { focal: pixels(camera.focal * Math.exp(off)), sd: EXIF_SD } };
};

import { type Metres, pixels } from '../units/numbers.ts';
import { type ImagePoint, imagePoint, type LawnPoint, type LawnPoint3, lawnPoint } from '../units/points.ts';
import { monotoneLimit, unstretch } from './lens.ts';
import { multiply3, rotateBack, rotationBy } from './rotation.ts';
import { CAMERA_PARAMETERS, type Camera } from './types.ts';

/** Length of the working array of `projectInto`: image (2), d x / d parameters (9), d y / d parameters (9), d x / d point (3), d y / d point (3). */
export const PROJECTION_LENGTH = 26;
/** Where the parts of that array begin. */
export const PROJECTION = { x: 0, y: 1, xBy: 2, yBy: 11, xByPoint: 20, yByPoint: 23 } as const;

/** Nearer than this in front of the camera (metres) counts as behind it: nothing that near is ever marked. */
const NEAREST = 1e-3;

/**
 * Image of the point (x, y, z) (metres, lawn frame) with all derivatives, written into `out`; false (and `out` unspecified) when the point
 * is behind the camera or outside the range where the lens is one to one.
 *
 * With c = R (X − C), (u, v) = (c_x, c_y)/c_z, s = u² + v², d = 1 + k1 s + k2 s² and a small turn ω about the camera's own axes
 * (R ← exp[ω] R, so c changes by ω × c): d(u, v)/dc is the pinhole's, and the lens adds d·I + 2 (k1 + 2 k2 s) (u, v)ᵀ(u, v).
 */
export const projectInto = (camera: Camera, x: number, y: number, z: number, out: Float64Array): boolean => {
  const { position, rotation: r, focal, radial } = camera;
  const dx = x - position[0];
  const dy = y - position[1];
  const dz = z - position[2];
  const cx = r[0]! * dx + r[1]! * dy + r[2]! * dz;
  const cy = r[3]! * dx + r[4]! * dy + r[5]! * dz;
  const cz = r[6]! * dx + r[7]! * dy + r[8]! * dz;
  if (cz < NEAREST) return false;
  const u = cx / cz;
  const v = cy / cz;
  const s = u * u + v * v;
  if (s >= monotoneLimit(radial)) return false;
  // This runs some hundred thousand times a picture: taking arrays apart by pattern makes objects for the collector.
  const k1 = radial[0];
  const k2 = radial[1];
  const d = 1 + s * (k1 + s * k2);
  out[0] = camera.width / 2 + focal * u * d;
  out[1] = camera.height / 2 + focal * v * d;

  // The image by (u, v).
  const g = 2 * (k1 + 2 * k2 * s);
  const xu = focal * (d + g * u * u);
  const xv = focal * g * u * v;
  const yv = focal * (d + g * v * v);
  // The image by c; then by the point (c changes by R) and by the position (by −R).
  const xc0 = xu / cz;
  const xc1 = xv / cz;
  const xc2 = -(xu * u + xv * v) / cz;
  const yc1 = yv / cz;
  const yc2 = -(xv * u + yv * v) / cz;
  for (let i = 0; i < 3; i++) {
    const byX = xc0 * r[i]! + xc1 * r[i + 3]! + xc2 * r[i + 6]!;
    const byY = xc1 * r[i]! + yc1 * r[i + 3]! + yc2 * r[i + 6]!;
    out[20 + i] = byX;
    out[23 + i] = byY;
    out[2 + i] = -byX;
    out[11 + i] = -byY;
  }
  // By the turn: dc = ω × c.
  out[5] = xc2 * cy - xc1 * cz;
  out[6] = xc0 * cz - xc2 * cx;
  out[7] = xc1 * cx - xc0 * cy;
  out[14] = yc2 * cy - yc1 * cz;
  out[15] = xc1 * cz - yc2 * cx;
  out[16] = yc1 * cx - xc1 * cy;
  // By ln focal, k1, k2.
  out[8] = focal * u * d;
  out[17] = focal * v * d;
  out[9] = focal * u * s;
  out[18] = focal * v * s;
  out[10] = focal * u * s * s;
  out[19] = focal * v * s * s;
  return true;
};

/** Image (px) of a point of the lawn frame; null when it is behind the camera or outside the range where the lens is one to one. It may lie outside the picture. */
export const projectPoint = (camera: Camera, p: LawnPoint3): ImagePoint | null => {
  const out = new Float64Array(PROJECTION_LENGTH);
  return projectInto(camera, p.x, p.y, p.z, out) ? imagePoint(out[0]!, out[1]!) : null;
};

/** The derivatives of a point's image. */
export type ProjectionJacobian = {
  readonly image: ImagePoint;
  /** 2 × 9, row by row: px by position (m), turn (rad), ln focal, k1, k2. */
  readonly parameters: Float64Array;
  /** 2 × 3, row by row: px by the point's x, y, z (m). */
  readonly point: Float64Array;
};

/** Image of a point and its analytic derivatives by the nine parameters and by the point; null where `projectPoint` is. */
export const projectionJacobian = (camera: Camera, p: LawnPoint3): ProjectionJacobian | null => {
  const out = new Float64Array(PROJECTION_LENGTH);
  if (!projectInto(camera, p.x, p.y, p.z, out)) return null;
  return {
    image: imagePoint(out[0]!, out[1]!),
    parameters: out.slice(PROJECTION.xBy, PROJECTION.xByPoint),
    point: out.slice(PROJECTION.xByPoint),
  };
};

/** Unit vector (lawn frame) along which the camera sees `image`; null where the lens shows nothing. */
export const viewRay = (camera: Camera, image: ImagePoint): [number, number, number] | null => {
  const x = (image.x - camera.width / 2) / camera.focal;
  const y = (image.y - camera.height / 2) / camera.focal;
  const seen = Math.hypot(x, y);
  const radius = unstretch(camera.radial, seen);
  if (Number.isNaN(radius)) return null;
  const scale = seen === 0 ? 1 : radius / seen;
  const length = Math.hypot(radius, 1);
  return rotateBack(camera.rotation, [(x * scale) / length, (y * scale) / length, 1 / length]);
};

/** Where the ray of `image` meets the plane `height` metres above the ground; null at or above the horizon, or when the camera is not above that plane. */
export const pointAtHeight = (camera: Camera, image: ImagePoint, height: Metres): LawnPoint | null => {
  const ray = viewRay(camera, image);
  const above = camera.position[2] - height;
  if (!ray || above <= 0 || ray[2] > -1e-9) return null;
  const reach = -above / ray[2];
  return lawnPoint(camera.position[0] + reach * ray[0], camera.position[1] + reach * ray[1]);
};

/** The camera after a small step in its nine parameters: position + step, exp[turn] R, focal · exp(step), radial + step. */
export const moveCamera = (camera: Camera, step: ArrayLike<number>): Camera => {
  if (step.length < CAMERA_PARAMETERS)
    throw new Error(`Expected 9 numbers for step but received ${step.length}`);
  const [px, py, pz] = camera.position;
  return {
    ...camera,
    position: [px + step[0]!, py + step[1]!, pz + step[2]!],
    rotation: multiply3(rotationBy([step[3]!, step[4]!, step[5]!]), camera.rotation),
    focal: pixels(camera.focal * Math.exp(step[6]!)),
    radial: [camera.radial[0] + step[7]!, camera.radial[1] + step[8]!],
  };
};

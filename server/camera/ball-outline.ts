import { BALL_RADIUS } from '../lawn/ball.ts';
import { type Pixels, pixels, type Radians, radians } from '../units/numbers.ts';
import { type ImagePoint, imagePoint, type LawnPoint, lawnPoint3 } from '../units/points.ts';
import { pointAtHeight, projectPoint } from './camera-model.ts';
import { monotoneLimit, stretch } from './lens.ts';
import { rotate, type Vector3 } from './rotation.ts';
import type { Camera } from './types.ts';

/** The outline of a ball in the picture, as an ellipse. */
export type BallOutline = {
  /** Middle of the ellipse, px. */
  readonly centre: ImagePoint;
  /** Image of the ball's centre, px: nearer to the picture's middle than the ellipse's. */
  readonly ball: ImagePoint;
  /** Semi-major and semi-minor axis, px. */
  readonly semiAxes: readonly [Pixels, Pixels];
  /** Direction of the major axis, from x towards y (down), 0 to π. */
  readonly angle: Radians;
};

/** The ball's centre in the camera's axes when it stands at `at`. */
const inCamera = (camera: Camera, at: LawnPoint): Vector3 =>
  rotate(camera.rotation, [
    at.x - camera.position[0],
    at.y - camera.position[1],
    BALL_RADIUS - camera.position[2],
  ]);

/** Image of the direction (u, v, 1) in the camera's axes; null outside the lens's one-to-one range. */
const imageOf = (camera: Camera, u: number, v: number): ImagePoint | null => {
  const s = u * u + v * v;
  if (s >= monotoneLimit(camera.radial)) return null;
  const d = camera.focal * stretch(camera.radial, s);
  return imagePoint(camera.width / 2 + d * u, camera.height / 2 + d * v);
};

/** An ellipse before the lens: middle and semi-axis vectors in the plane at unit distance. */
type PlaneEllipse = { readonly middle: readonly [number, number]; readonly axes: readonly [Axis, Axis] };
type Axis = readonly [number, number];

/**
 * Outline of a sphere of radius ρ about c. Rays d that touch it fulfil (d·c)² = (c·c − ρ²)(d·d). The cone is symmetric about c, so its cut with the
 * plane z = 1 is an ellipse whose major axis points from the picture's middle to c. With θ the angle of c to the optical axis and
 * α = asin(ρ/|c|), its ends lie at tan(θ ± α). Across, with m = (c_x, c_y)/c_z moved to the ellipse's middle, the semi-axis b follows from
 * b² = sin²α / (cos²θ − sin²α), the conic's discriminant. Null when the ball reaches round to beside the camera.
 */
const planeEllipse = (c: Vector3): PlaneEllipse | null => {
  const distance = Math.hypot(...c);
  const sine = BALL_RADIUS / distance;
  const cosine = c[2] / distance;
  if (!(cosine > sine) || !(sine < 1)) return null;
  const theta = Math.atan2(Math.hypot(c[0], c[1]), c[2]);
  const alpha = Math.asin(sine);
  const far = Math.tan(theta + alpha);
  const near = Math.tan(theta - alpha);
  const aside = Math.hypot(c[0], c[1]);
  const [x, y] = aside === 0 ? [1, 0] : [c[0] / aside, c[1] / aside];
  const a = (far - near) / 2;
  const b = sine / Math.sqrt(cosine * cosine - sine * sine);
  return {
    middle: [((far + near) / 2) * x, ((far + near) / 2) * y],
    axes: [
      [a * x, a * y],
      [-b * y, b * x],
    ],
  };
};

/**
 * Outline of a ball that stands on the lawn at `at`. The pinhole's ellipse is exact; the lens is applied to the ends of its axes, which is exact to
 * second order in the ball's size (a hundredth of a pixel for the balls of a picture from a balcony). Null when the ball is not wholly before the camera
 * or outside the lens's range.
 */
export const ballOutline = (camera: Camera, at: LawnPoint): BallOutline | null => {
  const ball = projectPoint(camera, lawnPoint3(at.x, at.y, BALL_RADIUS));
  const ellipse = planeEllipse(inCamera(camera, at));
  if (!ball || !ellipse) return null;
  const [mx, my] = ellipse.middle;
  const ends = ellipse.axes.flatMap(([x, y]) => [
    imageOf(camera, mx + x, my + y),
    imageOf(camera, mx - x, my - y),
  ]);
  if (ends.some((end) => end === null)) return null;
  const [a, b, c, d] = ends as [ImagePoint, ImagePoint, ImagePoint, ImagePoint];
  const long = [(a.x - b.x) / 2, (a.y - b.y) / 2] as const;
  const cross = [(c.x - d.x) / 2, (c.y - d.y) / 2] as const;
  return {
    centre: imagePoint((a.x + b.x + c.x + d.x) / 4, (a.y + b.y + c.y + d.y) / 4),
    ball,
    ...orderAxes(long, cross),
  };
};

/** Semi-axes in order of size, and the direction of the longer. A barrel lens can make the radial one the shorter. */
const orderAxes = (long: Axis, cross: Axis): Pick<BallOutline, 'semiAxes' | 'angle'> => {
  const [major, minor] = Math.hypot(...long) >= Math.hypot(...cross) ? [long, cross] : [cross, long];
  const angle = Math.atan2(major[1], major[0]);
  return {
    semiAxes: [pixels(Math.hypot(...major)), pixels(Math.hypot(...minor))],
    angle: radians(((angle % Math.PI) + Math.PI) % Math.PI),
  };
};

/** `count` points of the exact outline of a ball at `at`, lens included; null where `ballOutline` is. */
export const ballContour = (camera: Camera, at: LawnPoint, count: number): ImagePoint[] | null => {
  const ellipse = planeEllipse(inCamera(camera, at));
  if (!ellipse) return null;
  const [[ax, ay], [bx, by]] = ellipse.axes;
  const points = Array.from({ length: count }, (_, i) => {
    const turn = (2 * Math.PI * i) / count;
    return imageOf(
      camera,
      ellipse.middle[0] + ax * Math.cos(turn) + bx * Math.sin(turn),
      ellipse.middle[1] + ay * Math.cos(turn) + by * Math.sin(turn),
    );
  });
  return points.some((point) => point === null) ? null : (points as ImagePoint[]);
};

/** Diameter in px (geometric mean of both axes) of a ball at `at`; null where `ballOutline` is. */
export const ballDiameter = (camera: Camera, at: LawnPoint): Pixels | null => {
  const outline = ballOutline(camera, at);
  return outline && pixels(2 * Math.sqrt(outline.semiAxes[0] * outline.semiAxes[1]));
};

/** Steps of the correction; the offset hardly changes over its own length, so two settle it. */
const STEPS = 3;

/**
 * Image of the ball's centre when the middle of its outline is seen at `middle`. The two differ because a sphere off the picture's middle is seen as
 * an ellipse stretched outwards. Null at or above the horizon.
 */
export const outlineCentreToBallCentre = (camera: Camera, middle: ImagePoint): ImagePoint | null => {
  let ball: ImagePoint = middle;
  for (let step = 0; step < STEPS; step++) {
    const at = pointAtHeight(camera, ball, BALL_RADIUS);
    const outline = at && ballOutline(camera, at);
    if (!outline) return null;
    ball = imagePoint(
      middle.x + outline.ball.x - outline.centre.x,
      middle.y + outline.ball.y - outline.centre.y,
    );
  }
  return ball;
};

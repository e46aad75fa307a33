import { pointAtHeight, projectPoint } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { BALL_RADIUS } from '../../lawn/ball.ts';
import type { ImagePoint } from '../../units/points.ts';
import { lawnPoint3 } from '../../units/points.ts';

/**
 * How a ball that stands on the lawn looks from the camera. Its outline in the picture is the ellipse
 * `(x, y) + cos θ · (ax, ay) + sin θ · (bx, by)`, all in px; θ = 0 is the outline's lowest point on the ball, θ = π its highest.
 */
export type BallView = {
  /** Middle of the outline, px. */
  readonly x: number;
  readonly y: number;
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  /** Image of the ball's centre minus the middle of its outline, px: a sphere's outline is not centred on its centre. */
  readonly centreDx: number;
  readonly centreDy: number;
  /** Radius of the circle of the same area, px. */
  readonly radius: number;
  /** Sine of the angle at which the camera looks down on the ball's centre, above 0. */
  readonly sinDown: number;
  /** Level unit vector from the camera to the ball, lawn frame. */
  readonly forwardX: number;
  readonly forwardY: number;
  /** The ball's place on the lawn, metres. */
  readonly lawnX: number;
  readonly lawnY: number;
};

/** Points of the tangent circle that are projected; the first harmonic of their images is the ellipse. */
const OUTLINE_POINTS = 12;

/**
 * The outline of a ball that stands at (`lawnX`, `lawnY`) metres; null when any of it is behind the camera or the camera is
 * inside it. The rays that touch a sphere touch it on a circle (centre C + (1 − r²/D²)(X − C), radius r √(1 − r²/D²)); that
 * circle is projected through the lens and its first harmonic taken, exact for a pinhole to (r/D)² of the radius.
 */
export const viewBall = (camera: Camera, lawnX: number, lawnY: number): BallView | null => {
  const [cx, cy, cz] = camera.position;
  const dx = lawnX - cx;
  const dy = lawnY - cy;
  const dz = BALL_RADIUS - cz;
  const distance2 = dx * dx + dy * dy + dz * dz;
  const flat = Math.hypot(dx, dy);
  const shrink = 1 - BALL_RADIUS ** 2 / distance2;
  if (shrink <= 0 || flat < 1e-9) return null;
  const distance = Math.sqrt(distance2);
  const rim = BALL_RADIUS * Math.sqrt(shrink);
  // Down across the line of sight, and level to the side of it.
  const down = [(dx * dz) / (flat * distance), (dy * dz) / (flat * distance), -flat / distance] as const;
  const side = [-dy / flat, dx / flat] as const;
  let x = 0;
  let y = 0;
  let ax = 0;
  let ay = 0;
  let bx = 0;
  let by = 0;
  for (let i = 0; i < OUTLINE_POINTS; i++) {
    const c = Math.cos((2 * Math.PI * i) / OUTLINE_POINTS);
    const s = Math.sin((2 * Math.PI * i) / OUTLINE_POINTS);
    const image = projectPoint(
      camera,
      lawnPoint3(
        cx + shrink * dx + rim * (c * down[0] + s * side[0]),
        cy + shrink * dy + rim * (c * down[1] + s * side[1]),
        cz + shrink * dz + rim * c * down[2],
      ),
    );
    if (image === null) return null;
    x += image.x / OUTLINE_POINTS;
    y += image.y / OUTLINE_POINTS;
    ax += (2 * c * image.x) / OUTLINE_POINTS;
    ay += (2 * c * image.y) / OUTLINE_POINTS;
    bx += (2 * s * image.x) / OUTLINE_POINTS;
    by += (2 * s * image.y) / OUTLINE_POINTS;
  }
  const centre = projectPoint(camera, lawnPoint3(lawnX, lawnY, BALL_RADIUS));
  if (centre === null) return null;
  const radius = Math.sqrt(Math.abs(ax * by - ay * bx));
  return {
    x,
    y,
    ax,
    ay,
    bx,
    by,
    centreDx: centre.x - x,
    centreDy: centre.y - y,
    radius,
    sinDown: -dz / distance,
    forwardX: dx / flat,
    forwardY: dy / flat,
    lawnX,
    lawnY,
  };
};

/** The view of the ball whose centre is imaged at `image`; null when no place on the lawn is seen there. */
export const viewBallAt = (camera: Camera, image: ImagePoint): BallView | null => {
  const place = pointAtHeight(camera, image, BALL_RADIUS);
  return place === null ? null : viewBall(camera, place.x, place.y);
};

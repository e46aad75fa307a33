import { BALL_RADIUS } from '../lawn/ball.ts';
import type { Metres } from '../units/numbers.ts';
import { type Covariance2, type ImagePoint, type LawnPoint, lawnPoint3 } from '../units/points.ts';
import { pointAtHeight, projectionJacobian } from './camera-model.ts';
import { inverse2, outer2, propagate2, sum2, transform2 } from './covariance2.ts';
import { CAMERA_PARAMETERS, type Camera, type SolvedCamera } from './types.ts';

/** What a ball's uncertainty is made of; the parts add up to the whole. */
export const BUDGET_PARTS = ['marks', 'trace', 'lens', 'fit', 'unevenness', 'grass'] as const;
/** One cause of a ball's uncertainty. */
export type BudgetPart = (typeof BUDGET_PARTS)[number];
/** Covariance (m²) by cause. */
export type BallBudget = Readonly<Record<BudgetPart, Covariance2>>;

/** Place of a ball's centre on the lawn, its covariance (m²), and what that is made of. */
export type LocatedBall = {
  readonly point: LawnPoint;
  readonly covariance: Covariance2;
  readonly budget: BallBudget;
};

/**
 * A ball settles into mown grass, more or less by this much (one standard deviation, m): a lawn cut to 6–12 mm lets it sink by anything up to 5 mm, and an even
 * spread over 5 mm has a standard deviation of 1.4 mm. A judgement, no source.
 */
export const GRASS_SD = 0.0015;

/** Standard deviations in metres of the ground's height and of the ball's rest in the grass. */
export type BallGround = { readonly unevenness: number; readonly grass?: number | undefined };

/** How the lawn point at a height follows image, camera and height: the derivatives of an implicit function. */
export type PointDerivatives = {
  readonly point: LawnPoint;
  /** 2 × 2: metres by px. */
  readonly byImage: readonly [number, number, number, number];
  /** Rows of metres by the nine camera parameters. */
  readonly xByCamera: Float64Array;
  readonly yByCamera: Float64Array;
  /** Metres by metres of height: along the line of sight, of length (horizontal distance) / (height of the camera above the plane). */
  readonly byHeight: readonly [number, number];
};

/**
 * The point P at `height` seen at `image`, with its derivatives. q(P, θ, z) = m holds for the projection q, so with A = (∂q/∂P)⁻¹:
 * dP = A (dm − ∂q/∂θ dθ − ∂q/∂z dz). Null at or above the horizon.
 */
export const pointDerivatives = (
  camera: Camera,
  image: ImagePoint,
  height: Metres,
): PointDerivatives | null => {
  const point = pointAtHeight(camera, image, height);
  const jacobian = point && projectionJacobian(camera, lawnPoint3(point.x, point.y, height));
  if (!point || !jacobian) return null;
  const [xx, xy, xz, yx, yy, yz] = jacobian.point as unknown as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const byImage = inverse2([xx, xy, yx, yy]);
  if (!byImage) return null;
  const [a, b, c, d] = byImage;
  const xBy = jacobian.parameters.subarray(0, CAMERA_PARAMETERS);
  const yBy = jacobian.parameters.subarray(CAMERA_PARAMETERS);
  return {
    point,
    byImage,
    xByCamera: minusBoth(xBy, a, yBy, b),
    yByCamera: minusBoth(xBy, c, yBy, d),
    byHeight: [-(a * xz + b * yz), -(c * xz + d * yz)],
  };
};

/** −(p · first + q · second), entry by entry. */
const minusBoth = (first: Float64Array, p: number, second: Float64Array, q: number): Float64Array => {
  const sum = new Float64Array(first.length);
  for (let i = 0; i < sum.length; i++) sum[i] = -(p * first[i]! + q * second[i]!);
  return sum;
};

/**
 * The ball whose centre is seen at `image` with covariance `covariance` (px²): it stands on the ground, so its centre is 46 mm above it. Stated
 * covariance: the camera's (marks, trace, lens), the fit's own, and the height's: where the ground is δ higher than level the ball is seen
 * δ · distance / (camera height − 46 mm) too far along the line of sight. What uneven ground does to the traced lines is counted with the unevenness. Null
 * at or above the horizon, where no ball stands.
 */
export const locateBall = (
  solved: SolvedCamera,
  image: ImagePoint,
  covariance: Covariance2,
  { unevenness, grass = GRASS_SD }: BallGround,
): LocatedBall | null => {
  const at = pointDerivatives(solved.camera, image, BALL_RADIUS);
  if (!at) return null;
  const { point, xByCamera, yByCamera, byHeight } = at;
  const nothing = new Float64Array(CAMERA_PARAMETERS ** 2);
  const parts = solved.parts ?? { marks: solved.covariance, trace: nothing, lens: nothing, ground: nothing };
  const camera = (part: Float64Array): Covariance2 => propagate2(xByCamera, yByCamera, part);
  const budget: BallBudget = {
    marks: camera(parts.marks),
    trace: camera(parts.trace),
    lens: camera(parts.lens),
    fit: transform2(at.byImage, covariance),
    unevenness: sum2(camera(parts.ground), outer2(byHeight[0], byHeight[1], unevenness ** 2)),
    grass: outer2(byHeight[0], byHeight[1], grass ** 2),
  };
  return { point, covariance: sum2(...BUDGET_PARTS.map((part) => budget[part])), budget };
};

import { moveCamera, pointAtHeight } from '../camera/camera-model.ts';
import type { PointDerivatives } from '../camera/locate-ball.ts';
import { rollOf } from '../camera/solve-sighting.ts';
import { CAMERA_PARAMETERS, type Camera, type SolvedCamera } from '../camera/types.ts';
import type { Contributions } from '../contract/sight.ts';
import { BALL_RADIUS } from '../lawn/ball.ts';
import type { HalfwayLine } from '../lawn/halfway-lines.ts';
import type { ImagePoint } from '../units/points.ts';

const N = CAMERA_PARAMETERS;
/** Step of numerical derivatives. */
const STEP = 1e-6;

const unit = (at: number): Float64Array => {
  const out = new Float64Array(N);
  out[at] = 1;
  return out;
};

const rollGradient = (camera: Camera): Float64Array =>
  Float64Array.from({ length: N }, (_, k) => {
    const step = new Float64Array(N);
    step[k] = STEP;
    return (rollOf(moveCamera(camera, step)) - rollOf(camera)) / STEP;
  });

const product = (a: Float64Array, covariance: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < N; i++) for (let j = 0; j < N; j++) sum += a[i]! * covariance[i * N + j]! * b[j]!;
  return sum;
};

/** How far `beyond` follows a quantity that is one standard deviation off, everything else moving along as the marks demand: covariance ÷ standard deviation. */
const explained = (beyond: Float64Array, covariance: Float64Array, quantity: Float64Array): number => {
  const variance = product(quantity, covariance, quantity);
  return variance > 0 ? Math.abs(product(beyond, covariance, quantity)) / Math.sqrt(variance) : 0;
};

/**
 * What of a ball's `beyond` and of its uncertainty is due to the height of the phone, its offset aside of the line, its roll and its lens, metres.
 * `sd`: see `explained`; the four overlap and do not add up. `shift`: by how much the answer would be off (towards the next hoop positive) if the
 * quantity were neglected. By hand: the centre of a ball, r = 46 mm up, is seen on the ground r/(h − r) of its distance from the phone too far, so
 * an offset a aside shifts it by −a r/(h − r), and its own distance d from the line by d r/(h − r); a roll ρ tilts its upright by r tan ρ.
 */
export const contributionsOf = (
  solved: SolvedCamera,
  image: ImagePoint,
  at: PointDerivatives,
  line: HalfwayLine,
): Contributions => {
  const { camera, covariance } = solved;
  const across = line.axis === 'x' ? 0 : 1;
  const side = line.nextHoopSide;
  const byCamera = (across === 0 ? at.xByCamera : at.yByCamera).map((value) => side * value);
  const lever = BALL_RADIUS / (camera.position[2] - BALL_RADIUS);
  const aside = side * (camera.position[across]! - line.at);
  const off = side * (at.point[line.axis] - line.at);
  const straight = pointAtHeight({ ...camera, radial: [0, 0] }, image, BALL_RADIUS);
  const sd = (quantity: Float64Array): number => explained(byCamera, covariance, quantity);
  const lens = Math.hypot(sd(unit(6)), sd(unit(7)));
  return {
    height: { sd: sd(unit(2)), shift: off * lever },
    aside: { sd: sd(unit(across)), shift: -aside * lever },
    roll: { sd: sd(rollGradient(camera)), shift: BALL_RADIUS * Math.tan(rollOf(camera)) },
    lens: { sd: lens, shift: straight ? side * (straight[line.axis] - at.point[line.axis]) : 0 },
  };
};

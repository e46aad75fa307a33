import { locateBall } from '../../server/camera/locate-ball.ts';
import { refineCamera } from '../../server/camera/refine-camera.ts';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import type { Camera, SolvedCamera } from '../../server/camera/types.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { type HalfwayLine, halfwayLine, SCORED_POINTS } from '../../server/lawn/halfway-lines.ts';
import { beyondLine, callBall } from '../../server/rules/all-across.ts';
import { type Covariance2, imagePoint, type LawnPoint, lawnPoint } from '../../server/units/points.ts';
import { between, normal, seeded } from './random.ts';
import {
  type ExifKind,
  type Ground,
  randomCamera,
  randomExif,
  randomGround,
  seenAt,
} from './simulation-scene.ts';
import { FINGER_SD, randomMarks, randomTrace } from './simulation-trace.ts';

/** Stated unevenness of the simulated lawns, m; their true standard deviation. */
export const GROUND_SD = 0.005;
/** How unevenly a ball rests in the grass, m. */
const GRASS = 0.0015;
/** Noise of a ball's centre in each direction, px. */
const BALL_SD = 0.25;
/** Certainty of the calls. */
export const CERTAINTY = 0.99;

/** One ball read in one simulated picture. */
export type BallTrial = {
  readonly exif: ExifKind;
  readonly camera: Camera;
  readonly solved: SolvedCamera;
  readonly ball: LawnPoint;
  /** Stated minus true place, m. */
  readonly error: readonly [number, number];
  readonly covariance: Covariance2;
  /** Squared distance of the error in its stated covariance: χ² with two degrees of freedom when that is honest. */
  readonly square: number;
  /** True margin of the ball's nearest point past the line, m. */
  readonly margin: number;
  readonly firm: boolean;
  readonly wrong: boolean;
};

/** What came of one simulated picture: its balls, or why there is no camera. */
export type PictureTrial = { readonly balls: readonly BallTrial[]; readonly fault: string | null };

/** A ball anywhere on the lawn, or (three in four) within 0.2 m of undecided at a halfway line. */
const randomBall = (random: () => number, line: HalfwayLine): LawnPoint => {
  const x = between(random, 0, STANDARD_COURT.width);
  const y = between(random, 0, STANDARD_COURT.length);
  if (random() < 0.25) return lawnPoint(x, y);
  const at = line.at + line.nextHoopSide * (BALL_RADIUS + between(random, -0.2, 0.2));
  return line.axis === 'x' ? lawnPoint(at, y) : lawnPoint(x, at);
};

const readBall = (
  random: () => number,
  scene: { readonly camera: Camera; readonly ground: Ground; readonly exif: ExifKind },
  solved: SolvedCamera,
): BallTrial[] => {
  const scored = SCORED_POINTS[Math.floor(random() * SCORED_POINTS.length)]!;
  const line = halfwayLine(STANDARD_COURT, scored);
  const ball = randomBall(random, line);
  const seen = seenAt(scene.camera, scene.ground, ball.x, ball.y, BALL_RADIUS + GRASS * normal(random));
  if (!seen) return [];
  const image = imagePoint(seen.x + BALL_SD * normal(random), seen.y + BALL_SD * normal(random));
  const own = { xx: BALL_SD ** 2, xy: 0, yy: BALL_SD ** 2 };
  const located = locateBall(solved, image, own, {
    unevenness: solved.unevenness ?? GROUND_SD,
    grass: GRASS,
  });
  if (!located) return [];
  const { point, covariance } = located;
  const [ex, ey] = [point.x - ball.x, point.y - ball.y];
  const { xx, xy, yy } = covariance;
  const margin = beyondLine(ball, line);
  const { lies } = callBall(located, line, CERTAINTY);
  return [
    {
      exif: scene.exif,
      camera: scene.camera,
      solved,
      ball,
      error: [ex, ey],
      covariance,
      square: (yy * ex * ex - 2 * xy * ex * ey + xx * ey * ey) / (xx * yy - xy * xy),
      margin,
      firm: lies !== 'tooClose',
      wrong: (lies === 'beyond' && margin <= 0) || (lies === 'short' && margin > 0),
    },
  ];
};

/** Balls read in each simulated picture. */
const BALLS = 2;

/** One simulated picture from scene to calls: camera, ground, marks, traces, solve, refine, locate. */
export const simulatePicture = (random: () => number, groundSd = GROUND_SD): PictureTrial => {
  const camera = randomCamera(random);
  const ground = randomGround(random, groundSd);
  const exif = randomExif(random, camera);
  const points = randomMarks(random, camera, ground);
  const input = {
    points,
    court: STANDARD_COURT,
    width: camera.width,
    height: camera.height,
    focalPrior: exif.prior,
    markSd: FINGER_SD,
    unevenness: GROUND_SD,
  };
  const start = solveCamera(input);
  const lines = randomTrace(random, camera, ground);
  if (!start.ok) return { balls: [], fault: start.error.code };
  const solved = refineCamera(start.value, { ...input, lines });
  const scene = { camera, ground, exif: exif.kind };
  const balls = Array.from({ length: BALLS }, () => readBall(random, scene, solved)).flat();
  return { balls, fault: null };
};

/** `pictures` simulated pictures from `seed`; the same seed gives the same pictures. */
export const simulate = (pictures: number, seed: number, groundSd = GROUND_SD): PictureTrial[] => {
  const random = seeded(seed);
  return Array.from({ length: pictures }, () => simulatePicture(random, groundSd));
};

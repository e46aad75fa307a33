import { BALL_RADIUS } from '../lawn/ball.ts';
import { metres } from '../units/numbers.ts';
import type { ImagePoint } from '../units/points.ts';
import { err, ok, type Result } from '../units/result.ts';
import { ballDiameter } from './ball-outline.ts';
import type { CameraFault } from './camera-fault.ts';
import { moveCamera, pointAtHeight, projectPoint } from './camera-model.ts';
import { inverseByGroups } from './covariance-parts.ts';
import { pictureSize } from './fit-marks.ts';
import { addLensPriors, type FocalPrior, type LensPriors, lensPriors } from './lens-priors.ts';
import { type LeastSquares, minimise } from './levenberg-marquardt.ts';
import { addMarks, type WeighedMark } from './mark-observations.ts';
import type { PlacedMark } from './mark-places.ts';
import { markResiduals, rootMeanSquare } from './mark-residuals.ts';
import { addObservation, cholesky, emptyEquations, type NormalEquations } from './normal-equations.ts';
import {
  type MeasuredEnd,
  placeSights,
  type SightedLine,
  type SightedMark,
  scatterOf,
  weighSights,
} from './solve-sighting-marks.ts';
import { startSighting } from './start-sighting.ts';
import { CAMERA_PARAMETERS, type Camera, type SolvedCamera } from './types.ts';

export type { MeasuredEnd, SightedMark };

/** A ball's image and its apparent diameter with the standard deviation of its natural logarithm: its known size tells its distance. */
export type BallScale = { readonly image: ImagePoint; readonly diameter: number; readonly sd: number };

/** What a sighting camera is solved from. */
export type SightingInput = SightedLine & {
  readonly width: number;
  readonly height: number;
  readonly balls: readonly BallScale[];
  readonly focalPrior?: FocalPrior | undefined;
};

/** A phone in the hands of a standing person: height of its lens above the ground, metres, and its roll, radians. Common practice, no source. */
export const HAND_HELD = { height: 1.6, heightSd: 0.35, rollSd: 0.06 } as const;

/** Step of the numerical derivatives: metres, radians, logarithms. */
const STEP = 1e-5;
const ROUNDS = 6;
/** Rounds from which marks that do not fit lose weight, and from which their scatter counts. */
const ROBUST_FROM = 2;
const SCATTER_FROM = 3;

/** Natural logarithm of the diameter (px, geometric mean of both axes) with which a ball at `image` on the lawn is seen; NaN above the horizon. */
const lnDiameter = (camera: Camera, image: ImagePoint): number => {
  const place = pointAtHeight(camera, image, BALL_RADIUS);
  const diameter = place && ballDiameter(camera, place);
  return diameter === null ? Number.NaN : Math.log(diameter);
};

/** Roll of a camera: the angle between the picture's horizontal and the lawn's, radians. */
export const rollOf = ({ rotation }: Camera): number => Math.atan2(rotation[2]!, -rotation[5]!);

/** Adds one observation of a function of the camera, differentiated numerically. */
const addNumerical = (
  camera: Camera,
  value: (camera: Camera) => number,
  observed: number,
  sd: number,
  equations: NormalEquations,
): void => {
  const here = value(camera);
  if (Number.isNaN(here)) {
    equations.cost = Number.POSITIVE_INFINITY;
    return;
  }
  const row = new Float64Array(CAMERA_PARAMETERS);
  for (let k = 0; k < CAMERA_PARAMETERS; k++) {
    const step = new Float64Array(CAMERA_PARAMETERS);
    step[k] = STEP;
    row[k] = (value(moveCamera(camera, step)) - here) / STEP;
  }
  addObservation(equations, row, observed - here, 1 / sd ** 2);
};

/** What is known of the person who holds the phone: height of the lens and roll. */
const addStance = (camera: Camera, equations: NormalEquations): void => {
  addNumerical(camera, ({ position }) => position[2], HAND_HELD.height, HAND_HELD.heightSd, equations);
  addNumerical(camera, rollOf, 0, HAND_HELD.rollSd, equations);
};

const addBalls = (camera: Camera, balls: readonly BallScale[], equations: NormalEquations): void => {
  for (const { image, diameter, sd } of balls)
    addNumerical(camera, (at) => lnDiameter(at, image), Math.log(diameter), sd, equations);
};

const problem = (
  input: SightingInput,
  weighed: readonly WeighedMark[],
  priors: LensPriors,
  k1At: number,
): LeastSquares<Camera> => ({
  assemble: (camera) => {
    const equations = emptyEquations(CAMERA_PARAMETERS);
    addMarks(camera, weighed, equations);
    addLensPriors(camera, priors, k1At, equations);
    addStance(camera, equations);
    addBalls(camera, input.balls, equations);
    return equations;
  },
  move: moveCamera,
});

/** The covariance of the solution and its split: what the marks, the person's stance with the balls' size, and the lens give; stance and balls also apart. */
const covarianceOf = (
  camera: Camera,
  input: SightingInput,
  weighed: readonly WeighedMark[],
  priors: LensPriors,
): Pick<SolvedCamera, 'covariance' | 'parts' | 'known'> => {
  const groups = [0, 1, 2, 3].map(() => emptyEquations(CAMERA_PARAMETERS));
  const [marks, stance, lens, balls] = groups as [
    NormalEquations,
    NormalEquations,
    NormalEquations,
    NormalEquations,
  ];
  addMarks(camera, weighed, marks);
  addStance(camera, stance);
  addBalls(camera, input.balls, balls);
  addLensPriors(camera, priors, camera.radial[0], lens);
  const { covariance, parts } = inverseByGroups(groups);
  const none = new Float64Array(CAMERA_PARAMETERS ** 2);
  const [, stancePart, , ballsPart] = parts as [Float64Array, Float64Array, Float64Array, Float64Array];
  return {
    covariance,
    parts: {
      marks: parts[0]!,
      trace: stancePart.map((value, i) => value + ballsPart[i]!),
      lens: parts[2]!,
      ground: none,
    },
    known: { stance: stancePart, balls: ballsPart },
  };
};

/** A phone is held above the grass and roughly level: lower, or turned by more than 45°, marks made it so that contradict each other. */
const HELD = { lowest: 0.25, roll: Math.PI / 4 } as const;

const isHeld = (camera: Camera): boolean =>
  camera.position[2] > HELD.lowest && Math.abs(rollOf(camera)) < HELD.roll;

/** The fault of marks that cannot be seen so from behind the near end; the mark besides the ends that fits worst is named. */
const unsolved = (input: SightingInput, residuals: SolvedCamera['marks']): CameraFault => {
  const px = ({ residual: [x, y] }: SolvedCamera['marks'][number]): number => Math.hypot(x, y);
  const others = residuals.filter(({ name }) => input.ends.every((end) => end.name !== name));
  const worst = others.toSorted((a, b) => px(b) - px(a))[0];
  if (worst)
    return {
      code: 'sighting-unsolved',
      point: worst.name,
      message: `The marks cannot all be seen so from behind ${input.ends[0].name}; ${worst.name} fits worst. Check it first, then the feet of both markers, or leave out what you are not sure of.`,
    };
  return {
    code: 'sighting-unsolved',
    message:
      'The two ends of the halfway line do not look as they do from behind one of them. Mark the foot of the near marker and of the far one, or mark the peg and a hoop as well.',
  };
};

/**
 * The camera of a picture taken by hand from behind one end of the halfway line towards the other. Two marked ends, the size of the balls
 * and what is known of a standing person are enough; every further mark sharpens it. The covariance is that of the whole solution, so it
 * is wide in what the picture does not hold (height, distance) and narrow across the line. A fault when the ends cannot be seen from
 * behind the near one.
 */
export const solveSighting = (input: SightingInput): Result<SolvedCamera, CameraFault> => {
  const size = pictureSize(input.width, input.height);
  const priors = lensPriors(size.width, size.height, input.focalPrior);
  const start = startSighting(input.ends, input.court, size, Math.exp(priors.lnFocal), HAND_HELD.height);
  if (!start.ok) return start;
  const marks = placeSights(input);
  let camera = start.value;
  let weighed: WeighedMark[] = [];
  let scatter = 1;
  for (let round = 0; round < ROUNDS; round++) {
    weighed = weighSights(camera, input, marks, round >= ROBUST_FROM, scatter);
    camera = minimise(problem(input, weighed, priors, camera.radial[0]), camera).state;
    if (round >= SCATTER_FROM) scatter = scatterOf(camera, input, weighSights(camera, input, marks, true, 1));
  }
  const { equations } = minimise(problem(input, weighed, priors, camera.radial[0]), camera, 1);
  const solvable = cholesky(equations.matrix, equations.size) !== null;
  const near = projectPoint(camera, { ...nearPlace(marks, input), z: 0 });
  const residuals = markResiduals(camera, weighed);
  if (!solvable || near === null || !isHeld(camera)) return err(unsolved(input, residuals));
  return ok({
    camera,
    ...covarianceOf(camera, input, weighed, priors),
    residual: rootMeanSquare(residuals.flatMap((mark) => mark.residual)),
    marks: residuals,
    unevenness: input.unevenness,
    scatter,
  });
};

const nearPlace = (marks: readonly { place: PlacedMark }[], input: SightingInput) => {
  const { place } = marks.find(({ place: { mark } }) => mark.name === input.ends[0].name)!;
  return { x: metres(place.x), y: metres(place.y) };
};

import { BALL_RADIUS } from '../lawn/ball.ts';
import type { BallColour } from '../lawn/colours.ts';
import { type Covariance2, type ImagePoint, type LawnPoint, lawnPoint } from '../units/points.ts';
import { moveCamera, PROJECTION, PROJECTION_LENGTH, projectInto } from './camera-model.ts';
import {
  addObservation,
  cholesky,
  choleskySolve,
  completeTriangle,
  emptyEquations,
  inverseRows,
  type NormalEquations,
} from './normal-equations.ts';
import { CAMERA_PARAMETERS, type Camera, type SolvedCamera } from './types.ts';

/** One picture of the position: its solved camera and the balls it shows (image of the centre in px, covariance of the fit in px²). */
export type View = {
  readonly solved: SolvedCamera;
  readonly balls: readonly {
    readonly colour: BallColour;
    readonly image: ImagePoint;
    readonly covariance: Covariance2;
  }[];
  /** Where each ball lies by this picture alone: the start. */
  readonly places: Readonly<Partial<Record<BallColour, LawnPoint>>>;
};

/** How badly a ball's image in a picture fits the combination: view's number, px, and standard deviations (of two dimensions). */
export type Misfit = {
  readonly view: number;
  readonly colour: BallColour;
  readonly px: number;
  readonly deviations: number;
};

/** Balls placed from all pictures together. */
export type Combined = {
  readonly balls: readonly {
    readonly colour: BallColour;
    readonly point: LawnPoint;
    readonly covariance: Covariance2;
  }[];
  readonly misfits: readonly Misfit[];
  /** Sum of weighted squares of all residuals, and the number of them beyond what was estimated: χ² and its degrees of freedom. */
  readonly chiSquare: number;
  readonly degrees: number;
};

/** Unknowns of one ball: x, y and the height of its centre, metres. */
const PER_BALL = 3;
const ITERATIONS = 8;
/** A picture's camera is held to its own solution by the inverse of its covariance; parameters that were held get this much room. */
const LEAST_VARIANCE = 1e-14;

type State = {
  readonly cameras: readonly Camera[];
  readonly balls: Map<BallColour, [number, number, number]>;
};

const colours = (views: readonly View[]): BallColour[] => [
  ...new Set(views.flatMap(({ balls }) => balls.map(({ colour }) => colour))),
];

/** Metres by which one px along the line of sight moves the ground point, but for the focal length: distance² ÷ height. */
const bluntness = ({ position: [x, y, z] }: Camera, place: LawnPoint): number =>
  ((place.x - x) ** 2 + (place.y - y) ** 2) / z;

/** Smallest share of a step that is tried. */
const LEAST_SHARE = 1e-3;

/** Where a ball is looked for first: where the view that sees it most sharply puts it. */
const startPlace = (views: readonly View[], colour: BallColour): [number, number, number] => {
  const seen = views.flatMap(({ solved: { camera }, places: { [colour]: place } }) =>
    place ? [{ place, blunt: bluntness(camera, place) }] : [],
  );
  const { place } = seen.reduce((a, b) => (b.blunt < a.blunt ? b : a));
  return [place.x, place.y, BALL_RADIUS];
};

/** Information (inverse covariance) of a solved camera, 9 × 9 row by row. */
const informationOf = ({ covariance }: SolvedCamera): Float64Array => {
  const n = CAMERA_PARAMETERS;
  const padded = covariance.slice();
  for (let i = 0; i < n; i++) padded[i * n + i]! += LEAST_VARIANCE;
  const l = cholesky(padded, n);
  if (!l) throw new Error('Expected a positive definite covariance for solved but received a singular one');
  return inverseRows(l, n, n);
};

const addCameraPriors = (
  information: readonly Float64Array[],
  moved: readonly Float64Array[],
  first: number,
  equations: NormalEquations,
): void => {
  const n = CAMERA_PARAMETERS;
  information.forEach((matrix, v) => {
    const base = first + v * n;
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        equations.matrix[(base + i) * equations.size + base + j]! += matrix[i * n + j]!;
        equations.right[base + i]! -= matrix[i * n + j]! * moved[v]![j]!;
        equations.cost += moved[v]![i]! * matrix[i * n + j]! * moved[v]![j]!;
      }
  });
};

/** Cholesky whitening of a 2 × 2 covariance: (a·ex, b·ex + c·ey) has unit variance. */
const whiten = ({ xx, xy, yy }: Covariance2): { a: number; b: number; c: number } => {
  const l11 = Math.sqrt(xx);
  const l21 = xy / l11;
  const l22 = Math.sqrt(Math.max(1e-12, yy - l21 * l21));
  return { a: 1 / l11, b: -l21 / (l11 * l22), c: 1 / l22 };
};

const addSight = (
  camera: Camera,
  place: readonly [number, number, number],
  seen: View['balls'][number],
  ballAt: number,
  cameraAt: number,
  equations: NormalEquations,
): number => {
  const out = new Float64Array(PROJECTION_LENGTH);
  if (!projectInto(camera, ...place, out)) {
    // No camera sees what is behind it.
    equations.cost = Number.POSITIVE_INFINITY;
    return 0;
  }
  const { a, b, c } = whiten(seen.covariance);
  const ex = seen.image.x - out[PROJECTION.x]!;
  const ey = seen.image.y - out[PROJECTION.y]!;
  const row = (fx: number, fy: number): Float64Array => {
    const r = new Float64Array(equations.size);
    for (let k = 0; k < PER_BALL; k++)
      r[ballAt + k] = fx * out[PROJECTION.xByPoint + k]! + fy * out[PROJECTION.yByPoint + k]!;
    for (let k = 0; k < CAMERA_PARAMETERS; k++)
      r[cameraAt + k] = fx * out[PROJECTION.xBy + k]! + fy * out[PROJECTION.yBy + k]!;
    return r;
  };
  addObservation(equations, row(a, 0), a * ex, 1);
  addObservation(equations, row(b, c), b * ex + c * ey, 1);
  return Math.hypot(a * ex, b * ex + c * ey);
};

const assemble = (
  views: readonly View[],
  information: readonly Float64Array[],
  moved: readonly Float64Array[],
  state: State,
  names: readonly BallColour[],
  unevenness: number,
): NormalEquations => {
  const first = names.length * PER_BALL;
  const equations = emptyEquations(first + views.length * CAMERA_PARAMETERS);
  addCameraPriors(information, moved, first, equations);
  names.forEach((colour, i) => {
    const row = new Float64Array(equations.size);
    row[i * PER_BALL + 2] = 1;
    const height = state.balls.get(colour)![2];
    addObservation(equations, row, BALL_RADIUS - height, 1 / Math.max(unevenness, 1e-4) ** 2);
  });
  views.forEach((view, v) => {
    for (const seen of view.balls)
      addSight(
        state.cameras[v]!,
        state.balls.get(seen.colour)!,
        seen,
        names.indexOf(seen.colour) * PER_BALL,
        first + v * CAMERA_PARAMETERS,
        equations,
      );
  });
  completeTriangle(equations.matrix, equations.size);
  return equations;
};

const misfitsOf = (views: readonly View[], state: State): Misfit[] =>
  views.flatMap((view, v) =>
    view.balls.map((seen) => {
      const out = new Float64Array(PROJECTION_LENGTH);
      projectInto(state.cameras[v]!, ...state.balls.get(seen.colour)!, out);
      const { a, b, c } = whiten(seen.covariance);
      const [ex, ey] = [seen.image.x - out[0]!, seen.image.y - out[1]!];
      return {
        view: v,
        colour: seen.colour,
        px: Math.hypot(ex, ey),
        deviations: Math.hypot(a * ex, b * ex + c * ey),
      };
    }),
  );

/**
 * Places balls that have not moved from several pictures at once: weighted least squares over the balls (with the height of the ground
 * they stand on, known to `unevenness` metres) and the cameras, each held to its own solution by its covariance. Pure; the order of the
 * views changes nothing but rounding. Two views of which a ball was moved in between leave residuals that χ² shows.
 */
export const combineViews = (views: readonly View[], unevenness: number): Combined => {
  const names = colours(views);
  const information = views.map(({ solved }) => informationOf(solved));
  let moved: readonly Float64Array[] = views.map(() => new Float64Array(CAMERA_PARAMETERS));
  let state: State = {
    cameras: views.map(({ solved }) => solved.camera),
    balls: new Map(names.map((colour) => [colour, startPlace(views, colour)])),
  };
  let equations = assemble(views, information, moved, state, names, unevenness);
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    const l = cholesky(equations.matrix, equations.size);
    if (!l) break;
    const step = choleskySolve(l, equations.size, equations.right);
    const next = betterAlong(step, { views, information, moved, state, names, unevenness }, equations.cost);
    if (next === null) break;
    ({ moved, state, equations } = next);
    if (Math.max(...step.map(Math.abs)) < 1e-9) break;
  }
  return finish(views, state, names, equations);
};

/** Where an iteration stands. */
type Standing = {
  readonly views: readonly View[];
  readonly information: readonly Float64Array[];
  readonly moved: readonly Float64Array[];
  readonly state: State;
  readonly names: readonly BallColour[];
  readonly unevenness: number;
};
type Next = Pick<Standing, 'moved' | 'state'> & { readonly equations: NormalEquations };

/** The whole of a step, or the largest of its halves, quarters … that does not raise the cost: pictures that contradict each other by metres send full steps astray. Null when none is left. */
const betterAlong = (step: Float64Array, from: Standing, cost: number): Next | null => {
  const { views, information, names, unevenness } = from;
  const first = names.length * PER_BALL;
  for (let share = 1; share > LEAST_SHARE; share /= 2) {
    const moved = from.moved.map((total, v) =>
      total.map((value, k) => value + share * step[first + v * CAMERA_PARAMETERS + k]!),
    );
    const state: State = {
      cameras: views.map(({ solved }, v) => moveCamera(solved.camera, moved[v]!)),
      balls: new Map(
        names.map((colour, i) => {
          const at = i * PER_BALL;
          const [x, y, z] = from.state.balls.get(colour)!.map((value, k) => value + share * step[at + k]!);
          return [colour, [x!, y!, z!]];
        }),
      ),
    };
    const equations = assemble(views, information, moved, state, names, unevenness);
    // Near the end only rounding is left to lower the cost by.
    if (equations.cost <= cost * (1 + 1e-9) + 1e-12) return { moved, state, equations };
  }
  return null;
};

const finish = (
  views: readonly View[],
  state: State,
  names: readonly BallColour[],
  equations: NormalEquations,
): Combined => {
  const { size, matrix, cost } = equations;
  const l = cholesky(matrix, size);
  if (!l) throw new Error('Expected views that place every ball but received singular equations');
  const rows = inverseRows(l, size, names.length * PER_BALL);
  const sights = views.reduce((sum, { balls }) => sum + balls.length, 0);
  return {
    balls: names.map((colour, i) => {
      const [x, y] = state.balls.get(colour)!;
      const at = i * PER_BALL;
      return {
        colour,
        point: lawnPoint(x, y),
        covariance: {
          xx: rows[at * size + at]!,
          xy: rows[at * size + at + 1]!,
          yy: rows[(at + 1) * size + at + 1]!,
        },
      };
    }),
    misfits: misfitsOf(views, state),
    chiSquare: cost,
    // Two residuals a sight, two unknowns a ball: its height and the cameras have priors of their own.
    degrees: 2 * sights - 2 * names.length,
  };
};

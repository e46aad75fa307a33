import { pointAtHeight, projectPoint } from '../../server/camera/camera-model.ts';
import { locateBall } from '../../server/camera/locate-ball.ts';
import { lookAt } from '../../server/camera/rotation.ts';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import { solveSighting } from '../../server/camera/solve-sighting.ts';
import type { Camera, MarkedPoint, SolvedCamera } from '../../server/camera/types.ts';
import { type Marks, MarksSchema } from '../../server/contract/marks.ts';
import type { FoundBall, Reading } from '../../server/contract/reading.ts';
import type { Sighting } from '../../server/contract/sight.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { namedPlace, type PointName } from '../../server/lawn/named-points.ts';
import type { PictureAnswer } from '../../server/reading/combine-readings.ts';
import { describeCamera } from '../../server/reading/describe-camera.ts';
import { statedSd } from '../../server/reading/place-ball.ts';
import { describePose } from '../../server/reading/pose-record.ts';
import { pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { normal } from '../accuracy/random.ts';

/** Where a ball's centre lies, metres. */
export type Place = { readonly x: number; readonly y: number; readonly z: number };
/** Balls of one position. */
export type Position = ReadonlyMap<BallColour, Place>;

const SIZE = { width: pixels(3264), height: pixels(2448) } as const;
const FOCAL = 2357;
/** Noise of what is simulated, px; the ground's, metres. */
const MARK_SD = 0.4;
const BALL_SD = 0.25;
export const UNEVENNESS = 0.005;

/** A phone at (x, y, z) metres that looks at (tx, ty) on the ground. */
export const phoneAt = (x: number, y: number, z: number, tx: number, ty: number): Camera => ({
  position: [x, y, z],
  rotation: lookAt([x, y, z], [tx, ty, 0]),
  focal: pixels(FOCAL),
  radial: [0, 0],
  ...SIZE,
});

const inPicture = (image: { x: number; y: number } | null): image is { x: number; y: number } =>
  image !== null && image.x > 5 && image.y > 5 && image.x < SIZE.width - 5 && image.y < SIZE.height - 5;

/** Marks of `names` as measured; a name in `off` is marked so many px to the right. */
const takeMarks = (
  random: () => number,
  camera: Camera,
  names: readonly PointName[],
  off: Partial<Record<PointName, number>>,
): MarkedPoint[] =>
  names.flatMap((name) => {
    const { x, y } = namedPlace(STANDARD_COURT, name);
    // A marker's foot stands 60 mm outside the boundary.
    const out = name.startsWith('marker') ? 0.06 : 0;
    const fx = name === 'markerW' ? x - out : name === 'markerE' ? x + out : x;
    const image = projectPoint(camera, lawnPoint3(fx, y, 0));
    if (!inPicture(image)) return [];
    const at = imagePoint(
      image.x + MARK_SD * normal(random) + (off[name] ?? 0),
      image.y + MARK_SD * normal(random),
    );
    return [{ name, image: at }];
  });

const takeBalls = (
  random: () => number,
  camera: Camera,
  solved: SolvedCamera,
  balls: Position,
): FoundBall[] =>
  [...balls].flatMap(([colour, place]) => {
    const image = projectPoint(camera, lawnPoint3(place.x, place.y, place.z));
    if (!inPicture(image)) return [];
    const at = imagePoint(image.x + BALL_SD * normal(random), image.y + BALL_SD * normal(random));
    const noise = { xx: BALL_SD ** 2, xy: 0, yy: BALL_SD ** 2 };
    const located = locateBall(solved, at, noise, { unevenness: UNEVENNESS });
    if (located === null || pointAtHeight(solved.camera, at, BALL_RADIUS) === null) return [];
    const { x, y } = located.point;
    return [
      {
        colour,
        x,
        y,
        ...statedSd(located.covariance),
        image: [at.x, at.y],
        imageCovariance: [noise.xx, noise.xy, noise.yy],
        confidence: 1,
        visible: 1,
        origin: 'found',
      },
    ];
  });

const marksOf = (points: readonly MarkedPoint[], balls: Position): Marks =>
  MarksSchema.parse({
    points: Object.fromEntries(points.map(({ name, image }) => [name, [image.x, image.y]])),
    hoopScored: 1,
    balls: [...balls.keys()],
  });

const LAWN_POINTS: readonly PointName[] = [
  'corner1',
  'corner2',
  'corner3',
  'corner4',
  'peg',
  'hoop1',
  'hoop2',
  'hoop3',
  'hoop4',
  'hoop5',
  'hoop6',
];

/** What a simulated picture is told beside the camera and the balls. */
export type Taken = { readonly name: string; readonly off?: Partial<Record<PointName, number>> };

/** A picture of the whole lawn, marked well, with its answer. */
export const takeLawn = (
  random: () => number,
  camera: Camera,
  balls: Position,
  { name, off = {} }: Taken,
): PictureAnswer => {
  const points = takeMarks(random, camera, LAWN_POINTS, off);
  const solved = solveCamera({
    points,
    court: STANDARD_COURT,
    ...SIZE,
    markSd: MARK_SD,
    settingSd: { corner: 0.0005, hoop: 0.0005, peg: 0.0005 },
    unevenness: 0.0001,
    focalPrior: { focal: pixels(FOCAL), sd: 0.03 },
  });
  if (!solved.ok) throw new Error(solved.error.message);
  const found = takeBalls(random, camera, solved.value, balls);
  const answer: Reading = {
    photo: SIZE,
    camera: describeCamera(solved.value, [], points, STANDARD_COURT),
    balls: found,
    missing: [],
    warnings: [],
    pose: { ...describePose(solved.value), unevenness: UNEVENNESS },
  };
  return { name, kind: 'lawn', marks: marksOf(points, balls), answer };
};

/** A picture along the line of hoop 1 from behind its west end, with its answer. */
export const takeSighting = (
  random: () => number,
  camera: Camera,
  balls: Position,
  { name, off = {} }: Taken,
): PictureAnswer => {
  const points = takeMarks(
    random,
    camera,
    ['markerW', 'markerE', 'peg', 'hoop3', 'hoop4', 'hoop5', 'hoop6'],
    off,
  );
  const end = (wanted: PointName) => points.find((point) => point.name === wanted)!;
  const solved = solveSighting({
    court: STANDARD_COURT,
    ...SIZE,
    ends: [end('markerW'), end('markerE')],
    marks: points.map((mark) => ({ mark, sd: MARK_SD })),
    balls: [],
    focalPrior: { focal: pixels(FOCAL), sd: 0.03 },
    unevenness: 0.0001,
  });
  if (!solved.ok) throw new Error(solved.error.message);
  const found = takeBalls(random, camera, solved.value, balls);
  const { position, rotation, focal, radial } = solved.value.camera;
  const answer: Sighting = {
    line: { axis: 'y', at: 16.002, nextHoopSide: 1 },
    photo: SIZE,
    balls: found.map((ball) => ({
      ...ball,
      beyond: ball.y - 16.048,
      sd: ball.sdY,
      probability: 0.5,
      lies: 'tooClose',
    })),
    camera: {
      end: 'markerW',
      behind: 3,
      aside: 0,
      height: 1.6,
      roll: 0,
      position: [...position],
      rotation: [...rotation],
      focal,
      radial: [...radial],
      residual: solved.value.residual,
      marks: solved.value.marks.map(({ name: mark, residual }) => ({
        name: mark,
        residual: Math.hypot(...residual),
      })),
    },
    warnings: [],
    pose: describePose(solved.value),
  };
  return { name, kind: 'sighting', marks: marksOf(points, balls), answer };
};

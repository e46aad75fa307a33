import { projectPoint } from '../camera/camera-model.ts';
import { solveCamera } from '../camera/solve-camera.ts';
import type { Camera, MarkedPoint, SolvedCamera } from '../camera/types.ts';
import type { Guess } from '../contract/photo.ts';
import type { Court } from '../lawn/court.ts';
import { CORNER_NAMES, namedPlace, type PointName } from '../lawn/named-points.ts';
import { pixels } from '../units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../units/points.ts';
import type { Raster } from '../units/raster.ts';
import { guessCorners } from '../vision/lines/guess-corners.ts';
import { traceAndRefine } from '../vision/lines/trace-and-refine.ts';
import type { TracedSide } from '../vision/types.ts';
import type { FocalPrior } from './from-marks.ts';

/** The spot's last picture: what was marked on it, px, and its size. */
export type FormerMarks = {
  readonly points: readonly MarkedPoint[];
  readonly width: number;
  readonly height: number;
};

/** What is known when a spot is followed. */
export type FollowInput = {
  readonly former: FormerMarks;
  readonly court: Court;
  readonly focalPrior?: FocalPrior | undefined;
};

const FOLLOWED =
  'The marks were carried over from the last picture of this spot and fitted to the lines. Check them before you go on.';
const LOST =
  'This picture does not fit the last one from this spot: the phone stood elsewhere or the lines cannot be seen. Put the four corners on the photo by hand.';

/** Between two pictures from one spot held in the hand the marks move by about this share of the long side, once the picture itself was shifted onto the lines. */
const HAND_SHARE = 0.01;
/** A side with more than so many metres in the picture must be followed on so much of it, and there must be so many such sides. */
const SIDE = { visible: 3, share: 0.4, least: 3 } as const;
/** From one spot the phone moves by less than this, metres: a step to either side. */
const ONE_STEP = 2.5;

const distance = (a: Camera, b: Camera): number =>
  Math.hypot(...a.position.map((value, i) => value - b.position[i]!));

const solve = (
  points: readonly MarkedPoint[],
  raster: Raster,
  input: FollowInput,
  markSd: number,
): SolvedCamera | null => {
  const { court, focalPrior } = input;
  const size = { width: pixels(raster.width), height: pixels(raster.height) };
  const solved = solveCamera({ points, court, focalPrior, ...size, markSd });
  return solved.ok ? solved.value : null;
};

const isFollowed = (sides: readonly TracedSide[]): boolean => {
  const visible = sides.filter(({ visibleLength }) => (visibleLength ?? 0) > SIDE.visible);
  return visible.length >= SIDE.least && visible.every(({ share }) => share >= SIDE.share);
};

/** Metres of boundary followed. */
const worth = (sides: readonly TracedSide[]): number =>
  sides.reduce((sum, { share, visibleLength }) => sum + share * (visibleLength ?? 0), 0);

type Fit = { readonly camera: Camera; readonly worth: number };

/** The camera that points placed to `markSd` px and the lines give; null when the lines are not where it would see them. */
const fitCamera = (
  points: readonly MarkedPoint[],
  raster: Raster,
  input: FollowInput,
  markSd: number,
): Fit | null => {
  const start = solve(points, raster, input, markSd);
  if (!start) return null;
  const { court, focalPrior } = input;
  const { solved, sides } = traceAndRefine(raster, start, { court, focalPrior, points, markSd });
  return isFollowed(sides) ? { camera: solved.camera, worth: worth(sides) } : null;
};

/** The former marks in this picture's px; none when the pictures have not the same shape: one was turned or cropped. */
const carried = ({ points, width, height }: FormerMarks, raster: Raster): MarkedPoint[] => {
  const scale = raster.width / width;
  if (Math.abs(height * scale - raster.height) > 2) return [];
  return points.map(({ name, image }) => ({ name, image: imagePoint(image.x * scale, image.y * scale) }));
};

/** The corners of the white lines, named both ways round. A guess does not know which corner is number 1; the former picture does. */
const namings = (raster: Raster, { court, focalPrior }: FollowInput): MarkedPoint[][] => {
  const guess = guessCorners(raster, { court, focalPrior });
  if (!guess) return [];
  const corners = CORNER_NAMES.map((name) => guess.points[name]);
  return [0, 2].map((turn) =>
    CORNER_NAMES.map((name, i): MarkedPoint => ({ name, image: corners[(i + turn) % 4]! })),
  );
};

const inside = ({ x, y }: { readonly x: number; readonly y: number }, { width, height }: Raster): boolean =>
  x >= 0 && y >= 0 && x <= width && y <= height;

/** Where the camera sees each of `names`, px, as far as they are in the picture. */
const seen = (
  camera: Camera,
  court: Court,
  names: readonly PointName[],
  raster: Raster,
): NonNullable<Guess['points']> =>
  Object.fromEntries(
    names.flatMap((name) => {
      const { x, y } = namedPlace(court, name);
      const image = projectPoint(camera, lawnPoint3(x, y, 0));
      return image && inside(image, raster) ? [[name, [image.x, image.y]] as const] : [];
    }),
  );

/**
 * Carries the marks of a spot's last picture over to its next one: the marks as they were and the corners of the white lines, named as the former picture
 * has them, are tried; what the boundary lines confirm from about the same place is taken. Points in px of the new picture. When nothing is
 * confirmed `points` is null and the message asks for corners.
 */
export const followSpot = (raster: Raster, input: FollowInput): Guess => {
  const { former, court } = input;
  const marks = carried(former, raster);
  const before = marks.length
    ? solve(marks, raster, input, HAND_SHARE * Math.max(raster.width, raster.height))
    : null;
  const lost: Guess = { points: null, message: LOST, followed: false };
  if (!before) return lost;
  const rough = HAND_SHARE * Math.max(raster.width, raster.height);
  const tried = [marks, ...namings(raster, input)].map((points) => fitCamera(points, raster, input, rough));
  const best = tried
    .filter((one): one is Fit => one !== null && distance(one.camera, before.camera) < ONE_STEP)
    .reduce<Fit | null>((a, b) => (a === null || b.worth > a.worth ? b : a), null);
  if (!best) return lost;
  return {
    points: seen(
      best.camera,
      court,
      marks.map(({ name }) => name),
      raster,
    ),
    message: FOLLOWED,
    followed: true,
  };
};

import { projectPoint } from '../../camera/camera-model.ts';
import { type FocalPrior, PHYSICAL_FOCAL } from '../../camera/lens-priors.ts';
import { solveCamera } from '../../camera/solve-camera.ts';
import type { MarkedPoint, SolvedCamera } from '../../camera/types.ts';
import type { Court } from '../../lawn/court.ts';
import { CORNER_NAMES, HOOP_NAMES, namedPlace, type PointName } from '../../lawn/named-points.ts';
import { pixels } from '../../units/numbers.ts';
import { type ImagePoint, imagePoint, lawnPoint3 } from '../../units/points.ts';
import type { Raster } from '../types.ts';
import { courtQuads, type Quad } from './guess/court-quads.ts';
import { straightLines } from './guess/straight-lines.ts';
import { whiteRidges } from './guess/white-ridges.ts';
import { traceAndRefine } from './trace-and-refine.ts';

/** What is known before looking. */
export type GuessInput = { readonly court: Court; readonly focalPrior?: FocalPrior | undefined };
/**
 * The four corners as the page may offer them, px. Where a corner lies outside the picture, the corners inside it together with the peg and
 * the hoops in their proper places: a person moves those to where they really stand.
 */
export type CornerGuess = { readonly points: Readonly<Partial<Record<PointName, ImagePoint>>> };

/** How good a corner read off two straight lines is, as a share of the picture's long side: a few px of the reduced picture, or what a wide lens bends a side away from its corners. */
const ROUGH_SDS = [0.0025, 0.01] as const;
/** Quadrilaterals tried, best covered first. */
const TRIED = 12;
/** So many sides are in the picture with more than so many metres, and each of them is followed on so much of its visible length. */
const LEAST_SIDES = 3;
const LEAST_VISIBLE = 3;
const LEAST_SHARE = 0.4;

/**
 * The corners of the court as its white lines show them: straight ridges on green, four of which are the view of such a rectangle from a place above
 * it, then traced and refined like a reading. Which corner is number 1 cannot be seen; the nearer short side is taken for south. Null when no four
 * lines qualify: the page then leaves the corners to the person.
 */
export const guessCorners = (raster: Raster, input: GuessInput): CornerGuess | null => {
  const ridges = whiteRidges(raster);
  const quads = courtQuads(straightLines(ridges), ridges).slice(0, TRIED);
  let best: Followed | null = null;
  for (const quad of quads)
    for (const share of ROUGH_SDS) {
      const followed = follow(quad, share, ridges.scale, raster, input);
      if (followed && (!best || followed.worth > best.worth)) best = followed;
      if (followed?.complete) return pointsOf(followed.solved, input.court);
    }
  return best && pointsOf(best.solved, input.court);
};

/** A camera whose predicted sides were followed in the picture. */
type Followed = {
  readonly solved: SolvedCamera;
  /** Metres of boundary followed. */
  readonly worth: number;
  /** Whether every side in the picture was followed over nearly all its length: nothing better is to be found. */
  readonly complete: boolean;
};

/** Traces the sides of the court that `quad` would be. Null unless every side that is well in the picture is found: an unseen one leaves its corners to chance. */
const follow = (
  quad: Quad,
  roughShare: number,
  scale: number,
  raster: Raster,
  input: GuessInput,
): Followed | null => {
  const markSd = roughShare * Math.max(raster.width, raster.height);
  const start = poseOf(quad, markSd, scale, raster, input);
  if (!start) return null;
  const { solved, sides } = traceAndRefine(raster, start.solved, { ...input, points: start.points, markSd });
  const visible = sides.filter(({ visibleLength }) => (visibleLength ?? 0) > LEAST_VISIBLE);
  if (visible.length < LEAST_SIDES || visible.some(({ share }) => share < LEAST_SHARE)) return null;
  const worth = visible.reduce((sum, { share, visibleLength }) => sum + share * visibleLength!, 0);
  return { solved, worth, complete: visible.every(({ share }) => share > 0.75) };
};

type Pose = { readonly solved: SolvedCamera; readonly points: readonly MarkedPoint[] };

/** The pose under which the quadrilateral is the court: of the possible namings of its corners the one that fits best, with the camera south of the middle. */
const poseOf = (
  quad: Quad,
  markSd: number,
  scale: number,
  raster: Raster,
  input: GuessInput,
): Pose | null => {
  let best: Pose | null = null;
  for (let turn = 0; turn < 4; turn++)
    for (const way of [1, -1]) {
      const pose = named(quad, turn, way, markSd, scale, raster, input);
      if (!pose || pose.solved.camera.position[1] > input.court.length / 2) continue;
      if (!best || pose.solved.residual < best.solved.residual) best = pose;
    }
  return best;
};

/** A lens bends less than this at the picture's corner; what needs more is not the court. */
const MOST_RADIAL = 0.4;

/** The corners named from the one at `turn`, in this or the other direction; null for mirrored namings and views that no camera gives. */
const named = (
  quad: Quad,
  turn: number,
  way: number,
  markSd: number,
  scale: number,
  raster: Raster,
  input: GuessInput,
): Pose | null => {
  const points = CORNER_NAMES.map((name, i): MarkedPoint => {
    const [x, y] = quad.corners[(turn + way * i + 4) % 4]!;
    return { name, image: imagePoint(x * scale, y * scale) };
  });
  // Corners may lie outside the photo: they are solved in a larger picture with the same middle.
  const border = Math.max(raster.width, raster.height);
  const solved = solveCamera({
    points: points.map(({ name, image }) => ({
      name,
      image: imagePoint(image.x + border, image.y + border),
    })),
    court: input.court,
    width: raster.width + 2 * border,
    height: raster.height + 2 * border,
    focalPrior: input.focalPrior ?? usualFocal(raster),
    markSd,
  });
  if (!solved.ok || solved.value.residual > markSd) return null;
  const camera = { ...solved.value.camera, width: pixels(raster.width), height: pixels(raster.height) };
  if (Math.abs(camera.radial[0]) > MOST_RADIAL) return null;
  return { solved: { ...solved.value, camera }, points };
};

/** Focal length where the photo states none. */
const usualFocal = ({ width, height }: Raster): FocalPrior => ({
  focal: pixels(PHYSICAL_FOCAL.perLongSide * Math.max(width, height)),
  sd: PHYSICAL_FOCAL.sd,
});

const LANDMARKS = ['peg', ...HOOP_NAMES] as const;

/** The corners where `camera` sees them; peg and hoops too when a corner lies outside the picture. */
const pointsOf = ({ camera }: SolvedCamera, court: Court): CornerGuess => {
  const seen = (names: readonly PointName[]): [PointName, ImagePoint][] =>
    names.flatMap((name) => {
      const { x, y } = namedPlace(court, name);
      const image = projectPoint(camera, lawnPoint3(x, y, 0));
      const inside = image && image.x > 0 && image.y > 0 && image.x < camera.width && image.y < camera.height;
      return inside ? [[name, image]] : [];
    });
  const corners = seen(CORNER_NAMES);
  const rest = corners.length < CORNER_NAMES.length ? seen(LANDMARKS) : [];
  return { points: Object.fromEntries([...corners, ...rest]) };
};

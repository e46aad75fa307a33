import { type Pixels, pixels } from '../units/numbers.ts';
import { moveCamera } from './camera-model.ts';
import { homography } from './homography.ts';
import { addLensPriors, type LensPriors, PHYSICAL_FOCAL, PHYSICAL_LENS } from './lens-priors.ts';
import { type LeastSquares, type Minimum, minimise } from './levenberg-marquardt.ts';
import { addMarks, type MarkNoise, plainMark, type WeighedMark, weighMark } from './mark-observations.ts';
import type { PlacedMark } from './mark-places.ts';
import { emptyEquations } from './normal-equations.ts';
import { focalsFromHomography, poseFromHomography } from './pose-from-homography.ts';
import { CAMERA_PARAMETERS, type Camera } from './types.ts';

/** From how many marks on a bad one can be told from the others, so that robust weights make sense. */
export const ROBUST_FROM = 6;
/** Rounds in which the marks' covariances and robust weights follow the camera. */
const ROUNDS = 6;

/** Size of the upright picture. */
export type PictureSize = { readonly width: Pixels; readonly height: Pixels };

/** Ground homography of the marks in coordinates centred on the picture. */
export const centredHomography = (marks: readonly PlacedMark[], size: PictureSize): number[] =>
  homography(
    marks.map(({ x, y, mark }) => ({
      from: { x, y },
      to: { x: mark.image.x - size.width / 2, y: mark.image.y - size.height / 2 },
    })),
  );

/** Closed-form cameras to start from: one for each focal length that the prior, the homography or plain physics proposes. */
export const startingCameras = (
  marks: readonly PlacedMark[],
  size: PictureSize,
  priors: LensPriors,
): Camera[] => {
  const h = centredHomography(marks, size);
  const long = Math.max(size.width, size.height);
  const usual = PHYSICAL_FOCAL.perLongSide * long;
  const implied = focalsFromHomography(h).filter((focal) => focal > 0.2 * long && focal < 5 * long);
  const focals = [Math.exp(priors.lnFocal), ...implied, usual * 0.6, usual, usual * 1.6];
  const seen = {
    x: marks.reduce((sum, mark) => sum + mark.x, 0) / marks.length,
    y: marks.reduce((sum, mark) => sum + mark.y, 0) / marks.length,
  };
  return focals.map((focal) => ({
    ...poseFromHomography(h, focal, seen, size),
    radial: [PHYSICAL_LENS.k1, 0],
  }));
};

const problem = (marks: readonly WeighedMark[], priors: LensPriors, k1At: number): LeastSquares<Camera> => ({
  assemble: (camera) => {
    const equations = emptyEquations(CAMERA_PARAMETERS);
    addMarks(camera, marks, equations);
    addLensPriors(camera, priors, k1At, equations);
    return equations;
  },
  move: moveCamera,
});

/** A camera fitted to marks, with the weights used. */
export type MarksFit = Minimum<Camera> & { readonly weighed: readonly WeighedMark[] };

/** Two minima whose focal lengths differ by less than this share are one. */
const SAME_FOCAL = 0.02;

/** Cameras at the minima that the closed-form starts lead to, best first, each once: marks as a finger leaves them, without robust weights. Empty when no start sees every mark. */
export const markMinima = (
  marks: readonly PlacedMark[],
  size: PictureSize,
  priors: LensPriors,
  markSd: number,
): Minimum<Camera>[] => {
  const coarse = problem(
    marks.map((mark) => plainMark(mark, markSd)),
    priors,
    PHYSICAL_LENS.k1,
  );
  const minima = startingCameras(marks, size, priors)
    .map((start) => minimise(coarse, start))
    .filter((fit) => Number.isFinite(fit.equations.cost))
    .sort((a, b) => a.equations.cost - b.equations.cost);
  const same = (a: Camera, b: Camera): boolean => Math.abs(a.focal / b.focal - 1) < SAME_FOCAL;
  return minima.filter((fit, i) => minima.findIndex((other) => same(other.state, fit.state)) === i);
};

/** Fits the camera to marks and priors from each start and keeps the best; then lets covariances and robust weights follow. Null when no start sees every mark. */
export const fitMarks = (
  marks: readonly PlacedMark[],
  size: PictureSize,
  priors: LensPriors,
  noise: MarkNoise,
): MarksFit | null => {
  const best = markMinima(marks, size, priors, noise.markSd)[0];
  if (!best) return null;
  const robust = marks.length >= ROBUST_FROM;
  let fit: MarksFit = { ...best, weighed: marks.map((mark) => plainMark(mark, noise.markSd)) };
  for (let round = 0; round < ROUNDS; round++) {
    const camera = fit.state;
    const weighed = marks.map((mark) => weighMark(camera, mark, noise, robust));
    fit = { ...minimise(problem(weighed, priors, camera.radial[0]), camera, 30), weighed };
  }
  return fit;
};

/** The picture's size as branded numbers. */
export const pictureSize = (width: number, height: number): PictureSize => ({
  width: pixels(width),
  height: pixels(height),
});

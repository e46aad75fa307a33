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

/** Fits the camera to marks and priors from each start and keeps the best; then lets covariances and robust weights follow. Null when no start sees every mark. */
export const fitMarks = (
  marks: readonly PlacedMark[],
  size: PictureSize,
  priors: LensPriors,
  noise: MarkNoise,
): MarksFit | null => {
  const plain = marks.map((mark) => plainMark(mark, noise.markSd));
  const coarse = problem(plain, priors, PHYSICAL_LENS.k1);
  const best = startingCameras(marks, size, priors)
    .map((start) => minimise(coarse, start))
    .filter((fit) => Number.isFinite(fit.equations.cost))
    .sort((a, b) => a.equations.cost - b.equations.cost)[0];
  if (!best) return null;
  const robust = marks.length >= ROBUST_FROM;
  let fit: MarksFit = { ...best, weighed: plain };
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

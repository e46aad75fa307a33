import { pointAtHeight, projectPoint } from '../../camera/camera-model.ts';
import type { FocalPrior } from '../../camera/lens-priors.ts';
import { refineCamera } from '../../camera/refine-camera.ts';
import { DEFAULT_MARK_SD } from '../../camera/solve-camera.ts';
import type { Camera, LineSample, MarkedPoint, SolvedCamera } from '../../camera/types.ts';
import { type Court, outwardNormal, type Side } from '../../lawn/court.ts';
import { metres, pixels } from '../../units/numbers.ts';
import { lawnPoint3 } from '../../units/points.ts';
import { selectAt } from '../selection.ts';
import type { Raster, TracedSide } from '../types.ts';
import { sampleOffset } from './sample-offset.ts';
import { untraced } from './side-samples.ts';
import { type TraceOptions, traceBoundary } from './trace-boundary.ts';

/** What is known beside the picture. */
export type TraceInput = TraceOptions & {
  readonly points: readonly MarkedPoint[];
  readonly court: Court;
  readonly focalPrior?: FocalPrior | undefined;
  /** Standard deviation of a finger's mark, px. */
  readonly markSd?: number | undefined;
  /** Standard deviation of the ground's height, m. */
  readonly unevenness?: number | undefined;
};

/** The refined camera and what of each boundary it rests on. */
export type TraceResult = { readonly solved: SolvedCamera; readonly sides: TracedSide[] };

/** Places along a side that the first, rough round looks at: enough to bring the prediction within half a px. */
const ROUGH_STATIONS = 24;

/**
 * Traces the boundary roughly, refines the camera on it, traces again fully where the refined camera predicts it, and refines on that. A side
 * whose trace drags the marks further than a finger explains, or that contradicts the other sides, is taken for another line, left out and
 * reported as not traced. Without any line the camera stays as it was.
 */
export const traceAndRefine = (raster: Raster, start: SolvedCamera, input: TraceInput): TraceResult => {
  const { court } = input;
  const rough = traceBoundary(raster, start, court, { ...input, stations: ROUGH_STATIONS });
  const near = guarded({ raster, start, input, rough: true }, rough, start);
  const followed = near.sides.filter(({ samples }) => samples.length > 0).map(({ side }) => side);
  const sides = traceBoundary(raster, near.solved, court, { ...input, near: followed });
  const task = { raster, start, input, rough: false };
  return guarded(task, sides, near.solved);
};

const guarded = (task: Task, sides: readonly TracedSide[], near: SolvedCamera): TraceResult =>
  dropContradicted(task, dropDragging(task, sides, near));

type Task = {
  readonly raster: Raster;
  readonly start: SolvedCamera;
  readonly input: TraceInput;
  /** Whether the camera need only come near: every other sample, and none sharper than it is away. */
  readonly rough: boolean;
};

/** Widenings at most on the way from a rough camera to a close one. */
const APPROACHES = 4;
/** Residuals count fully up to so many standard deviations; further ones are approached first. */
const WITHIN = 3;

/**
 * Refines from `near`. Samples far from where that camera predicts them would all be taken for outliers, so they are first given standard
 * deviations as wide as they are away, and then, from the camera found, their own.
 */
const refine = (
  { raster, start, input, rough }: Task,
  sides: readonly TracedSide[],
  near: SolvedCamera,
): SolvedCamera => {
  const lines = everySample(sides, rough ? 2 : 1);
  if (lines.length === 0) return start;
  const { points, court, focalPrior, markSd, unevenness } = input;
  const run = (from: SolvedCamera, samples: readonly LineSample[], close: boolean): SolvedCamera =>
    refineCamera(from, {
      points,
      lines: samples,
      court,
      width: raster.width,
      height: raster.height,
      focalPrior,
      markSd,
      unevenness,
      near: close,
      groundAsStated: rough,
    });
  let solved = near;
  for (let i = 0; i < APPROACHES; i++) {
    const far = distance(sides, solved, court) / WITHIN;
    if (far <= 1) return rough && i > 0 ? solved : run(solved, lines, true);
    solved = run(solved, vaguer(lines, far), false);
  }
  return run(solved, lines, false);
};

/** Every `pace`-th sample of each side. */
const everySample = (sides: readonly TracedSide[], pace: number): LineSample[] => {
  const lines: LineSample[] = [];
  for (const { samples } of sides) for (let i = 0; i < samples.length; i += pace) lines.push(samples[i]!);
  return lines;
};

/** The same samples with `far` times their standard deviations. */
const vaguer = (lines: readonly LineSample[], far: number): LineSample[] => {
  const wide: LineSample[] = [];
  for (const line of lines) wide.push({ ...line, sd: pixels(line.sd * far) });
  return wide;
};

/** How far the farthest side lies from its prediction, in standard deviations of its samples (median over the side). */
const distance = (sides: readonly TracedSide[], { camera }: SolvedCamera, court: Court): number =>
  Math.max(0, ...sides.map((side) => medianDistance(side, camera, court)));

const medianDistance = ({ samples }: TracedSide, camera: Camera, court: Court): number => {
  const away = new Float64Array(samples.length);
  let count = 0;
  for (const sample of samples) {
    const value = Math.abs(sampleOffset(camera, court, sample)) / sample.sd;
    if (!Number.isNaN(value)) away[count++] = value;
  }
  return count === 0 ? 0 : selectAt(away, count, count >> 1);
};

/** The same sides without the samples of `side`. */
const without = (sides: readonly TracedSide[], side: Side): TracedSide[] =>
  sides.map((s) => (s.side === side ? untraced(side, s.visibleLength ?? 0) : s));

/** A mark further than this many of its standard deviations from the lines' camera was dragged, not misplaced. */
const DRAGGED = 4;

/** Refines; while a mark is dragged, drops the side whose absence relieves the marks most. */
const dropDragging = (task: Task, traced: readonly TracedSide[], near: SolvedCamera): TraceResult => {
  const limit = DRAGGED * (task.input.markSd ?? DEFAULT_MARK_SD);
  let result: TraceResult = { sides: [...traced], solved: refine(task, traced, near) };
  // A slipped finger is dragged by the lines too; then leaving a side out relieves nothing and all sides stay.
  while (strain(result.solved) > limit) {
    const best = result.sides
      .filter(({ samples }) => samples.length > 0)
      .map(({ side }) => {
        const sides = without(result.sides, side);
        return { sides, solved: refine(task, sides, near) };
      })
      .sort((a, b) => strain(a.solved) - strain(b.solved))[0];
    if (!best || strain(best.solved) > limit) break;
    result = best;
  }
  return result;
};

/** Largest distance of a mark from its point, px. */
const strain = (solved: SolvedCamera): number =>
  Math.max(0, ...solved.marks.map(({ residual }) => Math.hypot(residual[0], residual[1])));

/** A side whose samples keep less than this of their weight contradicts the others. */
const CONTRADICTED = 0.25;
/**
 * A contradiction of up to so many px, or so many metres on the lawn, is no other line: paint of uneven width, a low view on long grass or the
 * picture's sharpening move a whole side by that much, while its many samples agree among themselves to a tenth of it.
 */
const SHARED = { px: 0.5, metres: 0.015 } as const;

/**
 * Deals with the sides whose samples the refinement gave up. Such a side is tried once more with standard deviations as wide as a shared error may be:
 * when it then agrees within that, it stays so widened and says what it can; when not it is dropped, so that it is not reported as followed.
 */
const dropContradicted = (task: Task, result: TraceResult): TraceResult => {
  const weak = weakSides(result);
  if (weak.length === 0) return result;
  const { camera } = result.solved;
  const { court } = task.input;
  const limit = (side: TracedSide): number =>
    Math.max(SHARED.px, SHARED.metres * pixelsPerMetre(side, camera));
  const wide = result.sides.map((side) => (weak.includes(side.side) ? widened(side, limit(side) / 2) : side));
  const tried: TraceResult = { sides: wide, solved: refine(task, wide, result.solved) };
  const gone = wide
    .filter((side) => weak.includes(side.side))
    .filter((side) => !(Math.abs(medianOffset(side, tried.solved.camera, court)) < limit(side)))
    .map(({ side }) => side);
  if (gone.length === 0) return tried;
  const sides = gone.reduce(without, wide);
  return { sides, solved: refine(task, sides, result.solved) };
};

const widened = (traced: TracedSide, by: number): TracedSide => ({
  ...traced,
  samples: traced.samples.map((s) => ({ ...s, sd: pixels(Math.hypot(s.sd, by)) })),
});

const weakSides = ({ solved, sides }: TraceResult): Side[] => {
  const weights = solved.sampleWeights;
  // Weights are those of the samples in the order of the sides; a rough round gave only some of them.
  if (!weights || weights.length !== sides.reduce((sum, { samples }) => sum + samples.length, 0)) return [];
  let at = 0;
  return sides.flatMap(({ side, samples }) => {
    const own = weights.subarray(at, at + samples.length);
    at += samples.length;
    let kept = 0;
    for (const w of own) kept += w;
    return own.length > 0 && kept < CONTRADICTED * own.length ? [side] : [];
  });
};

const medianOffset = ({ samples }: TracedSide, camera: Camera, court: Court): number => {
  const offsets = new Float64Array(samples.length);
  let count = 0;
  for (const sample of samples) {
    const value = sampleOffset(camera, court, sample);
    if (!Number.isNaN(value)) offsets[count++] = value;
  }
  return count === 0 ? Number.POSITIVE_INFINITY : selectAt(offsets, count, count >> 1);
};

/** Px across the line per metre on the lawn at the middle sample of the side. */
const pixelsPerMetre = ({ samples, side }: TracedSide, camera: Camera): number => {
  const middle = samples[samples.length >> 1]!;
  const ground = pointAtHeight(camera, middle.image, metres(0));
  if (!ground) return 0;
  const [ox, oy] = outwardNormal(side);
  const out = projectPoint(camera, lawnPoint3(ground.x + 0.1 * ox, ground.y + 0.1 * oy, 0));
  if (!out) return 0;
  const [nx, ny] = middle.normal;
  return ((out.x - middle.image.x) * nx + (out.y - middle.image.y) * ny) / 0.1;
};

import type { FocalPrior } from '../../camera/lens-priors.ts';
import { refineCamera } from '../../camera/refine-camera.ts';
import { DEFAULT_MARK_SD } from '../../camera/solve-camera.ts';
import type { LineSample, MarkedPoint, SolvedCamera } from '../../camera/types.ts';
import type { Court, Side } from '../../lawn/court.ts';
import { pixels } from '../../units/numbers.ts';
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
const ROUGH_STATIONS = 40;

/**
 * Traces the boundary roughly, refines the camera on it, traces again fully where the refined camera predicts it, and refines on that. A side
 * whose trace drags the marks further than a finger explains, or that contradicts the other sides, is taken for another line, left out and
 * reported as not traced. Without any line the camera stays as it was.
 */
export const traceAndRefine = (raster: Raster, start: SolvedCamera, input: TraceInput): TraceResult => {
  const { court } = input;
  const rough = traceBoundary(raster, start, court, { ...input, stations: ROUGH_STATIONS });
  const near = guarded({ raster, start, input, rough: true }, rough, start);
  const sides = traceBoundary(raster, near, court, input);
  const task = { raster, start, input, rough: false };
  return dropContradicted(task, dropDragging(task, sides, near));
};

const guarded = (task: Task, sides: readonly TracedSide[], near: SolvedCamera): SolvedCamera =>
  dropContradicted(task, dropDragging(task, sides, near)).solved;

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
  const lines = sides.flatMap(({ samples }) => samples.filter((_, i) => !rough || i % 2 === 0));
  if (lines.length === 0) return start;
  const { points, court, focalPrior, markSd, unevenness } = input;
  const run = (from: SolvedCamera, samples: readonly LineSample[]): SolvedCamera =>
    refineCamera(from, {
      points,
      lines: samples,
      court,
      width: raster.width,
      height: raster.height,
      focalPrior,
      markSd,
      unevenness,
    });
  let solved = near;
  for (let i = 0; i < APPROACHES; i++) {
    const far = distance(sides, solved, court) / WITHIN;
    if (far <= 1) return rough && i > 0 ? solved : run(solved, lines);
    solved = run(
      solved,
      lines.map((line) => ({ ...line, sd: pixels(line.sd * far) })),
    );
  }
  return run(solved, lines);
};

/** How far the farthest side lies from its prediction, in standard deviations of its samples (median over the side). */
const distance = (sides: readonly TracedSide[], { camera }: SolvedCamera, court: Court): number =>
  Math.max(
    0,
    ...sides.map(({ samples }) => {
      const away = samples
        .map((sample) => Math.abs(sampleOffset(camera, court, sample)) / sample.sd)
        .filter((value) => !Number.isNaN(value))
        .sort((a, b) => a - b);
      return away[away.length >> 1] ?? 0;
    }),
  );

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

/** Drops the sides whose samples the refinement gave up, so that they are not reported as followed. */
const dropContradicted = (task: Task, result: TraceResult): TraceResult => {
  const weights = result.solved.sampleWeights;
  if (!weights) return result;
  let at = 0;
  const weak: Side[] = [];
  for (const { side, samples } of result.sides) {
    const own = weights.subarray(at, at + samples.length);
    at += samples.length;
    if (own.length > 0 && own.reduce((sum, w) => sum + w, 0) < CONTRADICTED * own.length) weak.push(side);
  }
  if (weak.length === 0) return result;
  const sides = weak.reduce(without, result.sides);
  return { sides, solved: refine(task, sides, result.solved) };
};

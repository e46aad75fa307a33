import type { FocalPrior } from '../../camera/lens-priors.ts';
import { refineCamera } from '../../camera/refine-camera.ts';
import { DEFAULT_MARK_SD } from '../../camera/solve-camera.ts';
import type { MarkedPoint, SolvedCamera } from '../../camera/types.ts';
import type { Court } from '../../lawn/court.ts';
import type { Raster, TracedSide } from '../types.ts';
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

/** Rounds of tracing and refining; the second starts within a px, and no later one moves the camera by a tenth of its uncertainty. */
const ROUNDS = 2;

/**
 * Traces the boundary, refines the camera on it, and traces again where the refined camera predicts it. A side whose trace drags the marks
 * further than a finger explains is taken for another line, left out and reported as not traced. Without any line the camera stays as it was.
 */
export const traceAndRefine = (raster: Raster, start: SolvedCamera, input: TraceInput): TraceResult => {
  let solved = start;
  let sides: TracedSide[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    sides = traceBoundary(raster, solved, input.court, input);
    const next = refineGuarded(raster, start, sides, input);
    solved = next.solved;
    sides = next.sides;
  }
  return { solved, sides };
};

/** A mark further than this many of its standard deviations from the lines' camera was dragged, not misplaced. */
const DRAGGED = 4;

const refine = (
  raster: Raster,
  start: SolvedCamera,
  sides: readonly TracedSide[],
  input: TraceInput,
): SolvedCamera => {
  const lines = sides.flatMap(({ samples }) => samples);
  if (lines.length === 0) return start;
  const { points, court, focalPrior, markSd, unevenness } = input;
  return refineCamera(start, {
    points,
    lines,
    court,
    width: raster.width,
    height: raster.height,
    focalPrior,
    markSd,
    unevenness,
  });
};

/** Refines; while a mark is dragged, drops the side whose absence relieves the marks most. */
const refineGuarded = (
  raster: Raster,
  start: SolvedCamera,
  traced: readonly TracedSide[],
  input: TraceInput,
): TraceResult => {
  const limit = DRAGGED * (input.markSd ?? DEFAULT_MARK_SD);
  let sides = [...traced];
  let solved = refine(raster, start, sides, input);
  // A slipped finger is dragged by the lines too; then leaving a side out relieves nothing and all sides stay.
  while (strain(solved) > limit) {
    const without = sides
      .filter(({ samples }) => samples.length > 0)
      .map(({ side }) => {
        const rest = sides.map((s) => (s.side === side ? untraced(side, s.visibleLength ?? 0) : s));
        return { rest, solved: refine(raster, start, rest, input) };
      })
      .sort((a, b) => strain(a.solved) - strain(b.solved));
    const best = without[0];
    if (!best || strain(best.solved) > limit) break;
    sides = best.rest;
    solved = best.solved;
  }
  return { solved, sides };
};

/** Largest distance of a mark from its point, px. */
const strain = (solved: SolvedCamera): number =>
  Math.max(0, ...solved.marks.map(({ residual }) => Math.hypot(residual[0], residual[1])));

import type { Camera } from '../../camera/types.ts';
import { imagePoint } from '../../units/points.ts';
import type { Raster } from '../types.ts';
import { type BallView, viewBallAt } from './ball-view.ts';
import type { Candidate } from './candidates.ts';
import { medianOf } from './small-solve.ts';

/** A candidate after a closer look: where its disc stands best, and how round it stands out. */
export type SievedCandidate = {
  readonly view: BallView;
  /** Sum over the directions of how clearly the disc ends at the predicted radius there, 0 to SECTORS. */
  readonly roundness: number;
  /** Contrast of disc and surroundings in standard deviations of one cell. */
  readonly contrast: number;
};

/** Directions in which the outline is tested. */
export const SECTORS = 8;
/** Cells a ball's radius is reduced to at most. */
const RADIUS_CELLS = 4;
/** Cells a patch may have: three radii and a bit on each side. */
const SIDE = 29;
/** Cells of the ring that are sorted. */
const RING_SAMPLE = 40;
/** Least noise of a cell, grey levels: luma, colour. */
const LEAST = [2, 1, 1] as const;

const values = new Float64Array(3 * SIDE * SIDE);
const projected = new Float64Array(SIDE * SIDE);
const ring = new Int32Array(SIDE * SIDE);
const scratch = new Float64Array(SIDE * SIDE);
const lawn = new Float64Array(3);
const noise = new Float64Array(3);
const step = new Float64Array(3);
const inner = new Float64Array(SECTORS);
const outer = new Float64Array(SECTORS);
const innerCount = new Float64Array(SECTORS);
const outerCount = new Float64Array(SECTORS);

/** The patch that is being looked at: cells of `cell` px, the first at (left, top), `columns` by `rows`. */
type Window = { cell: number; left: number; top: number; columns: number; rows: number };

const openWindow = (raster: Raster, x: number, y: number, radius: number): Window => {
  const cell = Math.max(1, Math.ceil(radius / RADIUS_CELLS));
  const half = Math.min((SIDE - 1) / 2, Math.ceil((2.6 * radius) / cell) + 1);
  const left = Math.max(0, Math.floor(x / cell) - half) * cell;
  const top = Math.max(0, Math.floor(y / cell) - half) * cell;
  const columns = Math.min(2 * half + 1, Math.floor((raster.width - left) / cell));
  const rows = Math.min(2 * half + 1, Math.floor((raster.height - top) / cell));
  for (let j = 0, o = 0; j < rows; j++)
    for (let i = 0; i < columns; i++, o += 3) readMean(raster, left + i * cell, top + j * cell, cell, o);
  return { cell, left, top, columns, rows };
};

const readMean = (raster: Raster, x: number, y: number, cell: number, o: number): void => {
  let r = 0;
  let g = 0;
  let b = 0;
  for (let j = 0; j < cell; j++)
    for (let i = 0, p = ((y + j) * raster.width + x) * 3; i < cell; i++, p += 3) {
      r += raster.data[p]!;
      g += raster.data[p + 1]!;
      b += raster.data[p + 2]!;
    }
  const n = cell * cell;
  const luma = (0.299 * r + 0.587 * g + 0.114 * b) / n;
  values[o] = luma;
  values[o + 1] = 0.5643 * (b / n - luma);
  values[o + 2] = 0.7133 * (r / n - luma);
};

/** Lawn colour and noise from the ring between `from` and `to` cells around (x, y) in cells. */
const measureLawn = (w: Window, x: number, y: number, from: number, to: number): boolean => {
  const found = ringCells(w, x, y, from, to);
  if (found < 12) return false;
  // Sorting is what costs: some forty cells spread over the ring give its median and spread well enough.
  const pace = Math.max(1, Math.floor(found / RING_SAMPLE));
  for (let c = 0; c < 3; c++) {
    let n = 0;
    for (let k = 0; k < found; k += pace) scratch[n++] = values[3 * ring[k]! + c]!;
    const middle = medianOf(scratch, n);
    for (let k = 0; k < n; k++) scratch[k] = Math.abs(scratch[k]! - middle);
    lawn[c] = middle;
    noise[c] = Math.max(LEAST[c as 0 | 1 | 2], 1.4826 * medianOf(scratch, n));
  }
  return true;
};

const ringCells = (w: Window, x: number, y: number, from: number, to: number): number => {
  let n = 0;
  const near = from * from;
  const far = to * to;
  for (let j = 0, k = 0; j < w.rows; j++) {
    const dy2 = (j + 0.5 - y) * (j + 0.5 - y);
    for (let i = 0; i < w.columns; i++, k++) {
      const d2 = (i + 0.5 - x) * (i + 0.5 - x) + dy2;
      if (d2 >= near && d2 <= far) ring[n++] = k;
    }
  }
  return n;
};

/** Mean contrast (in units of the noise) of the disc of `radius` cells at (x, y), into `step`; returns its squared length. */
const discContrast = (w: Window, x: number, y: number, radius: number): number => {
  step.fill(0);
  let n = 0;
  const j0 = Math.max(0, Math.floor(y - radius));
  const j1 = Math.min(w.rows - 1, Math.floor(y + radius));
  const i0 = Math.max(0, Math.floor(x - radius));
  const i1 = Math.min(w.columns - 1, Math.floor(x + radius));
  for (let j = j0; j <= j1; j++)
    for (let i = i0; i <= i1; i++) {
      if ((i + 0.5 - x) ** 2 + (j + 0.5 - y) ** 2 > radius * radius) continue;
      const k = 3 * (j * w.columns + i);
      for (let c = 0; c < 3; c++) step[c] = step[c]! + (values[k + c]! - lawn[c]!) / noise[c]!;
      n++;
    }
  if (n === 0) return 0;
  let size = 0;
  for (let c = 0; c < 3; c++) {
    step[c] = step[c]! / n;
    size += step[c]! ** 2;
  }
  return size;
};

/** Puts every cell's contrast along `step` into `projected`: 0 on the lawn, 1 in the disc's mean. */
const project = (w: Window, size: number): void => {
  for (let k = 0; k < w.columns * w.rows; k++) {
    let t = 0;
    for (let c = 0; c < 3; c++) t += ((values[3 * k + c]! - lawn[c]!) / noise[c]!) * step[c]!;
    projected[k] = t / size;
  }
};

const clamp01 = (t: number): number => (t < 0 ? 0 : Math.min(t, 1));

/** How round the disc of `radius` cells at (x, y) stands out of `projected`. */
const roundnessAt = (w: Window, x: number, y: number, radius: number): number => {
  for (const a of [inner, outer, innerCount, outerCount]) a.fill(0);
  const reach = 1.75 * radius + 0.5;
  const [insideFrom, insideTo] = [(0.35 * radius) ** 2, (0.95 * radius) ** 2];
  const [outsideFrom, outsideTo] = [(1.1 * radius + 0.5) ** 2, reach ** 2];
  const j1 = Math.min(w.rows - 1, Math.floor(y + reach));
  const i1 = Math.min(w.columns - 1, Math.floor(x + reach));
  for (let j = Math.max(0, Math.floor(y - reach)); j <= j1; j++)
    for (let i = Math.max(0, Math.floor(x - reach)); i <= i1; i++) {
      const dx = i + 0.5 - x;
      const dy = j + 0.5 - y;
      const d2 = dx * dx + dy * dy;
      if (d2 < insideFrom || d2 > outsideTo || (d2 > insideTo && d2 < outsideFrom)) continue;
      const s = sectorOf(dx, dy);
      const t = projected[j * w.columns + i]!;
      if (d2 <= insideTo) {
        inner[s] = inner[s]! + t;
        innerCount[s] = innerCount[s]! + 1;
      } else {
        outer[s] = outer[s]! + t;
        outerCount[s] = outerCount[s]! + 1;
      }
    }
  let sum = 0;
  for (let s = 0; s < SECTORS; s++) {
    if (innerCount[s] === 0 || outerCount[s] === 0) continue;
    sum += Math.max(0, clamp01(inner[s]! / innerCount[s]!) - Math.abs(clamp01(outer[s]! / outerCount[s]!)));
  }
  return sum;
};

/** The sector of the direction (dx, dy), eight of 45° each, without a call to atan2. */
const sectorOf = (dx: number, dy: number): number => {
  const steep = Math.abs(dy) > Math.abs(dx) ? 1 : 0;
  return (dy < 0 ? 4 : 0) + (dx < 0 ? 2 : 0) + steep;
};

/** Places tried on each side of the candidate, a third of a radius apart. */
const TRIES = 2;

/** Moves `place` to the roundest of the places around it, `pace` cells apart, and returns its roundness. */
const bestPlace = (w: Window, place: { x: number; y: number }, r: number, pace: number): number => {
  const { x, y } = place;
  let best = -1;
  for (let j = -TRIES; j <= TRIES; j++)
    for (let i = -TRIES; i <= TRIES; i++) {
      const roundness = roundnessAt(w, x + i * pace, y + j * pace, r);
      if (roundness <= best) continue;
      best = roundness;
      place.x = x + i * pace;
      place.y = y + j * pace;
    }
  return best;
};

/** Share of its roundness that a place may lose when it is moved to the balance of what stands out. */
const KEPT_ROUNDNESS = 0.85;

/**
 * Moves `place` to the balance point of what stands out within 1.4 radii, in two steps, where that leaves it nearly as round: blurred colour is flat on
 * top, so its roundest place is a matter of chance, its balance point is not. Returns the roundness.
 */
const balance = (w: Window, place: { x: number; y: number }, r: number, roundness: number): number => {
  const reach = 1.4 * r + 0.5;
  let { x, y } = place;
  for (let pass = 0; pass < 2; pass++) {
    let [sum, sx, sy] = [0, 0, 0];
    const j1 = Math.min(w.rows - 1, Math.floor(y + reach));
    const i1 = Math.min(w.columns - 1, Math.floor(x + reach));
    for (let j = Math.max(0, Math.floor(y - reach)); j <= j1; j++)
      for (let i = Math.max(0, Math.floor(x - reach)); i <= i1; i++) {
        const dx = i + 0.5 - x;
        const dy = j + 0.5 - y;
        if (dx * dx + dy * dy > reach * reach) continue;
        const t = clamp01(projected[j * w.columns + i]!);
        sum += t;
        sx += t * dx;
        sy += t * dy;
      }
    if (sum === 0) return roundness;
    x += sx / sum;
    y += sy / sum;
  }
  const there = roundnessAt(w, x, y, r);
  if (there < KEPT_ROUNDNESS * roundness) return roundness;
  place.x = x;
  place.y = y;
  return Math.max(there, roundness);
};

/** A closer look at `candidate`; null when it leaves the picture or the lawn. */
export const sieveCandidate = (
  raster: Raster,
  camera: Camera,
  candidate: Candidate,
): SievedCandidate | null => {
  const radius = candidate.diameter / 2;
  const w = openWindow(raster, candidate.x, candidate.y, radius);
  const r = radius / w.cell;
  const x0 = (candidate.x - w.left) / w.cell;
  const y0 = (candidate.y - w.top) / w.cell;
  if (!measureLawn(w, x0, y0, 1.5 * r + 0.5, 2.6 * r + 0.5)) return null;
  const core = Math.max(0.8, 0.8 * r);
  const place = { x: x0, y: y0 };
  // First along the contrast of the candidate's own place, then once more along that of the best place.
  let size = discContrast(w, x0, y0, core);
  let roundness = 0;
  for (let pass = 0; pass < 2 && size > 0; pass++) {
    project(w, size);
    roundness = bestPlace(w, place, r, pass === 0 ? r / 3 : r / 6);
    size = discContrast(w, place.x, place.y, core);
  }
  if (size > 0) roundness = balance(w, place, r, roundness);
  const view = viewBallAt(camera, imagePoint(w.left + place.x * w.cell, w.top + place.y * w.cell));
  return view === null ? null : { view, roundness, contrast: Math.sqrt(size) };
};

/** Candidates that are sieved, strongest first, and that are kept for fitting. */
const MOST_SIEVED = 600;
const MOST_KEPT = 36;
/** Contrast, in standard deviations of a cell, at which roundness counts half: below it texture looks round by chance. */
const HALF_CONTRAST = 2;
/** Nearer than this share of a radius two candidates are the same. */
const SAME = 0.6;

/** The views of the candidates that stand out most like a ball, best first; of several at one place the best. */
export const sieveCandidates = (
  raster: Raster,
  camera: Camera,
  candidates: readonly Candidate[],
): BallView[] => {
  const merit = ({ roundness, contrast }: SievedCandidate): number =>
    (roundness * contrast) / (contrast + HALF_CONTRAST);
  const sieved = candidates
    .slice(0, MOST_SIEVED)
    .map((candidate) => sieveCandidate(raster, camera, candidate))
    .filter((found) => found !== null)
    .sort((a, b) => merit(b) - merit(a));
  const kept: BallView[] = [];
  for (const { view } of sieved) {
    if (kept.length === MOST_KEPT) break;
    if (kept.every((other) => Math.hypot(other.x - view.x, other.y - view.y) > SAME * view.radius))
      kept.push(view);
  }
  return kept;
};

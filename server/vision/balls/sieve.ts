import type { Camera } from '../../camera/types.ts';
import { imagePoint } from '../../units/points.ts';
import { medianOf } from '../selection.ts';
import type { Raster } from '../types.ts';
import { type BallView, viewBallAt } from './ball-view.ts';
import type { Candidate } from './candidates.ts';
import { flattenWindow } from './flat-window.ts';
import { clearRadii } from './hidden-columns.ts';
import type { LawnColour } from './lawn-colour.ts';
import { roundnessAt, SIDE } from './roundness.ts';
import { diameterAt } from './search-scale.ts';
import {
  besideThing,
  isCoveredNear,
  maskColumns,
  masked,
  openWindow,
  type Place,
  values,
  type Window,
} from './sieve-window.ts';

/** A candidate after a closer look: where its disc stands best, and how much it stands out like a disc. */
type Sieved = {
  /** Middle and radius of the disc, px. */
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** Sum over the directions of how clearly the disc ends at the predicted radius there, 0 to SECTORS, less where the contrast is low. */
  readonly merit: number;
  /** Whether something upright stands before a part of it or close by. */
  readonly covered: boolean;
};

/** Cells of the ring that are sorted. */
const RING_SAMPLE = 40;
/** Least noise of a cell, grey levels: luma, colour. */
const LEAST = [2, 1, 1] as const;

const projected = new Float64Array(SIDE * SIDE);
const ring = new Int32Array(SIDE * SIDE);
const scratch = new Float64Array(SIDE * SIDE);
const around = new Float64Array(3);
const noise = new Float64Array(3);
const step = new Float64Array(3);

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
    around[c] = middle;
    noise[c] = Math.max(LEAST[c as 0 | 1 | 2], 1.4826 * medianOf(scratch, n));
  }
  return true;
};

const ringCells = (w: Window, x: number, y: number, from: number, to: number): number => {
  let n = 0;
  const near = from * from;
  const far = to * to;
  for (let j = 0; j < w.rows; j++) {
    const dy2 = (j + 0.5 - y) * (j + 0.5 - y);
    for (let i = 0; i < w.columns; i++) {
      const d2 = (i + 0.5 - x) * (i + 0.5 - x) + dy2;
      if (d2 >= near && d2 <= far && masked[i] === 0) ring[n++] = j * SIDE + i;
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
      if (masked[i] !== 0 || (i + 0.5 - x) ** 2 + (j + 0.5 - y) ** 2 > radius * radius) continue;
      const k = 3 * (j * SIDE + i);
      for (let c = 0; c < 3; c++) step[c] = step[c]! + (values[k + c]! - around[c]!) / noise[c]!;
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

/** Puts every cell's contrast along `step` into `projected`: 0 on the lawn, outside the patch and in masked columns, 1 in the disc's mean. */
const project = (w: Window, size: number): void => {
  projected.fill(0);
  const ay = step[0]! / (noise[0]! * size);
  const ab = step[1]! / (noise[1]! * size);
  const ar = step[2]! / (noise[2]! * size);
  const lawnPart = ay * around[0]! + ab * around[1]! + ar * around[2]!;
  for (let j = 0; j < w.rows; j++)
    for (let i = 0, k = j * SIDE; i < w.columns; i++, k++)
      if (masked[i] === 0)
        projected[k] = ay * values[3 * k]! + ab * values[3 * k + 1]! + ar * values[3 * k + 2]! - lawnPart;
};

const clamp01 = (t: number): number => (t < 0 ? 0 : Math.min(t, 1));

/** Places tried on each side of the candidate, a third of a radius apart. */
const TRIES = 2;

/** Moves `place` to the roundest of the places around it, `pace` cells apart, and returns its roundness. */
const bestPlace = (place: { x: number; y: number }, r: number, pace: number, tries = TRIES): number => {
  const { x, y } = place;
  let best = -1;
  for (let j = -tries; j <= tries; j++)
    for (let i = -tries; i <= tries; i++) {
      const roundness = roundnessAt(projected, x + i * pace, y + j * pace, r);
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
        const t = clamp01(projected[j * SIDE + i]!);
        sum += t;
        sx += t * dx;
        sy += t * dy;
      }
    if (sum === 0) return roundness;
    x += sx / sum;
    y += sy / sum;
  }
  const there = roundnessAt(projected, x, y, r);
  if (there < KEPT_ROUNDNESS * roundness) return roundness;
  place.x = x;
  place.y = y;
  return Math.max(there, roundness);
};

/** Contrast, in standard deviations of a cell, at which roundness counts half: below it texture looks round by chance. */
const HALF_CONTRAST = 2;

/** Something upright within so many radii of a disc's middle may hide a part of it, or spoil its edge. */
const COVERS = 1.6;

/** How a place is looked at: `closer` goes on to the contrast of the best place and to the balance point, `flat` takes off first what stands upright before it. */
type Kind = { readonly closer: boolean; readonly flat: boolean };
const QUICK: Kind = { closer: false, flat: false };
const CLOSER: Kind = { closer: true, flat: false };
const QUICK_FLAT: Kind = { closer: false, flat: true };
const CLOSER_FLAT: Kind = { closer: true, flat: true };

/**
 * A look at the disc of `radius` px near (`x`, `y`). Where something upright hides the middle of the disc, `beside` gets the places on either side of it. Null when it leaves the picture or the lawn.
 */
const look = (
  raster: Raster,
  known: LawnColour,
  x: number,
  y: number,
  radius: number,
  { closer, flat }: Kind,
  beside: Place[] | null = null,
): Sieved | null => {
  const w = openWindow(raster, x, y, radius);
  const r = radius / w.cell;
  const place = { x: (x - w.left) / w.cell, y: (y - w.top) / w.cell };
  const clear = clearRadii(radius);
  maskColumns(w, place.y, r, clear, known);
  beside?.push(...besideThing(w, x, y, radius));
  const covered = isCoveredNear(w, place.x, COVERS * r);
  if (!measureLawn(w, place.x, place.y, 1.5 * r + 0.5, 2.6 * r + 0.5)) return null;
  if (flat && !flattenWindow(w, place.y, clear * r, around)) return null;
  const core = Math.max(0.8, 0.8 * r);
  let size = discContrast(w, place.x, place.y, core);
  let roundness = 0;
  for (let pass = 0; pass < (closer ? 2 : 1) && size > 0; pass++) {
    project(w, size);
    roundness = closer ? bestPlace(place, r, pass === 0 ? r / 3 : r / 6) : bestPlace(place, r, r / 2, 1);
    size = discContrast(w, place.x, place.y, core);
  }
  if (closer && size > 0) roundness = balance(w, place, r, roundness);
  const contrast = Math.sqrt(size);
  const merit = (roundness * contrast) / (contrast + HALF_CONTRAST);
  return { x: w.left + place.x * w.cell, y: w.top + place.y * w.cell, radius, merit, covered };
};

/** Candidates that get a quick look, strongest first; that get a closer one, roundest first; and that are kept for fitting. */
const MOST_LOOKED_AT = 700;
const MOST_CLOSER = 300;
const MOST_KEPT = 50;
/**
 * The same of those before which something upright stands, once that is taken off: half a disc is half as round, so they are ranked among themselves. Most pictures have fewer; of crowded
 * ones 16 left out balls that their fits name, and with 60 as many things as balls came in addition.
 */
const MOST_CLOSER_FLAT = 150;
const MOST_KEPT_FLAT = 48;
/** Merit from which one of them is kept. With 3.2, and 80 kept, two balls more were found in 42 scenes drawn by chance, and three things were named. */
const LEAST_FLAT = 3.5;
/** Nearer than this share of a radius two candidates are the same. */
const SAME = 0.6;

const byMerit = (a: Sieved, b: Sieved): number => b.merit - a.merit;

const bestFirst = (sieved: readonly (Sieved | null)[]): Sieved[] =>
  sieved.filter((found) => found !== null).sort(byMerit);

const isApart = (view: BallView, kept: readonly BallView[]): boolean => {
  for (const other of kept)
    if (Math.hypot(other.x - view.x, other.y - view.y) <= SAME * view.radius) return false;
  return true;
};

/** Adds to `kept` the views of the best of `sieved` with more merit than `least`, at most `most`, that are not at the place of another. */
const keepBest = (
  kept: BallView[],
  sieved: readonly (Sieved | null)[],
  camera: Camera,
  most: number,
  least = 0,
): void => {
  let n = 0;
  for (const { x, y, merit } of bestFirst(sieved)) {
    if (n === most || merit < least) return;
    const view = viewBallAt(camera, imagePoint(x, y));
    if (view === null || !isApart(view, kept)) continue;
    kept.push(view);
    n++;
  }
};

/** The views of the candidates that stand out most like a ball, best first, those behind something upright last; of several at one place the best. */
export const sieveCandidates = (
  raster: Raster,
  camera: Camera,
  candidates: readonly Candidate[],
  lawn: LawnColour,
): BallView[] => {
  const quick: (Sieved | null)[] = [];
  const flat: (Sieved | null)[] = [];
  const beside: Place[] = [];
  const add = ({ x, y }: Place, aside: Place[] | null): void => {
    const radius = diameterAt(camera, x, y) / 2;
    if (radius <= 0) return;
    const found = look(raster, lawn, x, y, radius, QUICK, aside);
    quick.push(found);
    if (found?.covered) flat.push(look(raster, lawn, x, y, radius, QUICK_FLAT));
  };
  for (const place of candidates.slice(0, MOST_LOOKED_AT)) add(place, beside);
  for (const place of beside) add(place, null);
  const closer = (sieved: readonly (Sieved | null)[], most: number, kind: Kind) =>
    bestFirst(sieved)
      .slice(0, most)
      .map(({ x, y, radius }) => look(raster, lawn, x, y, radius, kind));
  const kept: BallView[] = [];
  keepBest(kept, closer(quick, MOST_CLOSER, CLOSER), camera, MOST_KEPT);
  keepBest(kept, closer(flat, MOST_CLOSER_FLAT, CLOSER_FLAT), camera, MOST_KEPT_FLAT, LEAST_FLAT);
  return kept;
};

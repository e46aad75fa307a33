import { pointAtHeight, projectPoint } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { type Metres, metres, type Pixels } from '../../units/numbers.ts';
import { imagePoint, type LawnPoint, lawnPoint, lawnPoint3 } from '../../units/points.ts';
import type { Raster } from '../../units/raster.ts';
import { fitShape, type ShapeFit } from './fit-shape.ts';
import { cutPatch, type Patch } from './patch.ts';
import { coverRod, rodBounds, seeRod } from './rod.ts';
import type { Shape } from './shapes.ts';
import { searchShifts } from './shift-search.ts';

/** Evidence (brightness ÷ its standard deviation) below which nothing counts as seen: chance exceeds it less than once in a billion, texture included. */
export const LEAST_EVIDENCE = 5;
/** Starting blur for the search, px. */
const SEARCH_BLUR = 1;
/** Grass around the object that the fit sees, px at least and as a share of the object's size. */
const FRAME = { px: 5, share: 0.3 } as const;

/** How far from its expected place something is looked for: on the ground, and in the picture when a mark bounds it there. */
export type Reach = { readonly ground: Metres; readonly image?: Pixels };

/** What is done to a patch before it is searched, such as taking a painted line off. */
export type Prepare = (patch: Patch) => Patch;

const drawWhite = (
  camera: Camera,
  shape: Shape,
  patch: Patch,
  parameters: ArrayLike<number>,
): Float64Array => {
  const out = new Float64Array(patch.values.length);
  for (const rod of shape.rods(parameters)) {
    const seen = rod.layer === 0 ? seeRod(camera, rod) : null;
    if (seen !== null) coverRod(seen, patch, Math.hypot(SEARCH_BLUR, patch.step / 3), out);
  }
  return out;
};

/** Largest image movement (px) of a lawn point within `reach`. */
const imageReach = (camera: Camera, place: LawnPoint, reach: Reach): { x: number; y: number } | null => {
  if (reach.image !== undefined) return { x: reach.image, y: reach.image };
  const centre = projectPoint(camera, lawnPoint3(place.x, place.y, 0));
  if (centre === null) return null;
  let x = 0;
  let y = 0;
  for (let k = 0; k < 8; k++) {
    const angle = (k * Math.PI) / 4;
    const moved = projectPoint(
      camera,
      lawnPoint3(place.x + reach.ground * Math.cos(angle), place.y + reach.ground * Math.sin(angle), 0),
    );
    if (moved === null) return null;
    x = Math.max(x, Math.abs(moved.x - centre.x));
    y = Math.max(y, Math.abs(moved.y - centre.y));
  }
  return { x, y };
};

/** Displacement on the ground that moves the image of `place` by (dx, dy) px; null above the horizon. */
const groundShift = (camera: Camera, place: LawnPoint, dx: number, dy: number): [number, number] | null => {
  const image = projectPoint(camera, lawnPoint3(place.x, place.y, 0));
  if (image === null) return null;
  const moved = pointAtHeight(camera, imagePoint(image.x + dx, image.y + dy), metres(0));
  return moved && [moved.x - place.x, moved.y - place.y];
};

/** So many separate places are tried, best first. */
const STARTS = 4;
/** Two fits this near each other, metres, are of one thing: the first start, which is the nearest, is kept. */
const SAME_THING = 0.04;
/** Places nearer to each other than this count as one, samples. */
const APART = 3;

/** First guesses of the displacement on the ground: the best separate shifts that the shape admits; none when the object lies outside the picture. */
const firstGuesses = (
  raster: Raster,
  camera: Camera,
  place: LawnPoint,
  shape: Shape,
  reach: Reach,
  prepare: Prepare,
): [number, number][] => {
  const far = imageReach(camera, place, reach);
  const bounds = rodBounds(camera, shape.rods(shape.start), 4);
  if (far === null || bounds === null) return [];
  const cut = cutPatch(raster, {
    left: bounds.left - far.x,
    right: bounds.right + far.x,
    top: bounds.top - far.y,
    bottom: bounds.bottom + far.y,
  });
  if (cut === null) return [];
  const patch = prepare(cut);
  const matches = searchShifts(patch, drawWhite(camera, shape, patch, shape.start), {
    x: Math.ceil(far.x / patch.step),
    y: Math.ceil(far.y / patch.step),
  });
  const taken: { dx: number; dy: number }[] = [];
  const guesses: [number, number][] = [];
  for (const { dx, dy } of matches) {
    if (taken.some((other) => Math.hypot(other.dx - dx, other.dy - dy) < APART)) continue;
    const shift = groundShift(camera, place, dx * patch.step, dy * patch.step);
    if (shift === null || !shape.admits(...shift)) continue;
    taken.push({ dx, dy });
    guesses.push(shift);
    if (guesses.length === STARTS) break;
  }
  return guesses;
};

/** The fit from one start; null when it lies outside the picture, shows nothing white or ends where the shape does not admit it. */
const fitFrom = (
  raster: Raster,
  camera: Camera,
  shape: Shape,
  guess: readonly [number, number],
  prepare: Prepare,
): ShapeFit | null => {
  const start = [...guess, ...shape.start.slice(2)];
  const tight = rodBounds(camera, shape.rods(start), 0);
  if (tight === null) return null;
  const frame = FRAME.px + FRAME.share * Math.max(tight.right - tight.left, tight.bottom - tight.top);
  const cut = cutPatch(raster, {
    left: tight.left - frame,
    top: tight.top - frame,
    right: tight.right + frame,
    bottom: tight.bottom + frame,
  });
  if (cut === null) return null;
  const fit = fitShape(camera, shape, prepare(cut), start);
  const admitted = shape.admits(fit.parameters[0]!, fit.parameters[1]!);
  return fit.evidence < LEAST_EVIDENCE || !admitted ? null : fit;
};

/**
 * Looks for `shape` within `reach` of `place` and measures it; of several places the one with the best evidence. Null when it lies
 * outside the picture or nothing white of its form stands there. The fit's covariance is the picture's alone: the camera's is added by
 * whoever places it on the lawn. `prepare` is applied to every patch before it is looked at.
 */
export const findUpright = (
  raster: Raster,
  camera: Camera,
  place: LawnPoint,
  shape: Shape,
  reach: Reach,
  prepare: Prepare = (patch) => patch,
): ShapeFit | null => {
  const fits = firstGuesses(raster, camera, place, shape, reach, prepare).flatMap((guess) => {
    const fit = fitFrom(raster, camera, shape, guess, prepare);
    return fit ? [fit] : [];
  });
  const [first, ...others] = fits;
  return (
    others.reduce(
      (best, fit) => (elsewhere(best, fit) && fit.evidence > best.evidence ? fit : best),
      first!,
    ) ?? null
  );
};

const elsewhere = (one: ShapeFit, other: ShapeFit): boolean =>
  Math.hypot(one.parameters[0]! - other.parameters[0]!, one.parameters[1]! - other.parameters[1]!) >
  SAME_THING;

/** Where the fitted shape stands. */
export const standsAt = (place: LawnPoint, fit: ShapeFit): LawnPoint =>
  lawnPoint(place.x + fit.parameters[0]!, place.y + fit.parameters[1]!);

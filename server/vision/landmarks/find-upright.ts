import { pointAtHeight, projectPoint } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { type Metres, metres, type Pixels } from '../../units/numbers.ts';
import { imagePoint, type LawnPoint, lawnPoint, lawnPoint3 } from '../../units/points.ts';
import type { Raster } from '../../units/raster.ts';
import { fitShape, type ShapeFit } from './fit-shape.ts';
import { cutPatch, type Patch, type Samples } from './patch.ts';
import { rodBounds } from './rod.ts';
import { BLUR, COLOUR_BLUR, drawShape } from './shape-templates.ts';
import type { Shape } from './shapes.ts';
import { searchShifts } from './shift-search.ts';

/** Evidence (brightness ÷ its standard deviation) below which nothing counts as seen: chance exceeds it less than once in a billion, texture included. */
export const LEAST_EVIDENCE = 5.5;
/** Grass around the object that the fit sees, px at least and as a share of the object's size. */
const FRAME = { px: 8, share: 0.3 } as const;

/** How far from its expected place something is looked for: on the ground, and in the picture when a mark bounds it there. */
export type Reach = { readonly ground: Metres; readonly image?: Pixels };

/** What is done to a patch before it is searched, such as taking a painted line off. */
export type Prepare = (patch: Patch) => Patch;

/** Ground must stand out of the grass by so much (0 to 255) to hide anything white. */
const HIDING = 15;

/** What of a white thing shows before `ground` (levels above the grass): all before grass, nothing before the whitest paint. */
const contrastBefore = (ground: Float64Array | undefined): ((index: number) => number) => {
  const most = ground ? ground.reduce((a, b) => Math.max(a, b), 0) : 0;
  if (!ground || most < HIDING) return () => 1;
  return (index) => Math.min(1, Math.max(0, 1 - ground[index]! / most));
};

/** A shadow's darkness in each channel as a share of a white thing's brightness: it takes two fifths of the grass' light and greenness. From memory. */
const SHADOW_SHARE = [-0.35, 0.37] as const;

/** What the thing adds to every channel as far as it shows, at the blur of a typical picture; ragged ground counts less. */
const drawExpected = (camera: Camera, shape: Shape, patch: Patch): Float64Array[] =>
  drawShape(camera, shape, patch, [...shape.start, BLUR.mean, COLOUR_BLUR.mean]).map(({ layers }, c) => {
    const contrast = contrastBefore(patch.hidden?.[c]);
    const unrest = patch.unrest?.[c];
    const whites = layers.slice(0, shape.whites);
    const shadow = shape.shadow === undefined ? undefined : layers[shape.shadow];
    return whites[0]!.map((_, i) => {
      const white = contrast(i) * whites.reduce((sum, layer) => sum + layer[i]!, 0);
      return (white + SHADOW_SHARE[c]! * (shadow?.[i] ?? 0)) / Math.sqrt(unrest?.[i] ?? 1);
    });
  });

/** The patch with ragged ground calmed to the noise of quiet ground. */
const calmed = (patch: Patch): Patch => {
  const { unrest } = patch;
  if (!unrest) return patch;
  const channels = patch.channels.map((values, c) =>
    values.map((value, i) => value / Math.sqrt(unrest[c]![i]!)),
  );
  return { ...patch, channels: channels as unknown as Samples };
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

/** So many separate places are looked at with a short fit, and so many of them fitted to the end, best first. Only the place moves at first. */
const STARTS = { tried: 10, place: { steps: 3, free: 2 }, fitted: 2 } as const;
/** Places that stand out less than this share of the best one's evidence are not looked at: a thing half a sample off its template still has more. */
const WORTH_TRYING = 0.45;
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
  const matches = searchShifts(calmed(patch), drawExpected(camera, shape, patch), {
    x: Math.ceil(far.x / patch.step),
    y: Math.ceil(far.y / patch.step),
  });
  const taken: { dx: number; dy: number }[] = [];
  const guesses: [number, number][] = [];
  const least = WORTH_TRYING * (matches[0]?.evidence ?? 0);
  for (const { dx, dy, evidence } of matches) {
    if (evidence < least) break;
    if (taken.some((other) => Math.hypot(other.dx - dx, other.dy - dy) < APART)) continue;
    const shift = groundShift(camera, place, dx * patch.step, dy * patch.step);
    if (shift === null || !shape.admits(...shift)) continue;
    taken.push({ dx, dy });
    guesses.push(shift);
    if (guesses.length === STARTS.tried) break;
  }
  return guesses;
};

/** What of the picture a fit that starts at `start` (the shape's parameters) looks at; null when it lies outside. */
const patchAround = (
  raster: Raster,
  camera: Camera,
  shape: Shape,
  start: ArrayLike<number>,
  prepare: Prepare,
): Patch | null => {
  const tight = rodBounds(camera, shape.rods(start), 0);
  if (tight === null) return null;
  const frame = FRAME.px + FRAME.share * Math.max(tight.right - tight.left, tight.bottom - tight.top);
  const cut = cutPatch(raster, {
    left: tight.left - frame,
    top: tight.top - frame,
    right: tight.right + frame,
    bottom: tight.bottom + frame,
  });
  return cut && prepare(cut);
};

/** A fit after some steps, and the patch it looks at. */
type Begun = { readonly patch: Patch; readonly fit: ShapeFit };

const begin = (
  raster: Raster,
  camera: Camera,
  shape: Shape,
  guess: readonly [number, number],
  prepare: Prepare,
): Begun[] => {
  const start = [...guess, ...shape.start.slice(2)];
  const patch = patchAround(raster, camera, shape, start, prepare);
  const fit = patch && fitShape(camera, shape, patch, start, STARTS.place);
  return patch && fit ? [{ patch, fit }] : [];
};

/** The best of the fits begun, no two of one place. */
const mostPromising = (begun: readonly Begun[]): Begun[] => {
  const kept: Begun[] = [];
  for (const one of [...begun].sort((a, b) => b.fit.whole - a.fit.whole)) {
    if (kept.length === STARTS.fitted) break;
    if (kept.every(({ fit }) => elsewhere(fit, one.fit))) kept.push(one);
  }
  return kept;
};

/** Whether a fit shows enough of a thing to count as seen. */
export type Enough = (fit: ShapeFit) => boolean;

/** Without a mark something white must stand there beyond chance. */
const WHITE_ENOUGH: Enough = ({ evidence }) => evidence >= LEAST_EVIDENCE;

const complete = (
  camera: Camera,
  shape: Shape,
  { patch, fit: { parameters } }: Begun,
  enough: Enough,
): ShapeFit[] => {
  const fit = fitShape(camera, shape, patch, parameters);
  if (fit === null || !enough(fit)) return [];
  return shape.admits(fit.parameters[0]!, fit.parameters[1]!) ? [fit] : [];
};

/** Every fit of `shape` within `reach` of `place` that shows something white, the most promising start first. */
export const allFits = (
  raster: Raster,
  camera: Camera,
  place: LawnPoint,
  shape: Shape,
  reach: Reach,
  prepare: Prepare = (patch) => patch,
  enough: Enough = WHITE_ENOUGH,
): ShapeFit[] => {
  const begun = firstGuesses(raster, camera, place, shape, reach, prepare).flatMap((guess) =>
    begin(raster, camera, shape, guess, prepare),
  );
  return mostPromising(begun).flatMap((one) => complete(camera, shape, one, enough));
};

/**
 * Looks for `shape` within `reach` of `place` and measures it; of several places the one where the whole of it shows best. Null when it lies
 * outside the picture or nothing white of its form stands there. The fit's covariance is the picture's alone: the camera's is added by
 * whoever places it on the lawn. `prepare` is applied to every patch before it is looked at, `enough` decides what
 * counts as seen.
 */
export const findUpright = (
  raster: Raster,
  camera: Camera,
  place: LawnPoint,
  shape: Shape,
  reach: Reach,
  prepare: Prepare = (patch) => patch,
  enough: Enough = WHITE_ENOUGH,
): ShapeFit | null => {
  const fits = allFits(raster, camera, place, shape, reach, prepare, enough);
  return fits.reduce<ShapeFit | null>((best, fit) => (!best || rather(fit, best) ? fit : best), null);
};

/** Whether `fit` takes the place of an earlier one: more of the whole thing elsewhere, or the same thing at less noise. */
const rather = (fit: ShapeFit, best: ShapeFit): boolean =>
  elsewhere(best, fit) ? fit.whole > best.whole : fit.noise < best.noise;

const elsewhere = (one: ShapeFit, other: ShapeFit): boolean =>
  Math.hypot(one.parameters[0]! - other.parameters[0]!, one.parameters[1]! - other.parameters[1]!) >
  SAME_THING;

/** Where the fitted shape stands. */
export const standsAt = (place: LawnPoint, fit: ShapeFit): LawnPoint =>
  lawnPoint(place.x + fit.parameters[0]!, place.y + fit.parameters[1]!);

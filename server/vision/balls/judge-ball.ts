import { pointAtHeight } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { BALL_RADIUS } from '../../lawn/ball.ts';
import type { Court } from '../../lawn/court.ts';
import type { LawnPoint } from '../../units/points.ts';
import type { StoredBlocks } from '../../units/raster.ts';
import type { Raster } from '../types.ts';
import type { BallView } from './ball-view.ts';
import { colourRatios, lawnElsewhere, lnBallDensities, lnClutterDensities } from './colour-model.ts';
import type { ColourRatio, MeasuredRatio } from './dye-density.ts';
import { type OutlineEvidence, outlineEvidence } from './evidence.ts';
import { type KnownThing, placeDoubts } from './exclusions.ts';
import type { FitWorkspace } from './fit-workspace.ts';
import { centreOf, type FittedBall } from './fitted-ball.ts';
import { clearRadii, hideColumns, hideOthers, isThing } from './hidden-columns.ts';
import type { LawnColour } from './lawn-colour.ts';
import { fitOutline } from './outline-fit.ts';
import type { OutlineFit } from './outline-shape.ts';
import { cutPatch, MOST_RADIUS, type Patch, ROUGH_RADIUS } from './patch.ts';
import { hideShaded, peelBall, type Standing, standsBehind } from './peel.ts';
import type { PictureBlur } from './picture-blur.ts';
import type { Sun } from './shading.ts';
import { unmixColumns } from './unmix-columns.ts';

/** What all candidates of one picture share. */
export type Scene = {
  readonly raster: Raster;
  readonly camera: Camera;
  readonly court: Court;
  readonly things: readonly KnownThing[];
  readonly lawn: LawnColour;
  /** How blurred the picture is, as far as it is known. */
  readonly blur: PictureBlur;
  /** In which blocks the photo was stored, where fits are to reckon with what rounding them did. */
  readonly blocks?: StoredBlocks | null | undefined;
  readonly space: FitWorkspace;
};

/** A candidate that has been fitted and judged. */
export type JudgedBall = FittedBall & {
  /** Where it stands on the lawn. */
  readonly place: LawnPoint;
  readonly evidence: OutlineEvidence;
  /** Colour ratios, one for each share of bleeding. */
  readonly ratios: readonly MeasuredRatio[];
  /** ln of the density of what is not a ball, at its colour and with an outline as good. */
  readonly clutter: number;
  readonly clear: number;
  /** ln odds of being the ball of each of BALL_COLOURS, against being no ball, in a picture of which nothing else is known. */
  readonly lnOdds: Float64Array;
  /** Whether it hides another in part. */
  readonly hides?: true;
};

/** Of the places that pass the sieve so few are balls, before any is looked at closely: ln odds. */
const BEFORE = -5;

/**
 * From these ln odds on an outline's further ln odds count for a share only: some things that are not balls are nearly as round and as large (hats, heads, shafts
 * seen from their end, gloss), the rarer the rounder. Patches of lawn and shadows are so more seldom.
 */
const ROUND_THING = 5;
const ROUND_PATCH = 8;
const ROUNDER = 0.25;
const atMost = (odds: number, most: number): number =>
  Math.min(odds, most) + ROUNDER * Math.max(0, odds - most);

/** ln of the density of what is not a ball, at a colour ratio and with an outline as good as `evidence` tells; `elsewhere` is the ratio of lawn as bright as elsewhere. */
const lnClutter = (ratio: ColourRatio, elsewhere: ColourRatio, { round, size }: OutlineEvidence, covering: readonly ColourRatio[]): number => {
  const { lawn, thing, part } = lnClutterDensities(ratio, elsewhere, covering);
  const all = [lawn - atMost(round + size, ROUND_PATCH), thing - atMost(round + size, ROUND_THING), part - atMost(round + size, ROUND_PATCH)];
  const most = Math.max(...all);
  return most + Math.log(all.reduce((sum, ln) => sum + Math.exp(ln - most), 0));
};

/** Fits of fewer steps are first looks, on larger cells. */
const FINE_STEPS = 5;

/**
 * What is taken for granted of a place that is fitted: nothing; that it is a ball, so that things beside it are left out of the fit, and balls found behind it hide nothing of it; or that it is what another
 * ball before it leaves to be seen.
 */
export type Granted = 'nothing' | 'ball' | 'hidden';

/** How the ball of `view` stands to `other`: before it only where that one was found behind another, for a thing and its parts stand behind each other too. */
const standingTo = (other: FittedBall, view: BallView, granted: Granted): Standing => {
  if (granted === 'hidden' && standsBehind(view, other.view)) return 'behind';
  return granted === 'ball' && other.behind && standsBehind(other.view, view) ? 'before' : 'beside';
};

/** The patch about `view` without what stands upright before it. */
export const clearPatch = (
  raster: Raster,
  view: BallView,
  lawn: LawnColour,
  mostCells = MOST_RADIUS,
): Patch => {
  const patch = cutPatch(raster, view, 1, mostCells);
  hideColumns(patch, view, lawn);
  unmixColumns(raster, patch, view, lawn);
  return patch;
};

/** Fits and judges a ball seen near `view`, with the balls `others` taken off the picture first. Null where no outline can be fitted. */
export const judgeBall = (
  scene: Scene,
  view: BallView,
  sun: Sun | null,
  steps: number,
  others: readonly FittedBall[] = [],
  granted: Granted = 'nothing',
): JudgedBall | null => {
  const { raster, space, lawn, blur, blocks } = scene;
  const patch = clearPatch(raster, view, lawn, steps < FINE_STEPS ? ROUGH_RADIUS : MOST_RADIUS);
  const covered = coveringOf(patch, view, lawn);
  const upright = patch.trust.slice();
  for (const other of others) peelBall(patch, other, view, standingTo(other, view, granted));
  const seen = patch.trust.slice();
  // What is seen of a hidden ball may all lie in the other's shadow; of one beside it the shaded part still shows its outline.
  if (granted === 'hidden') for (const other of others) hideShaded(patch, view, other);
  const lit = patch.trust.slice();
  if (granted === 'ball') hideOthers(patch, view, lawn);
  const fit = fitOutline(patch, view, { sun, blur, steps, blocks }, space);
  if (fit === null) return null;
  patch.trust.set(lit);
  const place = standsAt(scene.camera, view, fit);
  if (place === null) return null;
  const evidence = outlineEvidence(patch, seen, view, fit, { lawn, sun, blur }, space);
  const ratios = colourRatios(fit.ball, view.radius * Math.sqrt(evidence.visible), fit.lawn, lawn);
  const clear = clearShare(upright, space, patch.count);
  const covering = process.env.NOCOV ? [] : covered.map((colour) => colourRatios(colour, view.radius, fit.lawn, lawn)[0]!.ratio);
  if ((globalThis as any).__cov) (globalThis as any).__cov(view, fit, covered, covering, ratios[0]!.ratio, clear);
  const clutter = lnClutter(ratios[0]!.ratio, lawnElsewhere(fit.lawn, lawn), evidence, covering);
  return withOdds(scene, { view, fit, sun, place, evidence, ratios, clutter, clear });
};

const clearShare = (trust: Float64Array, { rho }: FitWorkspace, count: number): number => {
  let [n, sum] = [0, 0];
  for (let i = 0; i < count; i++) {
    if (rho[i]! > 1.1) continue;
    n++;
    sum += trust[i]! > 0 ? 1 : 0;
  }
  return n === 0 ? 1 : sum / n;
};
const coveringOf = (patch: Patch, view: BallView, lawn: LawnColour): Float64Array[] => {
  const clear = clearRadii(view.radius) * view.radius;
  const sums = [new Float64Array(3), new Float64Array(3)];
  const n = [0, 0];
  for (let i = 0; i < patch.count; i++) {
    const dy = patch.y[i]! - view.y;
    if (patch.trust[i]! > 0 || Math.abs(dy) < clear || !isThing(patch.values, 3 * i, lawn)) continue;
    const side = dy < 0 ? 0 : 1;
    n[side]!++;
    for (let c = 0; c < 3; c++) sums[side]![c]! += patch.values[3 * i + c]!;
  }
  return sums.flatMap((sum, side) => (n[side]! < 2 ? [] : [sum.map((v) => v / n[side]!)]));
};

const standsAt = (camera: Camera, view: BallView, fit: OutlineFit): LawnPoint | null =>
  pointAtHeight(camera, centreOf({ view, fit }), BALL_RADIUS);

/** A ball that was judged from another camera, where this scene's camera sees it; null off the lawn. */
export const placedAgain = (scene: Scene, ball: JudgedBall): JudgedBall | null => {
  const place = standsAt(scene.camera, ball.view, ball.fit);
  return place === null ? null : withOdds(scene, { ...ball, place });
};

/** Spread, grey levels, of the brightness that a fit gives to a black ball, or to a white one: one darker than nothing, or brighter than white, by several of it is no ball, but what is left of another thing that was taken off the picture. */
const ENDS_SD = 15;
const WHITE = 255;

/** ln odds that `fit` loses for a ball that is darker or brighter than a picture can show. */
const impossible = ({ ball }: OutlineFit): number => {
  const beyond = Math.max(0, -ball[0]!, ball[0]! - WHITE);
  return (beyond / ENDS_SD) ** 2 / 2;
};

const SELDOM = Number(process.env.SELDOM ?? 1.5);
const withOdds = (scene: Scene, ball: Omit<JudgedBall, 'lnOdds'>): JudgedBall => {
  const { view, fit, place, evidence, ratios, clutter, clear } = ball;
  const doubts = placeDoubts(scene.things, scene.court, fit.x, fit.y, place);
  const lnOdds = lnBallDensities(ratios, view.radius);
  const covered = Math.max(0, Math.min(1, (0.85 - clear) / 0.3));
  const faint = Number(process.env.FAINT ?? 0.5) * Math.max(0, Math.min(6, 7 - evidence.round - evidence.size));
  const shared = BEFORE - covered * (SELDOM + faint) + evidence.ground + evidence.shadow - clutter - impossible(fit);
  for (let c = 0; c < lnOdds.length; c++) lnOdds[c] = shared + lnOdds[c]! + doubts[c]!;
  return { ...ball, lnOdds };
};

/** The largest of a judged ball's ln odds. */
export const bestOdds = ({ lnOdds }: JudgedBall): number => Math.max(...lnOdds);

/** ln density of things of any colour where they are common: it makes a merit comparable with ln odds. */
const LEVEL = 5;

/**
 * How well a fit explains the picture, to choose among fits of one ball from several starts: its likeliest odds with all that the outline says, less what is
 * unlikely about its blur.
 */
export const fitMerit = (ball: JudgedBall): number => {
  const { round, size, blur } = ball.evidence;
  return bestOdds(ball) + ball.clutter + round + size + LEVEL + blur;
};

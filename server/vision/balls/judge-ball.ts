import { pointAtHeight } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { BALL_RADIUS } from '../../lawn/ball.ts';
import type { Court } from '../../lawn/court.ts';
import type { LawnPoint } from '../../units/points.ts';
import type { StoredBlocks } from '../../units/raster.ts';
import type { Raster } from '../types.ts';
import type { BallView } from './ball-view.ts';
import { colourRatios, lawnElsewhere, lnBallDensities, lnClutterDensities, lnSum } from './colour-model.ts';
import { clearShare, coveredBy, coveringColours } from './covering.ts';
import type { ColourRatio, MeasuredRatio } from './dye-density.ts';
import { type OutlineEvidence, outlineEvidence } from './evidence.ts';
import { type KnownThing, placeDoubts } from './exclusions.ts';
import type { FitWorkspace } from './fit-workspace.ts';
import { centreOf, type FittedBall } from './fitted-ball.ts';
import { hideColumns, hideOthers } from './hidden-columns.ts';
import type { LawnColour } from './lawn-colour.ts';
import { lawnLight } from './lawn-light.ts';
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
  /** The sun that people and trees keep from parts of the lawn; null as long as it is not known, and without one. */
  readonly daylight: Sun | null;
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
  /** Share of its disc before which nothing upright stands, 0 to 1. */
  readonly clear: number;
  /** ln odds of being the ball of each of BALL_COLOURS, against being no ball, in a picture of which nothing else is known. */
  readonly lnOdds: Float64Array;
  /** Whether it hides another in part. */
  readonly hides?: true;
  /** Whether someone's shadow ends on it or right beside it. */
  readonly halfLit?: true;
};

/**
 * Of the places that pass the sieve so few are balls, before any is looked at closely: ln odds. Of those before which something upright stands fewer are, since balls stand behind legs more seldom than
 * clothes have edges, and fewer still with each ln odds of outline that lacks to a clear one. How much less is chosen by what fixtures and scenes drawn by chance then find and name falsely.
 */
const BEFORE = -5;
const SELDOM = 1.5;
const FAINT = 0.5;
const CLEAR_OUTLINE = 7;
const MOST_LACKING = 6;

/** ln odds that a place loses for being covered, by the share of it that is clear. */
const coveredDoubt = (clear: number, { round, size }: OutlineEvidence): number => {
  const lacking = Math.max(0, Math.min(MOST_LACKING, CLEAR_OUTLINE - round - size));
  return coveredBy(clear) * (SELDOM + FAINT * lacking);
};

/**
 * From these ln odds on an outline's further ln odds count for a share only: some things that are not balls are nearly as round and as large (hats, heads, shafts
 * seen from their end, gloss), the rarer the rounder. Patches of lawn and shadows are so more seldom.
 */
const ROUND_THING = 5;
const ROUND_PATCH = 8;
const ROUNDER = 0.25;
const atMost = (odds: number, most: number): number =>
  Math.min(odds, most) + ROUNDER * Math.max(0, odds - most);

/**
 * ln of the density of what is not a ball, at a colour ratio and with an outline as good as `evidence` tells; `elsewhere` is the ratio of lawn as bright as elsewhere, `covering` those of what stands before
 * it, of which it may be a part.
 */
const lnClutter = (
  ratio: ColourRatio,
  elsewhere: ColourRatio,
  covering: readonly ColourRatio[],
  { round, size }: OutlineEvidence,
): number => {
  const { lawn, thing, part } = lnClutterDensities(ratio, elsewhere, covering);
  const patch = atMost(round + size, ROUND_PATCH);
  return lnSum([lawn - patch, thing - atMost(round + size, ROUND_THING), part - patch]);
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
  const { raster, space, lawn, blur, blocks, daylight } = scene;
  const patch = clearPatch(raster, view, lawn, steps < FINE_STEPS ? ROUGH_RADIUS : MOST_RADIUS);
  const before = coveringColours(patch, view, lawn);
  const upright = patch.trust.slice();
  // Of what may be anything it is not taken off: what a piece of shadow leaves over would look like a ball.
  if (daylight !== null && granted !== 'nothing')
    patch.light = lawnLight(raster, patch, view, daylight, others, lawn);
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
  // Of a ball that is seen in part there is less colour to measure.
  const ratios = colourRatios(fit.ball, view.radius * Math.sqrt(evidence.visible), fit.lawn, lawn);
  const covering = before.map((colour) => colourRatios(colour, view.radius, fit.lawn, lawn)[0]!.ratio);
  const clutter = lnClutter(ratios[0]!.ratio, lawnElsewhere(fit.lawn, lawn), covering, evidence);
  const clear = clearShare(upright, space, patch.count);
  return withOdds(scene, { view, fit, sun, place, evidence, ratios, clutter, clear });
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

const withOdds = (scene: Scene, ball: Omit<JudgedBall, 'lnOdds'>): JudgedBall => {
  const { view, fit, place, evidence, ratios, clutter, clear } = ball;
  const doubts = placeDoubts(scene.things, scene.court, fit.x, fit.y, place);
  const lnOdds = lnBallDensities(ratios, view.radius);
  const doubt = coveredDoubt(clear, evidence) + impossible(fit);
  const shared = BEFORE + evidence.ground + evidence.shadow - clutter - doubt;
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

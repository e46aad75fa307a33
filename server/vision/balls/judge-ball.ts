import { pointAtHeight } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { BALL_RADIUS } from '../../lawn/ball.ts';
import type { Court } from '../../lawn/court.ts';
import { imagePoint, type LawnPoint } from '../../units/points.ts';
import type { Raster } from '../types.ts';
import type { BallView } from './ball-view.ts';
import { colourRatios, lnBallDensities, lnClutterDensity } from './colour-model.ts';
import { type OutlineEvidence, outlineEvidence } from './evidence.ts';
import { type KnownThing, placeDoubts } from './exclusions.ts';
import type { FitWorkspace } from './fit-workspace.ts';
import type { LawnColour } from './lawn-colour.ts';
import { fitOutline, TYPICAL_BLUR, TYPICAL_COLOUR_BLUR } from './outline-fit.ts';
import type { OutlineFit } from './outline-shape.ts';
import { cutPatch } from './patch.ts';
import { type FittedBall, peelBall } from './peel.ts';
import type { Sun } from './shading.ts';

/** What all candidates of one picture share. */
export type Scene = {
  readonly raster: Raster;
  readonly camera: Camera;
  readonly court: Court;
  readonly things: readonly KnownThing[];
  readonly lawn: LawnColour;
  readonly space: FitWorkspace;
};

/** A candidate that has been fitted and judged. */
export type JudgedBall = FittedBall & {
  /** Where it stands on the lawn. */
  readonly place: LawnPoint;
  readonly evidence: OutlineEvidence;
  /** ln odds of being the ball of each of BALL_COLOURS, against being no ball. */
  readonly lnOdds: Float64Array;
};

/** Of the places that pass the sieve so few are balls, before any is looked at closely: ln odds. */
const BEFORE = -5;

/** Fits and judges a ball seen near `view`, with the balls `others` taken off the picture first. Null where no outline can be fitted. */
export const judgeBall = (
  scene: Scene,
  view: BallView,
  sun: Sun | null,
  steps: number,
  others: readonly FittedBall[] = [],
): JudgedBall | null => {
  const { raster, space, lawn } = scene;
  const patch = cutPatch(raster, view);
  for (const other of others) peelBall(patch, other);
  const fit = fitOutline(
    patch,
    view,
    { sun, blur: TYPICAL_BLUR, colourBlur: TYPICAL_COLOUR_BLUR, steps },
    space,
  );
  if (fit === null) return null;
  const place = pointAtHeight(
    scene.camera,
    imagePoint(fit.x + view.centreDx, fit.y + view.centreDy),
    BALL_RADIUS,
  );
  if (place === null) return null;
  const evidence = outlineEvidence(patch, view, fit, lawn, space);
  return { view, fit, sun, place, evidence, lnOdds: colourOdds(scene, place, view.radius, fit, evidence) };
};

const colourOdds = (
  scene: Scene,
  place: LawnPoint,
  radius: number,
  fit: OutlineFit,
  { round, size, ground }: OutlineEvidence,
): Float64Array => {
  const ratios = colourRatios(fit.ball, fit.lawn, scene.lawn);
  const clutter = lnClutterDensity(ratios[0]!);
  const doubts = placeDoubts(scene.things, scene.court, fit.x, fit.y, place);
  return lnBallDensities(ratios, radius).map(
    (ball, c) => BEFORE + round + size + ground + ball - clutter + doubts[c]!,
  );
};

/** The largest of a judged ball's ln odds. */
export const bestOdds = ({ lnOdds }: JudgedBall): number => Math.max(...lnOdds);

import type { Camera } from '../../camera/types.ts';
import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import { type Court, STANDARD_COURT } from '../../lawn/court.ts';
import type { ImagePoint } from '../../units/points.ts';
import type { BallSighting, Raster } from '../types.ts';
import { colourChances } from './assign-colours.ts';
import { viewBallAt } from './ball-view.ts';
import { makeWorkspace } from './fit-workspace.ts';
import { bestOdds, type JudgedBall, judgeBall, type Scene } from './judge-ball.ts';
import { lawnColour } from './lawn-colour.ts';
import { ANY_BLUR } from './picture-blur.ts';
import { lawnSpans } from './search-scale.ts';
import { sightingOf } from './sighting-of.ts';

/** Starts about the tapped place, in radii: a finger misses by about a radius of a small ball. */
const STARTS = [
  [0, 0],
  [0.7, 0],
  [-0.7, 0],
  [0, 0.7],
  [0, -0.7],
] as const;
const STEPS = 12;
/** ln odds below which no ball's outline is there, whatever the finger says. */
const LEAST_ODDS = -5.5;
/** Chance that the person who taps means a ball of the given colour there. */
const MEANT = 0.9;
const MEANT_OTHERWISE = 0.3;

/**
 * The ball whose outline is nearest to `near` (px), where a person tapped or placed one: its centre, and either the given `colour` with the chance that
 * it is right, or the likeliest one. Null where the camera sees no lawn or nothing there has a ball's outline; the caller then keeps the person's
 * own place with a hand's uncertainty. Hoops, peg and flags are not doubted here: the person sees them.
 */
export const measureBall = (
  raster: Raster,
  camera: Camera,
  near: ImagePoint,
  colour?: BallColour,
  court: Court = STANDARD_COURT,
): BallSighting | null => {
  const spans = lawnSpans(camera, court);
  const view = viewBallAt(camera, near);
  if (spans === null || view === null) return null;
  const scene: Scene = {
    raster,
    camera,
    court,
    things: [],
    lawn: lawnColour(raster, spans),
    blur: ANY_BLUR,
    daylight: null,
    space: makeWorkspace(),
  };
  const fitted = STARTS.map(([x, y]) =>
    judgeBall(scene, { ...view, x: view.x + x * view.radius, y: view.y + y * view.radius }, null, STEPS),
  ).filter((judged) => judged !== null);
  const best = fitted.reduce<JudgedBall | null>(
    (found, judged) => (found === null || bestOdds(judged) > bestOdds(found) ? judged : found),
    null,
  );
  return best === null || bestOdds(best) < LEAST_ODDS ? null : named(best, colour);
};

/** The sighting under the given colour, or under the likeliest. */
const named = (ball: JudgedBall, colour: BallColour | undefined): BallSighting => {
  const chances = colourChances(
    ball.lnOdds,
    BALL_COLOURS.length,
    BALL_COLOURS.map((each) => (colour === undefined || each === colour ? MEANT : MEANT_OTHERWISE)),
  );
  const likeliest = BALL_COLOURS[chances.indexOf(Math.max(...chances))]!;
  const chosen = colour ?? likeliest;
  return sightingOf(ball, chosen, chances[BALL_COLOURS.indexOf(chosen)]!, []);
};

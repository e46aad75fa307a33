import { BALL_DIAMETER } from '../../lawn/ball.ts';
import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import { isAttached } from './attachment.ts';
import { colourError } from './colour-model.ts';
import { coveredBy } from './covering.ts';
import { bestOdds, type JudgedBall, type Scene } from './judge-ball.ts';
import { levelsAround } from './lawn-light.ts';
import type { CellNoise } from './noise-model.ts';
import { COLOUR_BLOCK, offLawnColour } from './off-lawn.ts';
import { shadowShare } from './peel.ts';
import { poleAbove } from './pole-above.ts';
import { bodyShare, goesOn, legShare } from './surroundings.ts';

/** Share of a disc in a neighbour's shadow from which it is doubted, and the ln odds that a dark thing then loses: it is the shadow. */
const IN_SHADOW = 0.25;
const SHADOW_DOUBT = 6;
/** Contrast to the lawn in whatever light, in standard deviations of a cell, from which a thing has a colour of its own and is no shadow. */
const OWN_COLOUR = 3;
/** Step of brightness from lawn to ball, as a share of the lawn's, below which a thing shows by colour alone, and the ln odds that it loses where a neighbour's colour may have bled. */
const NO_BRIGHTNESS = 0.1;
const BLED_DOUBT = 4;
/** Nearer than this two balls may well touch, metres. */
const TOUCHING = 1.4 * BALL_DIAMETER;

/** `ball` with less odds where it is dark and lies where a neighbour casts its shadow, or has no brightness of its own and lies where a neighbour's colour may have bled. */
export const doubtTrace = (ball: JudgedBall, others: readonly JudgedBall[]): JudgedBall => {
  const { fit, view, lnOdds } = ball;
  const step = fit.ball[0]! - fit.lawn[0]!;
  const shadow =
    step < 0 &&
    offLawnColour([fit.ball[0]!, fit.ball[1]!, fit.ball[2]!], fit.lawn, fit.noise) < OWN_COLOUR &&
    others.some((other) => shadowShare(other, fit.x, fit.y, view.radius) > IN_SHADOW);
  const bled =
    Math.abs(step) < NO_BRIGHTNESS * fit.lawn[0]! &&
    others.some(
      (other) =>
        Math.hypot(other.fit.x - fit.x, other.fit.y - fit.y) < COLOUR_BLOCK + view.radius &&
        Math.hypot(other.place.x - ball.place.x, other.place.y - ball.place.y) > TOUCHING,
    );
  const doubt = (shadow ? SHADOW_DOUBT : 0) + (bled ? BLED_DOUBT : 0);
  return doubt === 0 ? ball : { ...ball, lnOdds: lnOdds.map((odds) => odds - doubt) };
};

/** Share of heights from which a pole stands on a place, and the ln odds that are lost: a mallet's head, a person's foot, a flag's or a hoop's foot. */
const POLE_FROM = 0.55;
const POLE_DOUBT = 4;
/** The same for a broad thing under a place, such as the person below a hat. */
const BODY_FROM = 0.75;
const BODY_DOUBT = 6;
/**
 * Share of the rows above a place from which a person stands there, shares of the outline that must be seen and of the disc that must be clear (a ball behind a leg shows less of itself), and the ln odds that the
 * colours of shoes, trousers and skin then lose, and are left with at most: it may be a shoe or a hand, which can be as round as a ball.
 */
const LEG_FROM = 0.85;
const LIMB_SEEN = 0.5;
const LIMB_CLEAR = 0.7;
const LIMB_DOUBT = 6;
const LIMB_MOST = -2;
const LIMBS: readonly BallColour[] = ['blue', 'black', 'brown', 'white', 'pink'];
const hasLimbColour = (colour: number): boolean => LIMBS.includes(BALL_COLOURS[colour]!);
/**
 * ln odds that all colours lose where the place hangs together with something much larger, and more with each further ln odds of roundness: hats, heads and hands are round. Less
 * where something upright stands before the place: a ball behind a leg hangs together with it.
 */
const ATTACHED_DOUBT = 4;
const ATTACHED_ROUND = 0.15;
const ATTACHED_FROM = 5;
const COVERED_DOUBT = 0.5;
/** The same for a thing that goes on beside the outline. */
const LONG_DOUBT = 4;

/** ln odds that `ball` loses for hanging together with something large. */
const attachedDoubt = (scene: Scene, ball: JudgedBall, quiet: CellNoise): number => {
  if (!isAttached(scene.raster, ball, quiet, scene.things)) return 0;
  const { round, size } = ball.evidence;
  const open = ATTACHED_DOUBT + ATTACHED_ROUND * Math.max(0, round + size - ATTACHED_FROM);
  const covered = coveredBy(ball.clear);
  return covered * COVERED_DOUBT + (1 - covered) * open;
};

/** Takes from `odds` what a limb that stands there takes. What looks most like a limb is no more likely a ball of another colour. */
const doubtLimb = (odds: Float64Array): Float64Array => {
  const likeLimb = hasLimbColour(odds.indexOf(Math.max(...odds)));
  return odds.map((each, c) => {
    if (hasLimbColour(c)) return Math.min(each - LIMB_DOUBT, LIMB_MOST);
    return likeLimb ? each - LIMB_DOUBT : each;
  });
};

/** Brightness over that of shade around it within which a dark thing with the lawn's hue may be a piece of that shade, and the ln odds that it then loses. */
const LIKE_SHADE = [0.5, 1.4] as const;
const SHADE_DOUBT = 4;
/** Difference of its colour from that of lawn as dark as it is up to which a thing has the lawn's hue, in what colours err by. */
const LAWN_HUE = 2;
/** Best ln odds from which it is asked: what is less likely is named no ball anyhow. */
const ASKED = -3;

/** Whether `ball` looks like the shade that is seen around it: the shadow of a leaf may be round. */
const looksLikeShade = ({ raster, daylight, lawn }: Scene, ball: JudgedBall): boolean => {
  if (bestOdds(ball) < ASKED) return false;
  const { ball: own, lawn: beside } = ball.fit;
  const luma = own[0]!;
  const dark = luma / beside[0]!;
  const off = Math.hypot(own[1]! - dark * beside[1]!, own[2]! - dark * beside[2]!);
  if (dark > 1 || off > LAWN_HUE * colourError(ball.view.radius)) return false;
  const levels = levelsAround(raster, ball, daylight, lawn);
  if (levels === null) return false;
  const ratio = luma / levels.shade;
  return ratio > LIKE_SHADE[0] && ratio < LIKE_SHADE[1];
};

/** `ball` with less odds where something stands up from its place, something broad hangs down from it, or it belongs to something large. */
export const doubtStanding = (scene: Scene, ball: JudgedBall, noise: CellNoise): JudgedBall => {
  const { raster } = scene;
  // Where many people stand most candidates' surroundings are legs: a person is told from the lawn by the lawn's own noise.
  const quiet = scene.lawn.noise;
  const standsUp = poleAbove(raster, ball.view, ball.fit, noise, scene.things) > POLE_FROM;
  // What stands before a ball is seen above and below it: what stands up from its place need not be a part of it.
  const pole = standsUp ? (1 - coveredBy(ball.clear)) * POLE_DOUBT : 0;
  const body = bodyShare(raster, ball.view, ball.fit, noise) > BODY_FROM ? BODY_DOUBT : 0;
  const long = goesOn(raster, ball, noise, scene.things) ? LONG_DOUBT : 0;
  const shade = looksLikeShade(scene, ball) ? SHADE_DOUBT : 0;
  const doubt = pole + body + long + shade + attachedDoubt(scene, ball, quiet);
  const odds = ball.lnOdds.map((each) => each - doubt);
  const limb =
    ball.evidence.visible > LIMB_SEEN &&
    ball.clear > LIMB_CLEAR &&
    legShare(raster, ball.view, ball.fit, quiet, scene.things) > LEG_FROM;
  return { ...ball, lnOdds: limb ? doubtLimb(odds) : odds };
};

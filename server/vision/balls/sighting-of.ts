import type { BallColour } from '../../lawn/colours.ts';
import type { BallSighting } from '../types.ts';
import { centreOf } from './fitted-ball.ts';
import { bestOdds, type JudgedBall } from './judge-ball.ts';

/**
 * What no fit's residuals tell, px (one standard deviation on each axis): blades that cover an edge for a stretch, the tone curve and the light. Measured on the rendered pictures.
 */
const UNSEEN = 0.05;

/**
 * Something beside a ball that may be another, but is not taken for one, may hide a part of it or lend it its colour: how near it must be and how far it may then
 * draw the fit (one standard deviation), in radii, and from which ln odds it counts. On the safe side: with this, ten such balls of 63 rendered
 * pictures err by 0.8 of what is stated.
 */
const BESIDE = 2.5;
const DRAWN = 0.1;
const MAYBE = -5;

/** How far what may be another ball beside it may draw `ball`'s fit, px. */
const drawnBy = ({ fit, view }: JudgedBall, unnamed: readonly JudgedBall[]): number => {
  const reach = BESIDE * view.radius;
  const near = unnamed.some(
    (other) => bestOdds(other) > MAYBE && Math.hypot(other.fit.x - fit.x, other.fit.y - fit.y) < reach,
  );
  return near ? DRAWN * view.radius : 0;
};

/**
 * The picture's own choice of a ball's radius may miss the predicted one by so much, px, without harm, and beyond that the place errs by as much as the radius does: the fit
 * then leaves out a part of the ball (its lit side on lawn as bright) or takes in another's. Of a ball of which a few columns are seen the picture hardly tells the radius: a miss within its own
 * deviation tells nothing. 28 such balls in 63 rendered pictures err by 0.87 of what is stated.
 */
const RADIUS_FREE = 0.3;
const PLACE_BY_RADIUS = 1;

/** How far a fit of another size than a ball has there may miss its place, px on each axis. */
const misplacedBy = ({ fit }: JudgedBall): number => {
  const offset = Math.abs(fit.radiusOffset);
  if (offset <= RADIUS_FREE) return 0;
  const told = Math.max(0, 1 - (fit.radiusSd / offset) ** 2);
  return PLACE_BY_RADIUS * told * (offset - RADIUS_FREE);
};

/**
 * Where a ball is brighter than a picture can be, its blurred edge is clipped too and stands too far out on that side, by about this times the clipped share of the ball, px. 27 sunlit
 * balls brighter than 1.6 times the lawn erred by 0.15 px; with 0.8 they stated 0.27.
 */
const BLOOM = 0.4;

/**
 * Light misleads three kinds of ball by more than their fits know, px (one standard deviation), all of it down the picture: one much darker than the lawn that stands in the sun, whose foot and shadow
 * are one dark spot; a small dark one, whose foot is dark in any light (by so much for each px that its radius lacks); and one nearly as bright as the lawn under an even sky, of which luma shows the
 * dark lower half alone. With this, 15, 30 and 12 such balls of 63 rendered pictures err by 1.07, 1.13 and 0.86 of what is stated; without it, six of the second kind below 2.6 px in the sun by 2 to 3.6 down the picture.
 */
const DARK_IN_SUN = { below: 0.3, more: 0.1 } as const;
const DARK_SMALL = { below: 0.4, radius: 3.2, more: 0.35 } as const;
const LIKE_LAWN = { from: 0.65, to: 0.95, more: 0.3 } as const;

/** How far light may mislead the fit of `ball` down the picture, px. */
const misledBy = ({ fit, sun, view }: JudgedBall): number => {
  const brightness = fit.ball[0]! / Math.max(1, fit.lawn[0]!);
  const inSun = sun !== null && brightness < DARK_IN_SUN.below ? DARK_IN_SUN.more : 0;
  const small =
    brightness < DARK_SMALL.below ? DARK_SMALL.more * Math.max(0, DARK_SMALL.radius - view.radius) : 0;
  const like = sun === null && brightness > LIKE_LAWN.from && brightness < LIKE_LAWN.to ? LIKE_LAWN.more : 0;
  return Math.hypot(inSun, small, like);
};

/**
 * Of a ball behind another only a crescent is seen, and what the fit of the front ball left over lies right beside it: by how much that may draw the fit along the line from the front ball, radii (one
 * standard deviation). In the sun more, which makes rims and shadows that no model of one ball has: four such balls of 3 to 4 px erred by 0.14 to 0.28 radii along it there and by 0.06 across, three
 * without a sun by 0.1. The ball before it lacks a part of its edge (on each axis; seven erred by 0.05).
 */
const BEHIND = { sunny: 0.2, even: 0.06 } as const;
const BEFORE = 0.03;

/** How far the ball before it may draw the fit of `ball`, px, away from that or towards it. */
const drawnAlong = ({ behind, view, fit }: JudgedBall): { readonly x: number; readonly y: number } => {
  if (!behind) return { x: 0, y: 0 };
  const by = view.radius * (behind.sunny ? BEHIND.sunny : BEHIND.even);
  const [dx, dy] = [fit.x - behind.x, fit.y - behind.y];
  const apart = Math.hypot(dx, dy);
  // In line with the camera the one behind lies farther up.
  return apart < 1e-6 ? { x: 0, y: by } : { x: (by * dx) / apart, y: (by * dy) / apart };
};

/**
 * What hides a part of a ball lends it its colour and its shade: by how much that may draw the fit, radii for all of the ball (one standard deviation on each axis). With this, 26 balls
 * in 63 rendered pictures of which something else than a ball hides a part err by 0.96 of what is stated; by their fits alone six in scenes drawn by chance erred by 1.35.
 */
const LENT = 0.1;

/** How far what stands before or behind it may draw the fit of `ball` on each axis, px. */
const crowdedBy = ({ behind, hides, view, evidence }: JudgedBall): number => {
  const covered = behind ? 0 : LENT * (1 - evidence.visible);
  return view.radius * Math.hypot(hides ? BEFORE : 0, covered);
};

/**
 * A ball that explains the picture badly may be two, or half of something else: from which mean misfit of a cell (a perfect model gives about 1), and how much its place may then err, radii for each
 * misfit above. Of 266 balls in 51 rendered pictures 14 have one above 1.75; they erred by 0.24 radii, those below by 0.1. In ray-traced pairs of which one was not found the other had 2.4 to 3.7 and
 * erred by 0.4 to 0.5.
 */
const EXPLAINED = 1.6;
const PLACE_BY_MISFIT = 0.3;
/**
 * The same of a ball on which someone's shadow ends: its lit half may look like all of it. Of 859 such ray-traced balls 20 missed by more than 2.33 of what was stated on an axis, 9 by more than 3, up to 5, half of them named
 * surely enough for a firm call; with this, one of 861 by 2.36.
 */
const EXPLAINED_HALF_LIT = 1.2;
/** Px of radius from which two balls are never one blot. */
const LARGE = 6;

/** How far a badly explained fit may miss its ball's place, px. */
const unexplainedBy = ({ fit, view, halfLit }: JudgedBall): number =>
  PLACE_BY_MISFIT *
  Math.min(LARGE, view.radius) *
  Math.max(0, fit.misfit - (halfLit ? EXPLAINED_HALF_LIT : EXPLAINED));

/**
 * ln odds of an outline's roundness and size below which a ball rests on its colour, which clothes have too, and the most that its name is then worth: too little for a firm call. Of 2,250 balls
 * named with more than 0.9 in the rendered pictures and copies of them, 5 of the 78 with an outline below 6 were something else, and 4 of the others; of 550 named with more than 0.97 when balls behind legs were
 * looked for, one, whose outline was between 6 and 7.
 */
const PLAIN_OUTLINE = 7;
const BY_COLOUR = 0.89;

/** The sighting of `ball` as `colour`, which is right with chance `confidence`, where the candidates `unnamed` are taken for no ball. */
export const sightingOf = (
  ball: JudgedBall,
  colour: BallColour,
  confidence: number,
  unnamed: readonly JudgedBall[],
): BallSighting => {
  const { fit, evidence, view } = ball;
  const even =
    UNSEEN ** 2 +
    drawnBy(ball, unnamed) ** 2 +
    misplacedBy(ball) ** 2 +
    crowdedBy(ball) ** 2 +
    unexplainedBy(ball) ** 2 +
    (BLOOM * evidence.clipped) ** 2;
  const down = misledBy(ball) / Math.hypot(view.ax, view.ay);
  const [mx, my] = [down * view.ax, down * view.ay];
  const along = drawnAlong(ball);
  return {
    colour,
    image: centreOf(ball),
    covariance: {
      xx: fit.xx + even + mx * mx + along.x * along.x,
      xy: fit.xy + mx * my + along.x * along.y,
      yy: fit.yy + even + my * my + along.y * along.y,
    },
    confidence: Math.min(evidence.round + evidence.size < PLAIN_OUTLINE ? BY_COLOUR : 1, confidence),
    visible: evidence.visible,
  };
};

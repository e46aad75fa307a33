import type { BallColour } from '../../lawn/colours.ts';
import { imagePoint } from '../../units/points.ts';
import type { BallSighting } from '../types.ts';
import { bestOdds, type JudgedBall } from './judge-ball.ts';

/**
 * What no fit's residuals tell, px (one standard deviation, across and down the picture): blades that cover an edge for a stretch, JPEG blocks, the tone
 * curve and the light. Larger downwards, where grass, the shadow under the ball and its dark side meet.
 */
const UNSEEN_ACROSS = 0.08;
const UNSEEN_DOWN = 0.08;

/**
 * Something beside a ball that may be another, but is not taken for one, may hide a part of it or lend it its colour: how near it must be and how far it may then
 * draw the fit (one standard deviation), in radii, and from which ln odds it counts.
 */
const BESIDE = 2.5;
const DRAWN = 0.35;
const MAYBE = -5;

/** How far what may be another ball beside it may draw `ball`'s fit, px. */
const drawnBy = ({ fit, view }: JudgedBall, unnamed: readonly JudgedBall[]): number => {
  const reach = BESIDE * view.radius;
  const near = unnamed.some(
    (other) => bestOdds(other) > MAYBE && Math.hypot(other.fit.x - fit.x, other.fit.y - fit.y) < reach,
  );
  return near ? DRAWN * view.radius : 0;
};

/** The sighting of `ball` as `colour`, which is right with chance `confidence`, where the candidates `unnamed` are taken for no ball. */
export const sightingOf = (
  ball: JudgedBall,
  colour: BallColour,
  confidence: number,
  unnamed: readonly JudgedBall[],
): BallSighting => {
  const { view, fit, evidence } = ball;
  const drawn = drawnBy(ball, unnamed) ** 2;
  return {
    colour,
    image: imagePoint(fit.x + view.centreDx, fit.y + view.centreDy),
    covariance: {
      xx: fit.xx + UNSEEN_ACROSS ** 2 + drawn,
      xy: fit.xy,
      yy: fit.yy + UNSEEN_DOWN ** 2 + drawn,
    },
    confidence: Math.min(1, confidence),
    visible: evidence.visible,
  };
};

import type { BallColour } from '../../lawn/colours.ts';
import { imagePoint } from '../../units/points.ts';
import type { BallSighting } from '../types.ts';
import type { JudgedBall } from './judge-ball.ts';

/**
 * What no fit's residuals tell, px (one standard deviation, across and down the picture): blades that cover an edge for a stretch, JPEG blocks, the tone
 * curve and the light. Larger downwards, where grass, the shadow under the ball and its dark side meet.
 */
const UNSEEN_ACROSS = 0.12;
const UNSEEN_DOWN = 0.16;

/** The sighting of `ball` as `colour`, which is right with chance `confidence`. */
export const sightingOf = (
  { view, fit, evidence }: JudgedBall,
  colour: BallColour,
  confidence: number,
): BallSighting => ({
  colour,
  image: imagePoint(fit.x + view.centreDx, fit.y + view.centreDy),
  covariance: { xx: fit.xx + UNSEEN_ACROSS ** 2, xy: fit.xy, yy: fit.yy + UNSEEN_DOWN ** 2 },
  confidence: Math.min(1, confidence),
  visible: evidence.visible,
});

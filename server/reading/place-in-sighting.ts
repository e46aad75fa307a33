import { propagate2 } from '../camera/covariance2.ts';
import { locateBall, type PointDerivatives, pointDerivatives } from '../camera/locate-ball.ts';
import type { SolvedCamera } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import type { FoundBall } from '../contract/reading.ts';
import type { Sighting } from '../contract/sight.ts';
import { BALL_RADIUS } from '../lawn/ball.ts';
import type { HalfwayLine } from '../lawn/halfway-lines.ts';
import { metres } from '../units/numbers.ts';
import { imagePoint } from '../units/points.ts';
import type { BallSighting } from '../vision/types.ts';
import { callOne } from './call-balls.ts';
import { statedBudget, statedSd } from './place-ball.ts';
import { contributionsOf } from './sight-contributions.ts';

/** One ball of a sighting as the answer states it. */
export type SightedBall = Sighting['balls'][number];

/** A ball of a sighting in the form in which every ball is called. */
const asFound = (
  seen: BallSighting,
  origin: 'found' | 'placed',
  at: Pick<FoundBall, 'x' | 'y' | 'sdX' | 'sdY' | 'correlation'>,
): FoundBall => ({
  colour: seen.colour,
  ...at,
  image: [seen.image.x, seen.image.y],
  confidence: seen.confidence,
  visible: seen.visible,
  origin,
});

/** What the stance and the balls' size leave of a position, each a standard deviation of the two coordinates, metres. */
const knownOf = (
  at: PointDerivatives,
  { stance, balls }: NonNullable<SolvedCamera['known']>,
): NonNullable<SightedBall['known']> => {
  const spread = (part: Float64Array) => {
    const { sdX, sdY } = statedSd(propagate2(at.xByCamera, at.yByCamera, part));
    return { sdX, sdY };
  };
  return { stance: spread(stance), balls: spread(balls) };
};

/**
 * Places one seen ball with the camera of a sighting, and calls it: `beyond` against `line`, metres, with its budget and what height, offset, roll and lens
 * contribute. Nothing when the line of sight does not meet the lawn. A ball placed by hand whose colour was not said either gets no firm call.
 */
export const placeInSighting = (
  solved: SolvedCamera,
  line: HalfwayLine,
  marks: Marks,
  seen: BallSighting,
  origin: 'found' | 'placed',
): SightedBall[] => {
  const unevenness = metres(marks.lawn.unevenness);
  const located = locateBall(solved, seen.image, seen.covariance, { unevenness });
  if (located === null) return [];
  const { point, covariance, budget } = located;
  const at = pointDerivatives(solved.camera, seen.image, BALL_RADIUS);
  const { colour: _, ...found } = asFound(seen, origin, { x: point.x, y: point.y, ...statedSd(covariance) });
  const [px, py] = solved.camera.position;
  return [
    {
      // How sure the colour is counts here for balls placed by hand too.
      ...callOne({ colour: seen.colour, ...found, origin: 'found' }, line, marks.certainty),
      ...found,
      distance: line.axis === 'y' ? Math.abs(point.x - px) : Math.abs(point.y - py),
      imageCovariance: [seen.covariance.xx, seen.covariance.xy, seen.covariance.yy],
      budget: statedBudget(budget),
      ...(at && solved.known && { known: knownOf(at, solved.known) }),
      ...(at && { contributions: contributionsOf(solved, seen.image, at, line) }),
    },
  ];
};

/** A ball of an answer as it was seen, to be placed again. Null when the answer holds no covariance of its image. */
export const seenAgain = (ball: SightedBall): BallSighting | null => {
  const { imageCovariance } = ball;
  if (!imageCovariance) return null;
  const [xx, xy, yy] = imageCovariance;
  return {
    colour: ball.colour,
    image: imagePoint(...ball.image),
    covariance: { xx, xy, yy },
    confidence: ball.confidence ?? 1,
    visible: ball.visible ?? 1,
  };
};

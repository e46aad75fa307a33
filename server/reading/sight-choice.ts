import { projectPoint } from '../camera/camera-model.ts';
import type { Camera } from '../camera/types.ts';
import type { BallColour } from '../lawn/colours.ts';
import type { Court } from '../lawn/court.ts';
import { PEG_DIAMETER, PEG_HEIGHT, pegPlace } from '../lawn/hoops.ts';
import { type ImagePoint, imagePoint, lawnPoint3 } from '../units/points.ts';
import type { BallSighting } from '../vision/types.ts';
import { PLACED_SD } from './re-evaluate.ts';

/** The peg is taken to be this much wider and longer than it is, as a share of its width: it may stand a little out of its place. */
const MARGIN = 1.5;

/**
 * Whether the middle of what was taken for a ball lies on the peg's image: its bands have the balls' colours. A ball that lies right behind the peg is given
 * up with it; half hidden as it is, it could not be called.
 */
export const onPeg = (camera: Camera, court: Court, image: ImagePoint): boolean => {
  const { x, y } = pegPlace(court);
  const foot = projectPoint(camera, lawnPoint3(x, y, 0));
  const top = projectPoint(camera, lawnPoint3(x, y, PEG_HEIGHT));
  if (!foot || !top) return false;
  const length = Math.hypot(top.x - foot.x, top.y - foot.y);
  if (length === 0) return false;
  const [ux, uy] = [(top.x - foot.x) / length, (top.y - foot.y) / length];
  const along = (image.x - foot.x) * ux + (image.y - foot.y) * uy;
  const across = Math.abs((image.x - foot.x) * uy - (image.y - foot.y) * ux);
  const width = (length * PEG_DIAMETER) / PEG_HEIGHT;
  return along > 0 && along < length && across < MARGIN * width;
};

/** A ball of a sighting and how its place was obtained; found unless stated. */
export type ChosenBall = BallSighting & { readonly origin?: 'found' | 'placed' | undefined };

/** A finger meant the ball when it is so near to its middle, px. */
const FINGER = 40;

/**
 * The ball that was tapped: the one found nearest to the finger, or else one placed where the finger is, with a hand's uncertainty. Its colour is that which was
 * asked for when there is but one; of several it cannot be told, and the ball gets no firm call.
 */
export const tapped = (
  seen: readonly ChosenBall[],
  [x, y]: readonly [number, number],
  asked: readonly BallColour[],
): ChosenBall[] => {
  const distance = ({ image }: BallSighting): number => Math.hypot(image.x - x, image.y - y);
  const nearest = [...seen].sort((a, b) => distance(a) - distance(b))[0];
  if (nearest && distance(nearest) <= FINGER) return [nearest];
  return [
    {
      colour: asked[0]!,
      image: imagePoint(x, y),
      covariance: { xx: PLACED_SD ** 2, xy: 0, yy: PLACED_SD ** 2 },
      confidence: asked.length === 1 ? 1 : 1 / asked.length,
      visible: 1,
      origin: 'placed',
    },
  ];
};

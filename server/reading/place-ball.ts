import { positionBound } from '../camera/bound.ts';
import { locateBall } from '../camera/locate-ball.ts';
import type { Marks } from '../contract/marks.ts';
import type { Budget, FoundBall } from '../contract/reading.ts';
import { metres } from '../units/numbers.ts';
import { type Covariance2, lawnPoint } from '../units/points.ts';
import type { BallSighting } from '../vision/types.ts';
import type { PhotoPose } from './pose-of-photo.ts';

const root = (variance: number): number => Math.sqrt(Math.max(0, variance));

/** A covariance as the answer states it. */
export const statedSd = ({ xx, xy, yy }: Covariance2): { sdX: number; sdY: number; correlation: number } => {
  const sdX = root(xx);
  const sdY = root(yy);
  return { sdX, sdY, correlation: sdX > 0 && sdY > 0 ? xy / (sdX * sdY) : 0 };
};

/** Each source's share of a position's uncertainty, as standard deviations of the two coordinates. */
export const statedBudget = (budget: Readonly<Record<string, Covariance2>>): Budget =>
  Object.fromEntries(
    Object.entries(budget).map(([source, part]) => [source, { sdX: root(part.xx), sdY: root(part.yy) }]),
  ) as Budget;

/** Places one seen ball on the lawn, with its uncertainty, its budget and the least error this picture allows; nothing when the line of sight does not meet the lawn. */
export const placeBall = (
  pose: PhotoPose,
  marks: Marks,
  seen: BallSighting,
  origin: 'found' | 'placed',
): FoundBall[] => {
  // What the traced lines show of this lawn, else what the club says of it.
  const unevenness = metres(pose.solved.unevenness ?? marks.lawn.unevenness);
  const located = locateBall(pose.solved, seen.image, seen.covariance, { unevenness });
  if (located === null) return [];
  const { point, covariance, budget } = located;
  const bound = positionBound(pose.solved.camera, {
    points: pose.points.map(({ name }) => name),
    court: pose.court,
    sides: pose.sides.filter(({ share }) => share > 0).map(({ side }) => side),
    ball: lawnPoint(point.x, point.y),
    unevenness,
  });
  return [
    {
      colour: seen.colour,
      x: point.x,
      y: point.y,
      ...statedSd(covariance),
      image: [seen.image.x, seen.image.y],
      imageCovariance: [seen.covariance.xx, seen.covariance.xy, seen.covariance.yy],
      confidence: seen.confidence,
      visible: seen.visible,
      origin,
      budget: statedBudget(budget),
      ...(bound && { bound: { sdX: bound.sdX, sdY: bound.sdY } }),
    },
  ];
};

import type { Camera } from '../../camera/types.ts';
import { type ImagePoint, imagePoint } from '../../units/points.ts';
import { type BallView, viewBallAt } from './ball-view.ts';
import type { OutlineFit } from './outline-shape.ts';
import type { Sun } from './shading.ts';

/** A ball whose outline is fitted, as it lies over a neighbour's patch. */
export type FittedBall = {
  readonly view: BallView;
  readonly fit: OutlineFit;
  readonly sun: Sun | null;
  /** Of one that was found behind another: the middle of that one's outline, px, and whether the picture has a sun. */
  readonly behind?: { readonly x: number; readonly y: number; readonly sunny: boolean };
};

/** Image of the ball's centre by its fit. */
export const centreOf = ({ view, fit }: Pick<FittedBall, 'view' | 'fit'>): ImagePoint =>
  imagePoint(fit.x + view.centreDx, fit.y + view.centreDy);

/** The view of a ball where its fit has it; null when no place on the lawn is seen there. */
export const viewAgain = (camera: Camera, ball: FittedBall): BallView | null =>
  viewBallAt(camera, centreOf(ball));

/** Distance between the middles of two fitted outlines, px. */
export const apart = (a: FittedBall, b: FittedBall): number =>
  Math.hypot(a.fit.x - b.fit.x, a.fit.y - b.fit.y);

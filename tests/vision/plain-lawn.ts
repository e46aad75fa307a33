import { viewBall } from '../../server/vision/balls/ball-view.ts';
import type { LawnColour } from '../../server/vision/balls/lawn-colour.ts';
import { toYcc } from '../../server/vision/ycc.ts';
import { lookAt } from './balls-scene.ts';

/** Red, green, blue, 0 to 255. */
export type Rgb = readonly [number, number, number];

/** Lawn of one colour, without grain, and what is known of it. */
export const LAWN: Rgb = [90, 140, 60];
export const LAWN_COLOUR: LawnColour = {
  rgb: LAWN,
  ycc: toYcc(...LAWN),
  redness: 0,
  blueness: 0,
  rednessSd: 1,
  bluenessSd: 1,
  noise: { luma: 3, colour: 2 },
};

/** A picture of 120 × 90 px in whose middle a ball of 3.4 px in radius lies. */
export const CAMERA = lookAt([11.3, 2, 6], [11.3, 14], 1000, 120, 90);
export const VIEW = viewBall(CAMERA, 11.3, 14)!;

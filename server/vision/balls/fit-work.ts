import type { Camera } from '../../camera/types.ts';
import type { Court } from '../../lawn/court.ts';
import type { Raster } from '../types.ts';
import { isSure, sceneOf } from './first-look.ts';
import { explainBlot } from './hidden-behind.ts';
import type { JudgedBall, Scene } from './judge-ball.ts';
import type { LawnColour } from './lawn-colour.ts';
import { weighMinima } from './minima.ts';
import type { PictureBlur } from './picture-blur.ts';
import { nearTo, refine } from './refine-ball.ts';
import type { Sun } from './shading.ts';

/** What is done with each ball: fitted again in the light of the others; the same, and where it is sure then compared with two balls in its place; or placed at the mean of its fit's minima. */
type Kind = 'refine' | 'explain' | 'weigh';

/** Fits of balls of one picture, none of which needs another's: plain data, so that they can be shared between threads. */
export type FitWork = {
  readonly kind: Kind;
  readonly camera: Camera;
  readonly court: Court;
  readonly lawn: LawnColour;
  readonly blur: PictureBlur;
  readonly sun: Sun | null;
  readonly balls: readonly JudgedBall[];
  /** The balls that may hide them. */
  readonly around: readonly JudgedBall[];
};

/** What was made of each ball. */
type Fits = readonly (readonly JudgedBall[])[];

/** Has another thread, which has the picture, do some work; what it returns waits for the end, and is null when the work was not done. */
export type ShareFits = (work: FitWork) => () => Fits | null;

const fitOne = (scene: Scene, { kind, sun, around }: FitWork, ball: JudgedBall): JudgedBall[] => {
  if (kind === 'weigh') {
    const near = nearTo(around, ball.fit.x, ball.fit.y, ball.view.radius).filter((other) => other !== ball);
    return [weighMinima({ ...scene, blocks: scene.raster.blocks }, ball, sun, near)];
  }
  const refined = refine(scene, ball, sun, around);
  if (kind === 'refine' || !isSure(refined)) return [refined];
  const others = around.filter((other) => other !== ball);
  return explainBlot(scene, refined, isSure(ball) ? ball : refined, sun, others);
};

const fitEach = (scene: Scene, work: FitWork): Fits => work.balls.map((ball) => fitOne(scene, work, ball));

/** Does `work` on the picture that it is about. */
export const doFits = (raster: Raster, work: FitWork): Fits =>
  fitEach(sceneOf(raster, work.camera, work.court, work.lawn, work.blur), work);

/** Does the fits of `kind` to `balls`: every other one by `share`, when there is such a thing. The answer is the same. */
export const fitTogether = (
  scene: Scene,
  share: ShareFits | null,
  work: Pick<FitWork, 'kind' | 'sun' | 'balls' | 'around'>,
): JudgedBall[] => {
  const { camera, court, lawn, blur } = scene;
  const whole: FitWork = { camera, court, lawn, blur, ...work };
  if (share === null || work.balls.length < 2) return fitEach(scene, whole).flat();
  const half = (odd: 0 | 1): FitWork => ({ ...whole, balls: work.balls.filter((_, i) => i % 2 === odd) });
  const wait = share(half(1));
  const own = fitEach(scene, half(0));
  const other = wait() ?? fitEach(scene, half(1));
  return work.balls.flatMap((_, i) => (i % 2 === 0 ? own : other)[i >> 1]!);
};

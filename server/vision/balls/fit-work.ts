import type { Camera } from '../../camera/types.ts';
import type { Court } from '../../lawn/court.ts';
import type { Raster } from '../types.ts';
import { FIRST_STEPS, isSure, isWorthRefining, sceneOf } from './first-look.ts';
import { explainBlot } from './hidden-behind.ts';
import { bestOdds, type JudgedBall, judgeBall, type Scene } from './judge-ball.ts';
import type { LawnColour } from './lawn-colour.ts';
import { isHalfLit } from './lawn-light.ts';
import { weighMinima } from './minima.ts';
import { touchingViews } from './neighbours.ts';
import type { PictureBlur } from './picture-blur.ts';
import { nearTo, refine } from './refine-ball.ts';
import type { Sun } from './shading.ts';

/**
 * What is done with each ball: fitted again in the light of the others; the same, and where it may be one then compared with two balls in its place; looked for others right beside it; or placed at the mean
 * of its fit's minima.
 */
type Kind = 'refine' | 'explain' | 'beside' | 'weigh';

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

/** ln odds from which what is fitted as one ball may be two: a ball that another spoils is seldom sure, and both are lost with it. */
const MAY_BE_TWO = -3;

/** What was made of the ball of index `index`. */
export type MadeOf = { readonly index: number; readonly made: readonly JudgedBall[] };

/** Work that another thread shares: whoever is free takes the ball of index `next()`, until there are no more; `rest` waits for what the other thread took. */
export type SharedFits = { readonly next: () => number; readonly rest: () => readonly MadeOf[] };

/** Has another thread, which has the picture, share some work; null when there is none to share it. */
export type ShareFits = (work: FitWork) => SharedFits | null;

/** The balls that touch `ball` and did not stand out on their own, fitted in the light of `around`. */
const besideOf = (scene: Scene, { sun, around }: FitWork, ball: JudgedBall): JudgedBall[] =>
  touchingViews(scene.raster, scene.camera, ball, around)
    .map((view) => judgeBall(scene, view, sun, FIRST_STEPS, nearTo(around, view.x, view.y, view.radius)))
    .filter((judged) => judged !== null)
    .filter(isWorthRefining)
    .map((judged) => refine(scene, judged, sun, around));

const fitOne = (scene: Scene, work: FitWork, ball: JudgedBall): JudgedBall[] => {
  const { kind, sun, around } = work;
  if (kind === 'beside') return besideOf(scene, work, ball);
  if (kind === 'weigh') {
    const near = nearTo(around, ball.fit.x, ball.fit.y, ball.view.radius).filter((other) => other !== ball);
    const weighed = weighMinima({ ...scene, blocks: scene.raster.blocks }, ball, sun, near);
    return [isHalfLit(scene.raster, ball, sun, near, scene.lawn) ? { ...weighed, halfLit: true } : weighed];
  }
  const refined = refine(scene, ball, sun, around);
  if (kind === 'refine' || bestOdds(refined) < MAY_BE_TWO) return [refined];
  const others = around.filter((other) => other !== ball);
  return explainBlot(scene, refined, isSure(ball) ? ball : refined, sun, others);
};

const fitTaken = (scene: Scene, work: FitWork, next: () => number): MadeOf[] => {
  const taken: MadeOf[] = [];
  for (let index = next(); index < work.balls.length; index = next())
    taken.push({ index, made: fitOne(scene, work, work.balls[index]!) });
  return taken;
};

/** Does that part of `work` whose indices `next` gives, on the picture that it is about. */
export const doFits = (raster: Raster, work: FitWork, next: () => number): MadeOf[] =>
  fitTaken(sceneOf(raster, work.camera, work.court, work.lawn, work.blur, work.sun), work, next);

/** Does the fits of `kind` to `balls`, with another thread when there is one to share them. The answer is the same. */
export const fitTogether = (
  scene: Scene,
  share: ShareFits | null,
  work: Pick<FitWork, 'kind' | 'sun' | 'balls' | 'around'>,
): JudgedBall[] => {
  const { camera, court, lawn, blur } = scene;
  const whole: FitWork = { camera, court, lawn, blur, ...work };
  const shared = share !== null && work.balls.length > 1 ? share(whole) : null;
  let alone = 0;
  const own = fitTaken(scene, whole, shared?.next ?? (() => alone++));
  const made = new Map([...own, ...(shared?.rest() ?? [])].map((part) => [part.index, part.made]));
  // What a thread took that failed is done here.
  return work.balls.flatMap((ball, index) => made.get(index) ?? fitOne(scene, whole, ball));
};

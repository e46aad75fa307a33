import type { Camera } from '../../camera/types.ts';
import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import type { Court } from '../../lawn/court.ts';
import type { BallSighting, Raster } from '../types.ts';
import { type BallView, viewBallAt } from './ball-view.ts';
import { type NamedCandidate, namedBalls, unnamedBy } from './colour-chances.ts';
import { doubtStanding, doubtTrace } from './doubts.ts';
import {
  distinct,
  FIRST_STEPS,
  type FirstLook,
  firstLook,
  isSure,
  isWorthRefining,
  sceneOf,
  seenFrom,
} from './first-look.ts';
import { bestOdds, fitMerit, type JudgedBall, judgeBall, type Scene } from './judge-ball.ts';
import { weighMinima } from './minima.ts';
import { touchingViews } from './neighbours.ts';
import { typicalNoise } from './noise-model.ts';
import { cutPatch } from './patch.ts';
import { pooledBlur } from './picture-blur.ts';
import type { Sun } from './shading.ts';
import { sightingOf } from './sighting-of.ts';
import { findSun } from './sun-search.ts';

/** What is looked for. */
export type FindOptions = {
  /** Colours whose balls are reported. Balls of other colours are recognized all the same, so that none is taken for one of these. */
  readonly colours: readonly BallColour[];
  /** A first look that was taken from nearly the same camera. */
  readonly look?: FirstLook | null;
};

/** Steps of the fit that counts. */
const LAST_STEPS = 8;
/** A ball stands in the sun with the others unless shade explains it better by so much, ln odds. */
const SHADED = 3;
/** ln odds from which a ball may have another that touches it. */
const LIKELY = 0;
/** What stands out right beside a ball is a ball more often than what stands out anywhere: balls come to rest against each other. ln odds, common practice, no source. */
const TOUCHES = 1.5;
/** Candidates that are assigned colours at most. */
const MOST_ASSIGNED = 20;
/** A ball is reported from this chance on: a false ball harms more than one that a person must add. */
const LEAST_CHANCE = 0.8;
/**
 * The same for one whose outline says little for a ball (ln odds of its roundness and size below this): it rests on its colour alone, which hats and hands may have. Of such a one half must be
 * seen, or it may as well be a piece of clothing.
 */
const FAINT_CHANCE = 0.9;
const FAINT_OUTLINE = 4;
const FAINT_SEEN = 0.5;

/** The sun as the sure balls show it. */
const sunOf = (scene: Scene, balls: readonly JudgedBall[]): Sun | null =>
  findSun(balls.map(({ view, fit }) => ({ patch: cutPatch(scene.raster, view), view, fit })));

/** The balls near enough to (`x`, `y`) px that they or their shadows may show in the patch of a ball of `radius` px there. */
const nearTo = (balls: readonly JudgedBall[], x: number, y: number, radius: number): JudgedBall[] =>
  balls.filter(({ fit }) => Math.hypot(fit.x - x, fit.y - y) < 4 * radius + 6);

/** Starts about a fit that is darker than the lawn and may be the shadow beside the ball, in radii up the picture and aside (towards the sun). */
const ESCAPES = [
  [0.8, 0],
  [0.4, 0.8],
  [1.3, 0.3],
] as const;

/** On which side of the ball of `view` the sun stands: 1 along its side axis, −1 against it. */
const towardsSide = ({ towards: [east, north] }: Sun, { forwardX, forwardY }: BallView): number =>
  Math.sign(north * forwardX - east * forwardY);

/** The fit from `view`, or from a place to which it may have to escape from a shadow. */
const settle = (
  scene: Scene,
  view: BallView,
  sun: Sun | null,
  others: readonly JudgedBall[],
  known: boolean,
): JudgedBall | null => {
  const first = judgeBall(scene, view, sun, LAST_STEPS, others, known);
  if (first !== null && first.fit.ball[0]! > first.fit.lawn[0]!) return first;
  const aside = sun === null ? 0 : towardsSide(sun, view);
  let best = first;
  for (const [up, side] of ESCAPES) {
    const start = {
      ...view,
      x: view.x - up * view.ax + side * aside * view.bx,
      y: view.y - up * view.ay + side * aside * view.by,
    };
    const found = judgeBall(scene, start, sun, FIRST_STEPS, others);
    if (found === null || (best !== null && fitMerit(found) < fitMerit(best) - ESCAPING)) continue;
    const settled = judgeBall(scene, { ...view, x: found.fit.x, y: found.fit.y }, sun, LAST_STEPS, others);
    if (settled !== null && (best === null || fitMerit(settled) > fitMerit(best) + ESCAPED)) best = settled;
  }
  return best;
};
/** ln odds by which another start must explain the picture better. */
const ESCAPED = 0.5;
/** ln odds that a few steps from another start may lack and yet be followed to their end. */
const ESCAPING = 2;

/** `ball` fitted again where it was found, with its neighbours taken off; the better of the fits with and without the sun. */
const refine = (scene: Scene, ball: JudgedBall, sun: Sun | null, sure: readonly JudgedBall[]): JudgedBall => {
  const { fit, view } = ball;
  const moved = viewBallAt(scene.camera, { x: fit.x + view.centreDx, y: fit.y + view.centreDy });
  if (moved === null) return ball;
  const others = nearTo(sure, fit.x, fit.y, view.radius).filter((other) => other !== ball);
  const lit = settle(scene, moved, sun, others, isSure(ball));
  if (sun === null || (lit !== null && fitMerit(lit) + SHADED > fitMerit(ball)))
    return doubtTrace(lit ?? ball, others);
  const shaded = judgeBall(scene, moved, null, LAST_STEPS, others, isSure(ball));
  const best = lit === null || (shaded && fitMerit(shaded) > fitMerit(lit) + SHADED) ? shaded : lit;
  return doubtTrace(best ?? ball, others);
};

/** Balls that touch a sure one and did not stand out on their own. */
const touching = (scene: Scene, sure: readonly JudgedBall[], sun: Sun | null): JudgedBall[] =>
  sure
    .flatMap((ball) => touchingViews(scene.raster, scene.camera, ball, sure))
    .map((view) => judgeBall(scene, view, sun, FIRST_STEPS, nearTo(sure, view.x, view.y, view.radius)))
    .filter((judged) => judged !== null)
    .filter(isWorthRefining);

/** `sure` balls, those fitted again that have a ball of `beside` right beside them: both were one blot before. */
const apartFrom = (
  scene: Scene,
  sure: readonly JudgedBall[],
  beside: readonly JudgedBall[],
  sun: Sun | null,
): JudgedBall[] =>
  sure.map((ball) => {
    const near = beside.some(
      ({ fit }) => Math.hypot(fit.x - ball.fit.x, fit.y - ball.fit.y) < 3 * ball.view.radius,
    );
    return near ? refine(scene, ball, sun, [...sure, ...beside]) : ball;
  });

/** Candidates judged, and in what light. */
type Judged = { readonly scene: Scene; readonly sun: Sun | null; readonly candidates: readonly JudgedBall[] };

const judge = (raster: Raster, camera: Camera, court: Court, look: FirstLook | null): Judged | null => {
  const usable = seenFrom(look, raster, camera, court) ?? firstLook(raster, camera, court);
  if (usable === null) return null;
  const first = usable.balls.filter(isWorthRefining);
  const firstSure = first.filter(isSure);
  const blur = pooledBlur(firstSure.map(({ fit }) => fit));
  const scene = sceneOf(raster, camera, court, usable.lawn, blur);
  const sun = sunOf(scene, firstSure);
  // Sure balls come first: the others are then seen without them and their shadows.
  const sure = firstSure.map((ball) => refine(scene, ball, sun, firstSure));
  const rest = first.filter((ball) => !isSure(ball)).map((ball) => refine(scene, ball, sun, sure));
  const allSure = [...sure, ...rest.filter(isSure)];
  const likely = [...allSure, ...rest.filter((ball) => !isSure(ball) && bestOdds(ball) > LIKELY)];
  const beside = touching(scene, likely, sun)
    .map((ball) => refine(scene, ball, sun, likely))
    .map(({ lnOdds, ...ball }) => ({ ...ball, lnOdds: lnOdds.map((odds) => odds + TOUCHES) }));
  const all = [
    ...apartFrom(scene, allSure, beside.filter(isSure), sun),
    ...rest.filter((ball) => !isSure(ball)),
    ...beside,
  ];
  const noises = first.map(({ fit }) => fit.noise);
  const noise = typicalNoise(noises);
  const candidates = distinct(all.map((ball) => doubtStanding(scene, ball, noise))).slice(0, MOST_ASSIGNED);
  return { scene, sun, candidates };
};

/** All candidates worth naming, judged: what `findBalls` chooses from. `look` is a first look that may have been taken from nearly the same camera. */
export const judgeCandidates = (
  raster: Raster,
  camera: Camera,
  court: Court,
  look: FirstLook | null = null,
): readonly JudgedBall[] => judge(raster, camera, court, look)?.candidates ?? [];

/** Whether a named candidate is sure enough, by its outline or without it, to be reported. */
const isClear = ({ ball, chance }: NamedCandidate): boolean =>
  ball.evidence.round + ball.evidence.size > FAINT_OUTLINE ||
  (chance > FAINT_CHANCE && ball.evidence.visible > FAINT_SEEN);

/**
 * The balls on the lawn, at most one of each asked colour. Places that stand out from the grass at the size a ball has there are sieved by how
 * round they stand out, then the outline a ball must have there is fitted to each, first without and then with the sun and the neighbours known; the colours are
 * given out together. A ball of which the camera sees no lawn place, or which is less likely there than not, is left out.
 */
export const findBalls = (
  raster: Raster,
  camera: Camera,
  court: Court,
  options: FindOptions,
): BallSighting[] => {
  const judged = judge(raster, camera, court, options.look ?? null);
  if (judged === null) return [];
  const { scene, sun, candidates } = judged;
  const colours = BALL_COLOURS.filter((colour) => options.colours.includes(colour));
  const named = namedBalls(candidates, colours, LEAST_CHANCE).filter(isClear);
  const unnamed = unnamedBy(named, candidates);
  const balls = named.map(({ ball }) => ball);
  const stored = { ...scene, blocks: raster.blocks };
  return named.map(({ ball, colour, chance }) => {
    const others = nearTo(balls, ball.fit.x, ball.fit.y, ball.view.radius).filter((other) => other !== ball);
    return sightingOf(weighMinima(stored, ball, sun, others), colour, chance, unnamed);
  });
};

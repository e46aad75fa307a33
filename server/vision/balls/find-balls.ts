import type { Camera } from '../../camera/types.ts';
import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import type { Court } from '../../lawn/court.ts';
import type { BallSighting, Raster } from '../types.ts';
import { type NamedCandidate, namedBalls, unnamedBy } from './colour-chances.ts';
import { COVERED } from './covering.ts';
import { doubtStanding } from './doubts.ts';
import {
  distinct,
  type FirstLook,
  firstLook,
  isSure,
  isWorthRefining,
  sameBall,
  sceneOf,
  seenFrom,
} from './first-look.ts';
import { fitTogether, type ShareFits } from './fit-work.ts';
import { bestOdds, clearPatch, fitMerit, type JudgedBall, type Scene } from './judge-ball.ts';
import { type CellNoise, typicalNoise } from './noise-model.ts';
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
  /** Another thread that takes a share of the fits. */
  readonly share?: ShareFits | null;
};

/** ln odds from which a ball may have another that touches it. */
const LIKELY = 0;
/** What stands out right beside a ball is a ball more often than what stands out anywhere: balls come to rest against each other. ln odds, common practice, no source. */
const TOUCHES = 1.5;
/** Candidates that are assigned colours at most, the likeliest ones. */
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
/** The same beside something upright: from 4 on an edge of clothes was a ball in a copy kept at quality 55. */
const FAINT_COVERED = 5;

/** Share of its outline from which a ball shows where its light comes from: of one that is hidden on a side, that side is missing. */
const SHOWS_LIGHT = 0.7;

/** So many balls show the light better than all that are sure. */
const FEW_LIT = 2;

/** Those of the sure balls that are asked for the light: seen nearly whole, and none that may be a shoe or a hat, unless hardly any is left. */
const showLight = (scene: Scene, sure: readonly JudgedBall[], noise: CellNoise): readonly JudgedBall[] => {
  const whole = sure.filter(({ evidence }) => evidence.visible > SHOWS_LIGHT);
  const undoubted = whole.filter((ball) => isSure(doubtStanding(scene, ball, noise)));
  return undoubted.length < FEW_LIT ? whole : undoubted;
};

/** The sun as the sure balls show it. */
const sunOf = (scene: Scene, balls: readonly JudgedBall[]): Sun | null =>
  findSun(balls.map(({ view, fit }) => ({ patch: clearPatch(scene.raster, view, scene.lawn), view, fit })));

/** Whether a ball of `beside` is right beside `ball`: both were one blot before. */
const hasBeside = ({ fit, view }: JudgedBall, beside: readonly JudgedBall[]): boolean =>
  beside.some((other) => Math.hypot(other.fit.x - fit.x, other.fit.y - fit.y) < 3 * view.radius);

/** Candidates judged, and in what light. */
type Judged = { readonly scene: Scene; readonly sun: Sun | null; readonly candidates: readonly JudgedBall[] };

const judge = (
  raster: Raster,
  camera: Camera,
  court: Court,
  look: FirstLook | null,
  share: ShareFits | null,
): Judged | null => {
  const usable = seenFrom(look, raster, camera, court) ?? firstLook(raster, camera, court);
  if (usable === null) return null;
  const first = usable.balls.filter(isWorthRefining);
  const blur = pooledBlur(first.filter(isSure).map(({ fit }) => fit));
  const unlit = sceneOf(raster, camera, court, usable.lawn, blur);
  const whole = first.filter(isSure);
  const noise = typicalNoise(first.map(({ fit }) => fit.noise));
  const sun = sunOf(unlit, showLight(unlit, whole, noise));
  const scene = { ...unlit, daylight: sun };
  const fits = (
    kind: 'refine' | 'explain' | 'beside',
    balls: readonly JudgedBall[],
    around: readonly JudgedBall[],
  ) => fitTogether(scene, share, { kind, sun, balls, around });
  // Sure balls come first: the others are then seen without them and their shadows.
  const sure = distinct(fits('explain', whole, whole));
  const rest = fits(
    'explain',
    first.filter((ball) => !isSure(ball)),
    sure,
  );
  const allSure = [...sure, ...rest.filter(isSure)];
  const likely = [...allSure, ...rest.filter((ball) => !isSure(ball) && bestOdds(ball) > LIKELY)];
  const beside = fits('beside', likely, likely)
    .map(({ lnOdds, ...ball }) => ({ ...ball, lnOdds: lnOdds.map((odds) => odds + TOUCHES) }))
    .filter((ball) => sure.every((other) => !sameBall(ball, other) || fitMerit(ball) > fitMerit(other)));
  const blots = allSure.filter((ball) => hasBeside(ball, beside.filter(isSure)));
  const all = [
    ...allSure.filter((ball) => !blots.includes(ball)),
    ...fits('refine', blots, [...allSure, ...beside.filter(isSure)]),
    ...rest.filter((ball) => !isSure(ball)),
    ...beside,
  ];
  const candidates = distinct(all.map((ball) => doubtStanding(scene, ball, noise)))
    .sort((a, b) => bestOdds(b) - bestOdds(a))
    .slice(0, MOST_ASSIGNED);
  return { scene, sun, candidates };
};

/** All candidates worth naming, judged: what `findBalls` chooses from. `look` is a first look that may have been taken from nearly the same camera. */
export const judgeCandidates = (
  raster: Raster,
  camera: Camera,
  court: Court,
  look: FirstLook | null = null,
): readonly JudgedBall[] => judge(raster, camera, court, look, null)?.candidates ?? [];

/** Whether a named candidate is sure enough, by its outline or without it, to be reported. */
const isClear = ({ ball, chance }: NamedCandidate): boolean => {
  const { round, size, visible } = ball.evidence;
  const faint = ball.clear < COVERED ? FAINT_COVERED : FAINT_OUTLINE;
  return round + size > faint || (chance > FAINT_CHANCE && visible > FAINT_SEEN);
};

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
  const share = options.share ?? null;
  const judged = judge(raster, camera, court, options.look ?? null, share);
  if (judged === null) return [];
  const { scene, sun, candidates } = judged;
  const colours = BALL_COLOURS.filter((colour) => options.colours.includes(colour));
  const named = namedBalls(candidates, colours, LEAST_CHANCE).filter(isClear);
  const unnamed = unnamedBy(named, candidates);
  const balls = named.map(({ ball }) => ball);
  const weighed = fitTogether(scene, share, { kind: 'weigh', sun, balls, around: balls });
  return named.map(({ colour, chance }, i) => sightingOf(weighed[i]!, colour, chance, unnamed));
};

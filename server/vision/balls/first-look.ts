import { projectPoint } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { BALL_DIAMETER, BALL_RADIUS } from '../../lawn/ball.ts';
import type { Court } from '../../lawn/court.ts';
import { lawnPoint3 } from '../../units/points.ts';
import type { Raster } from '../types.ts';
import type { BallView } from './ball-view.ts';
import { findCandidates, type UntilRows } from './candidates.ts';
import { COVERED } from './covering.ts';
import { knownThings } from './exclusions.ts';
import { makeWorkspace } from './fit-workspace.ts';
import { bestOdds, fitMerit, type JudgedBall, judgeBall, placedAgain, type Scene } from './judge-ball.ts';
import { type LawnColour, lawnColour } from './lawn-colour.ts';
import { ANY_BLUR, type PictureBlur } from './picture-blur.ts';
import { diameterAt, lawnSpans, onLawn, widened } from './search-scale.ts';
import type { Sun } from './shading.ts';
import { sieveCandidates } from './sieve.ts';

/** What a first look at the lawn found: plain data, so that it can be taken in another thread. */
export type FirstLook = {
  /** The camera that it was taken with. */
  readonly camera: Camera;
  readonly lawn: LawnColour;
  /** What may be a ball, strongest first, each fitted by itself. */
  readonly balls: readonly JudgedBall[];
};

/** Steps of a first fit, which only has to tell balls from other things. */
export const FIRST_STEPS = 3;
/** ln odds from which a candidate is fitted again in the light of the others; of one that is as round as this the colour may be wrong as long as the sun is not known. */
const WORTH_REFINING = -5;
const WORTH_REFINING_ROUND = -7;
const ROUND = 10;
/** Merit from which a ball is sure enough to show where the sun stands or to hide a neighbour. */
const SURE = 4;
/** Two fits nearer than this share of a radius are one ball, and so are two nearer on the lawn than balls can lie (a diameter, less what a fit may err). */
const SAME = 0.65;
const LEAST_APART = 0.65 * BALL_DIAMETER;

const between = (a: Place, b: Place): number => Math.hypot(a.x - b.x, a.y - b.y);
type Place = { readonly x: number; readonly y: number };

/** Whether `rear` was found behind `front`: the two may be nearer to each other in the picture than others. */
const isFrontOf = (front: JudgedBall, rear: JudgedBall): boolean =>
  rear.behind !== undefined && between(rear.behind, front.fit) < SAME * front.view.radius;

/** Whether two fits are of one ball. */
export const sameBall = (a: JudgedBall, b: JudgedBall): boolean => {
  const near = between(a.fit, b.fit) < SAME * a.view.radius && !isFrontOf(a, b) && !isFrontOf(b, a);
  return near || between(a.place, b.place) < LEAST_APART;
};

/** Whether a candidate of a first look is worth a second. */
export const isWorthRefining = (ball: JudgedBall): boolean =>
  bestOdds(ball) > (ball.evidence.round > ROUND ? WORTH_REFINING_ROUND : WORTH_REFINING);

/** Whether a candidate is sure enough to tell of the picture, and to be taken off it. */
export const isSure = (ball: JudgedBall): boolean => fitMerit(ball) > SURE && bestOdds(ball) > 0;

const bestFirst = (a: { readonly merit: number }, b: { readonly merit: number }): number => b.merit - a.merit;

const isNew = (ball: JudgedBall, kept: readonly JudgedBall[]): boolean => {
  for (const other of kept) if (sameBall(ball, other)) return false;
  return true;
};

/** Strongest first, one of several fits at one place. */
export const distinct = (judged: readonly JudgedBall[]): JudgedBall[] => {
  const kept: JudgedBall[] = [];
  const ranked = judged.map((ball) => ({ ball, merit: fitMerit(ball) }));
  for (const { ball } of ranked.sort(bestFirst)) if (isNew(ball, kept)) kept.push(ball);
  return kept;
};

/** Starts about the sieve's place, in radii, that are tried when the fit from there explains the picture badly. */
const RESTARTS = [
  [0.6, 0],
  [-0.6, 0],
  [0, 0.6],
  [0, -0.6],
] as const;
/** Mean misfit of a cell from which a fit is called bad (a perfect model gives about 1), and candidates that get another start. */
const BAD_MISFIT = 1.5;
const MOST_RESTARTED = 10;

/** The same for a place before which something upright stands, and the steps from there: only one side of a ball is seen, and what hides the rest is told by where the ball is taken to be. */
const COVERED_STARTS = [
  [0.6, 0.3],
  [0.6, -0.3],
  [-0.6, 0.3],
  [-0.6, -0.3],
] as const;
const COVERED_STEPS = 6;
/** ln odds of its first fit below which such a place is not tried again: a black ball behind a leg, of whose gloss and edge the first fit made one grey thing, had −20 and then 2. From −15 down 14 of 262 places became one that may be a ball. */
const HOPELESS = -25;

const better = (best: JudgedBall | null, found: JudgedBall | null): JudgedBall | null =>
  best === null || (found !== null && fitMerit(found) > fitMerit(best)) ? found : best;

/**
 * The first fit of the candidate of rank `rank`: dark and bright sides, or what hides half of it, may have drawn the sieve aside, so a bad fit and a covered one are tried again from
 * around.
 */
const firstFit = (scene: Scene, view: BallView, rank: number): JudgedBall | null => {
  const judged = judgeBall(scene, view, null, FIRST_STEPS);
  const covered = judged !== null && judged.clear < COVERED && bestOdds(judged) > HOPELESS;
  const bad = judged !== null && judged.fit.misfit >= BAD_MISFIT && !isSure(judged) && rank < MOST_RESTARTED;
  if (!covered && !bad) return judged;
  const steps = covered ? COVERED_STEPS : FIRST_STEPS;
  let best: JudgedBall | null = judged;
  for (const [x, y] of covered ? COVERED_STARTS : RESTARTS) {
    const start = { ...view, x: view.x + x * view.radius, y: view.y + y * view.radius };
    best = better(best, judgeBall(scene, start, null, steps));
  }
  return best;
};

/** What all fits in one picture share. */
export const sceneOf = (
  raster: Raster,
  camera: Camera,
  court: Court,
  lawn: LawnColour,
  blur: PictureBlur = ANY_BLUR,
  daylight: Sun | null = null,
): Scene => ({
  raster,
  camera,
  court,
  things: knownThings(camera, court),
  lawn,
  blur,
  daylight,
  space: makeWorkspace(),
});

/** Places that passed the sieve, strongest first: plain data, so that their first fits can be shared between threads. */
export type Sieved = {
  /** The camera that the picture was sieved with. */
  readonly camera: Camera;
  readonly lawn: LawnColour;
  readonly views: readonly BallView[];
};

/**
 * Where places stand out from the grass at the size a ball has there, sieved by how round they stand out. `slack` px outside the lawn are looked at too. `until` waits for the first so many rows of a
 * picture that is still coming. Null when no lawn is in view.
 */
export const sieveLawn = (
  raster: Raster,
  camera: Camera,
  court: Court,
  slack = 0,
  until: UntilRows = () => {},
): Sieved | null => {
  const inner = lawnSpans(camera, court);
  if (inner === null) return null;
  const spans = widened(inner, slack, raster.width, raster.height);
  const candidates = findCandidates(raster, camera, spans, until);
  until(raster.height);
  const lawn = lawnColour(raster, spans);
  return { camera, lawn, views: sieveCandidates(raster, camera, candidates, lawn) };
};

/** What a sieved place's first fit found there. */
export type FirstFit = { readonly rank: number; readonly ball: JudgedBall };

const byRank = (a: FirstFit, b: FirstFit): number => a.rank - b.rank;

/** First fits of the sieved places whose ranks `next` gives, until it gives one past the last. */
export const fitSieved = (
  raster: Raster,
  court: Court,
  { camera, lawn, views }: Sieved,
  next: () => number,
): FirstFit[] => {
  const scene = sceneOf(raster, camera, court, lawn);
  const fits: FirstFit[] = [];
  for (let rank = next(); rank < views.length; rank = next()) {
    const ball = firstFit(scene, views[rank]!, rank);
    if (ball !== null) fits.push({ rank, ball });
  }
  return fits;
};

/** The look that the first fits of all sieved places make, in whatever order they come. */
export const lookOf = ({ camera, lawn }: Sieved, fits: readonly FirstFit[]): FirstLook => ({
  camera,
  lawn,
  balls: distinct([...fits].sort(byRank).map(({ ball }) => ball)),
});

/**
 * Looks for balls where places stand out from the grass at the size a ball has there: they are sieved by how round they stand out, and the outline a
 * ball must have there is fitted to each. `slack` px outside the lawn are looked at too. Null when no lawn is in view.
 */
export const firstLook = (raster: Raster, camera: Camera, court: Court, slack = 0): FirstLook | null => {
  const sieved = sieveLawn(raster, camera, court, slack);
  if (sieved === null) return null;
  let rank = 0;
  return lookOf(
    sieved,
    fitSieved(raster, court, sieved, () => rank++),
  );
};

/** A look ahead, taken while the camera is only known from marks, reaches so far outside the lawn, px. */
export const LOOK_AHEAD = 12;
/** Share of its diameter by which a ball may be taken too large or too small in a look ahead: the outline is fitted again afterwards. */
const OTHER_SIZE = 0.04;
/** Places along and across the court at which two cameras are compared. */
const COMPARED = [0, 0.5, 1] as const;

/** Whether `camera` sees the whole court so nearly where `former` does that a look ahead from there missed nothing. */
const nearlySame = (former: Camera, camera: Camera, court: Court): boolean =>
  COMPARED.every((along) =>
    COMPARED.every((across) => {
      const place = lawnPoint3(across * court.width, along * court.length, BALL_RADIUS);
      const [a, b] = [projectPoint(former, place), projectPoint(camera, place)];
      if (a === null || b === null) return a === b;
      const ratio = diameterAt(former, a.x, a.y) / diameterAt(camera, b.x, b.y);
      return Math.hypot(a.x - b.x, a.y - b.y) < LOOK_AHEAD && Math.abs(ratio - 1) < OTHER_SIZE;
    }),
  );

/** `look` as `camera` has it: with its balls where that camera sees them. Null when it was taken from a camera too far from this one. */
export const seenFrom = (
  look: FirstLook | null,
  raster: Raster,
  camera: Camera,
  court: Court,
): FirstLook | null => {
  if (look === null || look.camera === camera) return look;
  if (!nearlySame(look.camera, camera, court)) return null;
  const scene = sceneOf(raster, camera, court, look.lawn);
  const balls = look.balls
    .map((ball) => placedAgain(scene, ball))
    .filter((ball) => ball !== null)
    .filter(({ place }) => onLawn(court, place));
  return { camera, lawn: look.lawn, balls: distinct(balls) };
};

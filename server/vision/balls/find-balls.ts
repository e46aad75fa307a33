import type { Camera } from '../../camera/types.ts';
import { BALL_DIAMETER } from '../../lawn/ball.ts';
import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import type { Court } from '../../lawn/court.ts';
import type { BallSighting, Raster } from '../types.ts';
import { colourChances } from './assign-colours.ts';
import { type BallView, viewBallAt } from './ball-view.ts';
import { findCandidates } from './candidates.ts';
import { knownThings } from './exclusions.ts';
import { makeWorkspace } from './fit-workspace.ts';
import { bestOdds, type JudgedBall, judgeBall, type Scene } from './judge-ball.ts';
import { lawnColour } from './lawn-colour.ts';
import { touchingViews } from './neighbours.ts';
import type { CellNoise } from './noise-model.ts';
import { cutPatch } from './patch.ts';
import { shadowShare } from './peel.ts';
import { poleAbove } from './pole-above.ts';
import { lawnSpans } from './search-scale.ts';
import type { Sun } from './shading.ts';
import { sieveCandidates } from './sieve.ts';
import { sightingOf } from './sighting-of.ts';
import { findSun } from './sun-search.ts';

/** What is looked for. */
export type FindOptions = {
  /** Colours whose balls are reported. Balls of other colours are recognized all the same, so that none is taken for one of these. */
  readonly colours: readonly BallColour[];
};

/** Steps of the first fit, which only has to tell balls from other things, and of the second. */
const FIRST_STEPS = 3;
const LAST_STEPS = 8;
/** ln odds from which a candidate is fitted again in the light of the others, and from which it is sure enough to show where the sun stands or to hide a neighbour. */
const WORTH_REFINING = -6;
const SURE = 5;
/** A ball stands in the sun with the others unless shade explains it better by so much, ln odds. */
const SHADED = 3;
/** Candidates that are assigned colours at most. */
const MOST_ASSIGNED = 20;
/** Chance that a ball of an asked colour, or of another, is on the lawn in view. */
const PRESENT = 0.9;
const PRESENT_UNASKED = 0.1;
/** A ball is reported from this chance on: a false ball harms more than one that a person must add. */
const LEAST_CHANCE = 0.7;
/** Two fits nearer than this share of a radius are one ball, and so are two nearer on the lawn than balls can lie (a diameter, less what a fit may err). */
const SAME = 0.8;
const LEAST_APART = 0.75 * BALL_DIAMETER;

const sameBall = (a: JudgedBall, b: JudgedBall): boolean =>
  Math.hypot(a.fit.x - b.fit.x, a.fit.y - b.fit.y) < SAME * a.view.radius ||
  Math.hypot(a.place.x - b.place.x, a.place.y - b.place.y) < LEAST_APART;

/** Strongest first, one of several fits at one place. */
const distinct = (judged: readonly JudgedBall[]): JudgedBall[] => {
  const kept: JudgedBall[] = [];
  for (const ball of [...judged].sort((a, b) => bestOdds(b) - bestOdds(a)))
    if (kept.every((other) => !sameBall(ball, other))) kept.push(ball);
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

/** The first fit of the candidate of rank `rank`: dark and bright sides may have drawn the sieve aside, so a bad fit is tried again from around. */
const firstFit = (scene: Scene, view: BallView, rank: number): JudgedBall | null => {
  const judged = judgeBall(scene, view, null, FIRST_STEPS);
  if (judged === null || judged.fit.misfit < BAD_MISFIT || rank >= MOST_RESTARTED) return judged;
  const others = RESTARTS.map(([x, y]) =>
    judgeBall(
      scene,
      { ...view, x: view.x + x * view.radius, y: view.y + y * view.radius },
      null,
      FIRST_STEPS,
    ),
  );
  return [judged, ...others]
    .filter((found) => found !== null)
    .reduce((best, found) => (bestOdds(found) > bestOdds(best) ? found : best));
};

/** The sun as the sure balls show it. */
const sunOf = (scene: Scene, balls: readonly JudgedBall[]): Sun | null =>
  findSun(
    balls
      .filter((ball) => bestOdds(ball) > SURE)
      .map(({ view, fit }) => ({ patch: cutPatch(scene.raster, view), view, fit })),
  );

/** `ball` fitted again where it was found, with its neighbours taken off; the better of the fits with and without the sun. */
const refine = (
  scene: Scene,
  camera: Camera,
  ball: JudgedBall,
  sun: Sun | null,
  sure: readonly JudgedBall[],
): JudgedBall => {
  const { fit, view } = ball;
  const moved = viewBallAt(camera, { x: fit.x + view.centreDx, y: fit.y + view.centreDy });
  if (moved === null) return ball;
  const reach = 4 * view.radius + 6;
  const others = sure.filter(
    (other) => other !== ball && Math.hypot(other.fit.x - fit.x, other.fit.y - fit.y) < reach,
  );
  const lit = judgeBall(scene, moved, sun, LAST_STEPS, others);
  if (sun === null || (lit !== null && bestOdds(lit) + SHADED > bestOdds(ball)))
    return doubtShadow(lit ?? ball, others);
  const shaded = judgeBall(scene, moved, null, LAST_STEPS, others);
  const best = [lit, shaded].filter((fitted) => fitted !== null).sort((a, b) => bestOdds(b) - bestOdds(a))[0];
  return doubtShadow(best ?? ball, others);
};

/** Share of a disc in a neighbour's shadow from which it is doubted, and the ln odds that a dark thing then loses: it is the shadow. */
const IN_SHADOW = 0.25;
const SHADOW_DOUBT = 6;

/** `ball` with less odds where it is dark and lies where a neighbour casts its shadow. */
const doubtShadow = (ball: JudgedBall, others: readonly JudgedBall[]): JudgedBall => {
  const { fit, view, lnOdds } = ball;
  const dark = fit.ball[0]! < fit.lawn[0]!;
  return dark && others.some((other) => shadowShare(other, fit.x, fit.y, view.radius) > IN_SHADOW)
    ? { ...ball, lnOdds: lnOdds.map((odds) => odds - SHADOW_DOUBT) }
    : ball;
};

/** Share of heights from which a pole stands on a place, and the ln odds that are lost: a mallet's head, a person's foot, a flag's or a hoop's foot. */
const POLE_FROM = 0.55;
const POLE_DOUBT = 4;

/** The lawn's noise in this picture: the middle one of all candidates' surroundings. */
const typicalNoise = (balls: readonly JudgedBall[]): CellNoise => {
  const middle = (values: number[]): number => values.sort((a, b) => a - b)[values.length >> 1] ?? 1;
  return {
    luma: middle(balls.map(({ fit }) => fit.noise.luma)),
    colour: middle(balls.map(({ fit }) => fit.noise.colour)),
  };
};

/** `ball` with less odds where something stands up from its place. */
const doubtPole = (scene: Scene, ball: JudgedBall, noise: CellNoise): JudgedBall =>
  poleAbove(scene.raster, ball.view, ball.fit, noise) > POLE_FROM
    ? { ...ball, lnOdds: ball.lnOdds.map((odds) => odds - POLE_DOUBT) }
    : ball;

/** Balls that touch a sure one and did not stand out on their own. */
const addTouching = (
  scene: Scene,
  camera: Camera,
  balls: readonly JudgedBall[],
  sun: Sun | null,
): JudgedBall[] => {
  const sure = balls.filter((ball) => bestOdds(ball) > SURE);
  const added = sure.flatMap((ball) =>
    touchingViews(scene.raster, camera, ball, sure)
      .map((view) =>
        judgeBall(
          scene,
          view,
          sun,
          LAST_STEPS,
          sure.filter(
            (other) => Math.hypot(other.fit.x - view.x, other.fit.y - view.y) < 4 * view.radius + 6,
          ),
        ),
      )
      .filter((judged) => judged !== null),
  );
  return distinct([...balls, ...added]);
};

/** All candidates worth naming, judged: what `findBalls` chooses from. */
export const judgeCandidates = (raster: Raster, camera: Camera, court: Court): JudgedBall[] => {
  const spans = lawnSpans(camera, court);
  if (spans === null) return [];
  const scene: Scene = {
    raster,
    camera,
    court,
    things: knownThings(camera, court),
    lawn: lawnColour(raster, spans),
    space: makeWorkspace(),
  };
  const views = sieveCandidates(raster, camera, findCandidates(raster, camera, spans));
  const first = distinct(
    views.map((view, rank) => firstFit(scene, view, rank)).filter((judged) => judged !== null),
  ).filter((ball) => bestOdds(ball) > WORTH_REFINING);
  const sun = sunOf(scene, first);
  const all = addTouching(scene, camera, first, sun).slice(0, MOST_ASSIGNED);
  const sure = all.filter((ball) => bestOdds(ball) > SURE);
  const noise = typicalNoise(first);
  return distinct(all.map((ball) => doubtPole(scene, refine(scene, camera, ball, sun, sure), noise)));
};

/** Chances of every candidate (rows) to be the ball of each of BALL_COLOURS. */
export const chancesOf = (
  candidates: readonly JudgedBall[],
  colours: readonly BallColour[],
): Float64Array => {
  const odds = new Float64Array(candidates.length * BALL_COLOURS.length);
  candidates.forEach(({ lnOdds }, i) => {
    odds.set(lnOdds, i * BALL_COLOURS.length);
  });
  return colourChances(
    odds,
    BALL_COLOURS.length,
    BALL_COLOURS.map((colour) => (colours.includes(colour) ? PRESENT : PRESENT_UNASKED)),
  );
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
  const candidates = judgeCandidates(raster, camera, court);
  const chances = chancesOf(candidates, options.colours);
  return BALL_COLOURS.flatMap((colour, c) => {
    if (!options.colours.includes(colour)) return [];
    let best = -1;
    let chance = LEAST_CHANCE;
    for (let i = 0; i < candidates.length; i++) {
      const here = chances[i * BALL_COLOURS.length + c]!;
      if (here > chance) [best, chance] = [i, here];
    }
    return best < 0 ? [] : [sightingOf(candidates[best]!, colour, chance)];
  });
};

import type { BallView } from './ball-view.ts';
import { COVERED } from './covering.ts';
import { doubtTrace } from './doubts.ts';
import { FIRST_STEPS, isSure } from './first-look.ts';
import { apart, viewAgain } from './fitted-ball.ts';
import { bestOdds, fitMerit, type Granted, type JudgedBall, judgeBall, type Scene } from './judge-ball.ts';
import type { Sun } from './shading.ts';

/** Steps of the fit that counts. */
const LAST_STEPS = 8;
/** A ball stands in the sun with the others unless shade explains it better by so much, ln odds. */
const SHADED = 3;

/** The balls near enough to (`x`, `y`) px that they or their shadows may show in the patch of a ball of `radius` px there. */
export const nearTo = (balls: readonly JudgedBall[], x: number, y: number, radius: number): JudgedBall[] => {
  const near: JudgedBall[] = [];
  for (const ball of balls)
    if ((ball.fit.x - x) ** 2 + (ball.fit.y - y) ** 2 < (4 * radius + 6) ** 2) near.push(ball);
  return near;
};

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
  granted: Granted,
): JudgedBall | null => {
  const first = judgeBall(scene, view, sun, LAST_STEPS, others, granted);
  if (first !== null && first.fit.ball[0]! > first.fit.lawn[0]!) return first;
  const aside = sun === null ? 0 : towardsSide(sun, view);
  // At another place it need not be a ball.
  const unknown = granted === 'ball' ? 'nothing' : granted;
  let best = first;
  for (const [up, side] of ESCAPES) {
    const start = {
      ...view,
      x: view.x - up * view.ax + side * aside * view.bx,
      y: view.y - up * view.ay + side * aside * view.by,
    };
    const found = judgeBall(scene, start, sun, FIRST_STEPS, others, unknown);
    if (found === null || (best !== null && fitMerit(found) < fitMerit(best) - ESCAPING)) continue;
    const from = { ...view, x: found.fit.x, y: found.fit.y };
    const settled = judgeBall(scene, from, sun, LAST_STEPS, others, unknown);
    if (settled !== null && (best === null || fitMerit(settled) > fitMerit(best) + ESCAPED)) best = settled;
  }
  return best;
};
/** ln odds by which another start must explain the picture better. */
const ESCAPED = 0.5;
/** ln odds that a few steps from another start may lack and yet be followed to their end. */
const ESCAPING = 2;

/** Of a ball of which less than this is seen the first fit tells too little to say whether it may stand in shade. */
const SEEN = 0.5;
const isSeen = ({ evidence }: JudgedBall): boolean => evidence.visible > SEEN;

/** Starts about a ball before which something upright stands, radii aside and down: what hides it is told by where it is taken to be, so that fits from other places see other cells. */
const AROUND = [
  [0.8, 0.4],
  [0.8, -0.4],
  [-0.8, 0.4],
  [-0.8, -0.4],
  [0.4, 0],
  [-0.4, 0],
  [0, 0.4],
  [0, -0.4],
] as const;
/** Best ln odds from which it is worth that. */
const HOPE = -4;
/** Fits that end within so many radii of the best and explain the picture worse by no more than this, merit, are the same ball: the odds of the two best are averaged, since the best of many is good by chance, and how much of the ball is clear over all of them. */
const AGREE = 0.4;
const AS_GOOD = 5;
const AVERAGED = 2;

/** The best of the fits of a covered ball from around `view`, of `settled` and of `ball`, with the mean odds of the two best that agree. */
const bestCovered = (
  scene: Scene,
  ball: JudgedBall,
  settled: JudgedBall,
  view: BallView,
  sun: Sun | null,
  others: readonly JudgedBall[],
): JudgedBall => {
  const found = [settled, ball];
  for (const [x, y] of AROUND) {
    const start = { ...view, x: view.x + x * view.radius, y: view.y + y * view.radius };
    const fitted = judgeBall(scene, start, sun, LAST_STEPS, others);
    if (fitted !== null && Math.hypot(fitted.fit.x - view.x, fitted.fit.y - view.y) < view.radius)
      found.push(fitted);
  }
  const value = (each: JudgedBall): number => fitMerit(each) - (each.sun === sun ? 0 : SHADED);
  found.sort((a, b) => value(b) - value(a));
  const best = found[0]!;
  const alike = found.filter(
    (each) => apart(each, best) < AGREE * view.radius && value(each) > value(best) - AS_GOOD,
  );
  const mean = (of: readonly JudgedBall[], number: (each: JudgedBall) => number): number =>
    of.reduce((sum, each) => sum + number(each), 0) / of.length;
  const top = alike.slice(0, AVERAGED);
  return {
    ...best,
    clear: mean(alike, ({ clear }) => clear),
    lnOdds: best.lnOdds.map((_, c) => mean(top, ({ lnOdds }) => lnOdds[c]!)),
  };
};

/** Whether a ball that was `ball` and is `settled` now has something upright before it and may be one. */
const isHalfSeen = (ball: JudgedBall, settled: JudgedBall): boolean =>
  !ball.behind &&
  Math.min(ball.clear, settled.clear) < COVERED &&
  Math.max(bestOdds(ball), bestOdds(settled)) > HOPE;

/** What is taken for granted of `ball` when it is fitted again. */
export const grantedOf = (ball: JudgedBall): Granted => {
  if (ball.behind) return 'hidden';
  return isSure(ball) ? 'ball' : 'nothing';
};

/** `ball` fitted again where it was found, with its neighbours taken off; the better of the fits with and without the sun. */
export const refine = (
  scene: Scene,
  ball: JudgedBall,
  sun: Sun | null,
  sure: readonly JudgedBall[],
): JudgedBall => {
  const { fit, view } = ball;
  const moved = viewAgain(scene.camera, ball);
  if (moved === null) return ball;
  const others = nearTo(sure, fit.x, fit.y, view.radius).filter((other) => other !== ball);
  const granted = grantedOf(ball);
  const lit = settle(scene, moved, sun, others, granted);
  const shaded =
    sun === null || (lit !== null && isSeen(lit) && fitMerit(lit) + SHADED > fitMerit(ball))
      ? null
      : judgeBall(scene, moved, null, LAST_STEPS, others, granted);
  const settled =
    shaded && (lit === null || fitMerit(shaded) > fitMerit(lit) + SHADED) ? shaded : (lit ?? ball);
  const best = isHalfSeen(ball, settled) ? bestCovered(scene, ball, settled, moved, sun, others) : settled;
  const { behind, hides } = ball;
  const stands = {
    ...(behind && { behind: { ...behind, sunny: sun !== null } }),
    ...(hides && { hides }),
  };
  return doubtTrace({ ...best, ...stands }, others);
};

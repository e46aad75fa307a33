import type { BallView } from './ball-view.ts';
import { doubtTrace } from './doubts.ts';
import { FIRST_STEPS, isSure } from './first-look.ts';
import { viewAgain } from './fitted-ball.ts';
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

const openShare = ({ evidence }: JudgedBall): number => evidence.open.reduce((a, b) => a + b, 0) / 12;
const COVER_STARTS = [
  [0.8, 0.4],
  [0.8, -0.4],
  [-0.8, 0.4],
  [-0.8, -0.4],
  [0.4, 0],
  [-0.4, 0],
  [0, 0.4],
  [0, -0.4],
] as const;

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
  let best = shaded && (lit === null || fitMerit(shaded) > fitMerit(lit) + SHADED) ? shaded : (lit ?? ball);
  if (!ball.behind && !process.env.NOSTART && Math.min(ball.clear, best.clear) < 0.85) {
    const at = moved;
    const all: JudgedBall[] = [best, ball];
    for (const [dx, dy] of COVER_STARTS)
      for (const light of sun ? [sun, null] : [null]) {
        const from = judgeBall(scene, { ...at, x: at.x + dx * at.radius, y: at.y + dy * at.radius }, light, LAST_STEPS, others, granted === 'ball' ? 'nothing' : granted);
        if (from !== null && Math.hypot(from.fit.x - at.x, from.fit.y - at.y) < at.radius) all.push(from);
      }
    const value = (b: JudgedBall): number => fitMerit(b) - (b.sun === null && sun !== null ? SHADED : 0);
    all.sort((p, q) => value(q) - value(p));
    best = all[0]!;
    const near = all.filter((b) => Math.hypot(b.fit.x - best.fit.x, b.fit.y - best.fit.y) < Number(process.env.NEAR ?? 0.4) * at.radius && value(b) > value(best) - Number(process.env.DROP ?? 5)).slice(0, Number(process.env.TOP ?? 2));
    best = { ...best, lnOdds: best.lnOdds.map((_, c) => near.reduce((sum, b) => sum + b.lnOdds[c]!, 0) / near.length) };
  }
  const { behind, hides } = ball;
  const stands = {
    ...(behind && { behind: { ...behind, sunny: sun !== null } }),
    ...(hides && { hides }),
  };
  return doubtTrace({ ...best, ...stands }, others);
};

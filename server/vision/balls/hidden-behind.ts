import { doubtTrace } from './doubts.ts';
import { isWorthRefining } from './first-look.ts';
import { apart, viewAgain } from './fitted-ball.ts';
import { bestOdds, fitMerit, type JudgedBall, judgeBall, type Scene } from './judge-ball.ts';
import { hiddenViews, viewsBefore } from './neighbours.ts';
import { standsBehind } from './peel.ts';
import { nearTo, refine } from './refine-ball.ts';
import type { Sun } from './shading.ts';

/** Steps of a fit, and of one that only looks what may be there. */
const STEPS = 8;
const LOOK_STEPS = 4;
/** Two balls must explain the picture so much better than the front one alone, merit: what a fit of one leaves over looks like a crescent too. */
const BETTER = 1;

/** A second ball leaves the one it was found with where that was, within so many radii: otherwise a third thing explains the blot, such as a shadow. */
const STAYS = 0.5;
/** A ball farther from the one before it than this, radii, stands out on its own. */
const STANDS_OUT = 1.3;

/** Balls that are tried behind one. */
const MOST_PAIRS = 4;

const colourOf = (ball: JudgedBall): number => ball.lnOdds.indexOf(bestOdds(ball));

/** Balls behind `front`, in the sun or in the shade of what is before it, likeliest first. */
const hiddenBy = (
  scene: Scene,
  front: JudgedBall,
  sun: Sun | null,
  others: readonly JudgedBall[],
): JudgedBall[] => {
  const lights = sun === null ? [null] : [sun, null];
  const all: JudgedBall[] = [];
  for (const start of hiddenViews(scene.raster, scene.camera, front))
    for (const light of lights) {
      const found = judgeBall(scene, start, light, LOOK_STEPS, [front, ...others], 'hidden');
      const view = found && viewAgain(scene.camera, found);
      if (found === null || !view || !standsBehind(view, front.view)) continue;
      // No game has two balls of one colour: this one is what the front ball's fit left over.
      if (colourOf(found) !== colourOf(front) && isWorthRefining(found)) all.push({ ...found, view });
    }
  return all.sort((a, b) => fitMerit(b) - fitMerit(a)).slice(0, MOST_PAIRS);
};

/** `front` and `found` behind it, each fitted with the other taken off, the front one first; null when they are no two balls. `others` may stand beside them. */
const pairOf = (
  scene: Scene,
  front: JudgedBall,
  found: JudgedBall,
  sunny: boolean,
  others: readonly JudgedBall[],
): [JudgedBall, JudgedBall] | null => {
  const { fit, view } = front;
  const rear = { ...found, behind: { x: fit.x, y: fit.y, sunny } };
  const again = judgeBall(scene, view, front.sun, STEPS, [rear, ...others], 'ball');
  if (again === null || apart(again, front) > STAYS * view.radius) return null;
  // A ball of which hardly anything is left once the other is taken off as it stands now is as it was before.
  const hidden = judgeBall(scene, found.view, found.sun, STEPS, [again, ...others], 'hidden') ?? found;
  if (colourOf(hidden) === colourOf(again)) return null;
  if (apart(hidden, again) > STANDS_OUT * view.radius) return null;
  if (fitMerit(again) + fitMerit(hidden) < fitMerit(front) + BETTER) return null;
  const behind = { x: again.fit.x, y: again.fit.y, sunny };
  return [
    { ...again, hides: true },
    { ...doubtTrace(hidden, [again, ...others]), behind },
  ];
};

const meritOf = (balls: readonly JudgedBall[]): number =>
  balls.reduce((sum, ball) => sum + fitMerit(ball), 0);

/**
 * `front`, and the ball that it hides in part, when the picture is explained better by two. `known` are the balls that may stand beside them.
 */
const withHidden = (
  scene: Scene,
  front: JudgedBall,
  sun: Sun | null,
  known: readonly JudgedBall[],
): JudgedBall[] => {
  const { fit, view } = front;
  const others = nearTo(known, fit.x, fit.y, view.radius).filter(
    (other) => apart(other, front) > view.radius,
  );
  let best: JudgedBall[] = [front];
  for (const found of hiddenBy(scene, front, sun, others)) {
    const pair = pairOf(scene, front, found, sun !== null, others);
    if (pair !== null && (best.length === 1 || meritOf(pair) > meritOf(best))) best = pair;
  }
  return best;
};

/** Mean misfit of a cell from which what looks like one ball may be two (a perfect model gives about 1): before the light is known, and in it. */
const ONE_BALL = { before: 1.8, lit: 1.4 } as const;

/**
 * Pairs of balls that may make up the blot of `ball`, as they are fitted before any light is known: the one behind it and itself, or itself and one before it. Two balls in one blot can look like one that
 * is lit from a side.
 */
const splitsOf = (scene: Scene, ball: JudgedBall, known: readonly JudgedBall[]): JudgedBall[][] => {
  const pairs = [withHidden(scene, ball, null, known)];
  for (const view of viewsBefore(scene.camera, ball)) {
    const front = judgeBall(scene, view, null, STEPS);
    if (front === null || !isWorthRefining(front)) continue;
    const pair = withHidden(
      scene,
      { ...front, view: viewAgain(scene.camera, front) ?? front.view },
      null,
      known,
    );
    if (pair[1] && apart(pair[1], ball) < STAYS * ball.view.radius) pairs.push(pair);
  }
  return pairs.filter(({ length }) => length > 1);
};

/**
 * `ball`, or the two that explain its blot better. `before` is how it was fitted before the light was known, `known` are the other balls of the picture. Pairs are compared with the one ball in the picture's
 * light: the dark side of a ball and its shadow look like another ball to a fit that knows of no sun.
 */
export const explainBlot = (
  scene: Scene,
  ball: JudgedBall,
  before: JudgedBall,
  sun: Sun | null,
  known: readonly JudgedBall[],
): JudgedBall[] => {
  const doubtful = before.fit.misfit > ONE_BALL.before && ball.fit.misfit > ONE_BALL.lit;
  const ways = (doubtful ? splitsOf(scene, before, known) : []).map(([front, rear]) => {
    const hidden = refine(scene, rear!, sun, [
      front!,
      ...known.filter((other) => apart(other, rear!) > rear!.view.radius),
    ]);
    const clear = refine(scene, front!, sun, [
      hidden,
      ...known.filter((other) => apart(other, front!) > STANDS_OUT * front!.view.radius),
    ]);
    return [clear, hidden];
  });
  ways.push(withHidden(scene, ball, sun, known));
  const best = ways.reduce((most, way) => (meritOf(way) > meritOf(most) ? way : most));
  return meritOf(best) > fitMerit(ball) + BETTER ? best : [ball];
};

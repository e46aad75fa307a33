import { apart, type FittedBall, viewAgain } from './fitted-ball.ts';
import { fitMerit, type JudgedBall, judgeBall, type Scene } from './judge-ball.ts';
import type { OutlineFit } from './outline-shape.ts';
import type { Sun } from './shading.ts';

/** Starts from which other minima are looked for: radii down the picture from the place of the fit, and whether the sun is in the model there. */
const STARTS = [
  { down: -0.7, sunny: true },
  { down: -1.2, sunny: true },
  { down: 0.7, sunny: true },
  { down: 0, sunny: false },
] as const;
/** A fit that ends farther than this from the first, radii, shows another thing: a shadow, a neighbour. */
const SAME_BALL = 1.4;
/** Steps from there. */
const STEPS = 8;
/** ln odds of merit by which a minimum counts e times less: merits are rougher than likelihoods. */
const ROUGHNESS = 1.4;

/** A ball so many times as bright as the lawn stands out all around: its fit has one minimum. */
const BRIGHT = 1.25;

/**
 * `ball` fitted again where it stands, with what rounding the stored photo's blocks did to its edge: coarse steps smear the colours, and the brightness then tells more of its place. As it was in a photo
 * that was not stored in blocks, and where that fit finds another thing.
 */
const fittedAsStored = (scene: Scene, ball: JudgedBall, others: readonly FittedBall[]): JudgedBall => {
  const { view, sun } = ball;
  const here = viewAgain(scene.camera, ball);
  if (!scene.blocks || here === null) return ball;
  const again = judgeBall(scene, here, sun, STEPS, others, ball.behind ? 'hidden' : 'ball');
  const away = again === null ? 0 : apart(again, ball);
  return again === null || away > SAME_BALL * view.radius ? ball : { ...ball, fit: again.fit };
};

/** The fits of one ball that other starts lead to. */
const otherMinima = (
  scene: Scene,
  ball: JudgedBall,
  sun: Sun | null,
  others: readonly FittedBall[],
): JudgedBall[] => {
  const { view } = ball;
  const here = viewAgain(scene.camera, ball);
  if (here === null) return [];
  return STARTS.filter(({ down }) => sun !== null || down !== 0).flatMap(({ down, sunny }) => {
    const start = {
      ...here,
      x: here.x + down * view.ax,
      y: here.y + down * view.ay,
    };
    const found = judgeBall(scene, start, sunny ? sun : null, STEPS, others, ball.behind ? 'hidden' : 'ball');
    const away = found === null ? 0 : apart(found, ball);
    return found === null || away > SAME_BALL * view.radius ? [] : [found];
  });
};

/**
 * `ball` at the mean of the places that fits from other starts find, weighed by their merit, with their scatter added to its covariance. Where a ball's lit side is as bright as the
 * lawn and its dark side as its shadow, a fit has several minima, and no single one knows of the others.
 */
export const weighMinima = (
  scene: Scene,
  ball: JudgedBall,
  sun: Sun | null,
  others: readonly FittedBall[],
): JudgedBall => {
  const own = fittedAsStored(scene, ball, others);
  if (ball.fit.ball[0]! > BRIGHT * ball.fit.lawn[0]!) return own;
  const all = [own, ...otherMinima(scene, own, sun, others)];
  const merits = all.map(fitMerit);
  const most = Math.max(...merits);
  const weights = merits.map((merit) => Math.exp((merit - most) / ROUGHNESS));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (value: (fit: OutlineFit) => number): number =>
    all.reduce((sum, { fit }, i) => sum + (weights[i]! / total) * value(fit), 0);
  const x = mean((fit) => fit.x);
  const y = mean((fit) => fit.y);
  const fit = {
    ...own.fit,
    x,
    y,
    xx: mean((f) => f.xx + (f.x - x) ** 2),
    xy: mean((f) => f.xy + (f.x - x) * (f.y - y)),
    yy: mean((f) => f.yy + (f.y - y) ** 2),
  };
  return { ...ball, fit };
};

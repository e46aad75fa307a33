import type { BallColour } from '../lawn/colours.ts';
import { chiSquareCdf } from '../units/statistics.ts';
import { type Combined, combineViews, type View } from './combine-views.ts';

/** A disagreement that chance explains less often than once in a thousand is reported. */
export const AGREEMENT = 0.001;

/** A ball that does not fit; `view` is the one that shows it elsewhere than all others, null when there are but two. */
export type OddBall = { readonly colour: BallColour; readonly view: number | null };

/** What makes views disagree: balls that lay elsewhere in one of them, or one view's marks (`view` null when there are but two views). */
export type Disagreement =
  | { readonly kind: 'balls'; readonly balls: readonly OddBall[] }
  | { readonly kind: 'view'; readonly view: number | null };

/** Probability that chance alone makes views disagree as much as `combined` or more; 1 when they have no ball in common. */
export const agreementOf = ({ chiSquare, degrees }: Combined): number =>
  degrees > 0 ? 1 - chiSquareCdf(chiSquare, degrees) : 1;

/** `views` without some of their balls; a view left without any ball stays, since its number counts. */
const without = (
  views: readonly View[],
  drop: (view: number, colour: BallColour) => boolean,
): readonly View[] =>
  views.map((view, v) => ({ ...view, balls: view.balls.filter(({ colour }) => !drop(v, colour)) }));

const shared = (views: readonly View[]): BallColour[] => {
  const all = views.flatMap(({ balls }) => balls.map(({ colour }) => colour));
  return [...new Set(all)].filter((colour) => all.filter((one) => one === colour).length > 1);
};

type Judge = (views: readonly View[]) => number;

/** Of `options` the one with the best agreement. */
const best = <T>(
  options: readonly T[],
  agreement: (option: T) => number,
): { readonly option: T; readonly agreement: number } | null =>
  options
    .map((option) => ({ option, agreement: agreement(option) }))
    .reduce<{ option: T; agreement: number } | null>(
      (a, b) => (a === null || b.agreement > a.agreement ? b : a),
      null,
    );

/** The view that alone shows ball `colour` elsewhere; null when fewer than three show it. */
const oddView = (views: readonly View[], colour: BallColour, judge: Judge): number | null => {
  const showing = views.flatMap(({ balls }, v) => (balls.some((ball) => ball.colour === colour) ? [v] : []));
  if (showing.length < 3) return null;
  return best(showing, (v) => judge(without(views, (at, one) => at === v && one === colour)))!.option;
};

/**
 * Why `views` disagree beyond chance; null when they agree. Balls are given up one by one, the one that helps most first, until the others agree. Is
 * more than half of what the views share to be given up, it is not the balls: the view without which the others agree has a wrong mark.
 */
export const explainMisfit = (views: readonly View[], heightSd: number): Disagreement | null => {
  const judge: Judge = (some) => agreementOf(combineViews(some, heightSd));
  if (judge(views) >= AGREEMENT) return null;
  const common = shared(views);
  const odd: BallColour[] = [];
  let left = views;
  while (judge(left) < AGREEMENT && odd.length < common.length) {
    const rest = common.filter((colour) => !odd.includes(colour));
    const { option } = best(rest, (colour) => judge(without(left, (_, one) => one === colour)))!;
    odd.push(option);
    left = without(left, (_, one) => one === option);
  }
  if (odd.length === 1 || 2 * odd.length <= common.length)
    return { kind: 'balls', balls: odd.map((colour) => ({ colour, view: oddView(views, colour, judge) })) };
  if (views.length < 3) return { kind: 'view', view: null };
  const numbers = views.map((_, v) => v);
  const worst = best(numbers, (v) => judge(without(views, (at) => at === v)))!;
  return { kind: 'view', view: worst.agreement >= AGREEMENT ? worst.option : null };
};

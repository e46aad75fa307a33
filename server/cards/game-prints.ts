import type { Settings } from '../contract/settings.ts';
import type { GameLog } from '../games/log.ts';
import { courtOf, hoopsOf, type Resting, scoreOf } from '../games/state.ts';
import { titleOf } from '../games/view-game.ts';
import { BALL_COLOURS } from '../lawn/colours.ts';
import { lineAfter } from '../rules/hoop-order.ts';
import { lawnPlan, type PlanBall, planSize } from './parts/lawn-plan.ts';
import type { Sheet } from './sheet/shapes.ts';

/** A game at a moment: after the entry of number `entry`. */
export type GamePrint = { readonly log: GameLog; readonly entry: number; readonly settings: Settings };

/** Where the balls rested after entry `entry`: what the last entry up to it said that moved or measured one. */
export const restingAt = ({ log, entry }: GamePrint): Resting =>
  log.state.history.findLast((moment) => moment.entry <= entry)?.balls ?? {};

/** Balls as a plan shows them. */
export const planBalls = (resting: Resting): PlanBall[] =>
  BALL_COLOURS.flatMap((colour) => {
    const place = resting[colour];
    return place ? [{ colour, ...place }] : [];
  });

/** Points scored up to entry `entry`. */
export const pointsAt = ({ log, entry }: GamePrint) =>
  log.state.points.filter((point) => point.entry <= entry);

/** The halfway line after the last point scored by then; null before the first and after the last. */
export const lineAt = (print: GamePrint) => {
  const { setup } = print.log.state;
  const points = pointsAt(print).length;
  return points === 0 ? null : lineAfter(courtOf(setup), hoopsOf(setup), points);
};

/** pt for each metre of a plan on its own: 10 mm on the lawn are a thousandth of its width. */
const PLAN_SCALE = 16;

/** The plan of a moment as a sheet of its own. */
export const planSheet = (print: GamePrint): Sheet => {
  const { log, entry, settings } = print;
  const court = courtOf(log.state.setup);
  const size = planSize(court, PLAN_SCALE);
  const content = {
    court,
    balls: planBalls(restingAt(print)),
    line: lineAt(print),
    letters: settings.letters,
  };
  const score = scoreOf(pointsAt(print));
  return {
    ...size,
    label: `${titleOf(log.state)}, ${score[0]} to ${score[1]}: where the balls lie after entry ${entry}.`,
    shapes: lawnPlan(content, { x: 0, y: 0, scale: PLAN_SCALE }),
  };
};

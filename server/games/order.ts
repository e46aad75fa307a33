import type { BallColour } from '../lawn/colours.ts';
import { ballAfter, ballDue, partnerOf, sideOf } from '../rules/ball-order.ts';
import { judgeWrongBall } from '../rules/wrong-ball.ts';
import type { Stroke, WrongBallRuling } from '../rules/wrong-ball-types.ts';
import type { GameState, OrderState } from './state.ts';

/** Turns after which the opening is over. */
const OPENING_TURNS = 4;

/** The ball played before `ball` in the order: the one three places on. */
export const ballBefore = (ball: BallColour): BallColour => partnerOf(ballAfter(ball));

/** The balls one of which is played next; empty while a referee has to say. */
export const nextBalls = (state: GameState): readonly BallColour[] => {
  if (state.wrongBall) return state.wrongBall.next;
  return state.order.choice ?? [ballDue(state.setup.colours, state.order.lastRight)];
};

/** The order of play in which one of `next` is played next; the opening begins with nothing played before. */
export const orderBefore = (next: readonly BallColour[], turns: number): OrderState => {
  const only = next.length === 1 ? next[0]! : null;
  if (only === null) return { lastRight: null, strokes: [], choice: next };
  return { lastRight: turns === 0 ? null : ballBefore(only), strokes: [], choice: null };
};

/** The ball that counts as last played rightly, given that `stroke` comes next: after a free choice, the one before the ball chosen. */
export const lastRightFor = (state: GameState, stroke: Stroke): BallColour | null => {
  const { choice, lastRight } = state.order;
  if (choice === null) return lastRight;
  const chosen = choice.find((ball) => ball === stroke.ball && sideOf(ball) === sideOf(stroke.player));
  return ballBefore(chosen ?? choice[0]!);
};

/** What the rules say of `stroke` if it is played next. */
export const judgeNext = (state: GameState, stroke: Stroke): WrongBallRuling =>
  judgeWrongBall({
    edition: state.setup.edition,
    format: state.setup.format,
    set: state.setup.colours,
    lastRight: lastRightFor(state, stroke),
    opening: state.turns - state.order.strokes.length < OPENING_TURNS,
    strokes: [...state.order.strokes, stroke],
  });

/** "After blue, red plays": what the log expects, for a sentence. */
export const expectation = (state: GameState): string => {
  const balls = nextBalls(state);
  if (balls.length === 0) return 'A referee has to say first who plays';
  const { lastRight, strokes, choice } = state.order;
  const last = strokes.at(-1)?.ball ?? lastRight;
  const plays = `${balls.join(' or ')} plays`;
  if (state.turns === 0) return `At the start ${plays}`;
  return choice !== null || last === null ? `By the opponents' choice ${plays}` : `After ${last}, ${plays}`;
};

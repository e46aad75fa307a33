import type { BallColour } from '../lawn/colours.ts';
import { ballAfter, partnerOf } from '../rules/ball-order.ts';
import type { WrongBallRuling } from '../rules/wrong-ball-types.ts';
import { err, ok, type Result } from '../units/result.ts';
import type { Overrule, Remedy, RemedyChoice } from './events.ts';
import { orderBefore } from './order.ts';
import { type Refusal, refusal } from './refusal.ts';
import { afterMeasuring, afterSwap, afterWrong } from './resting.ts';
import { atTurnEnd, directionsAfter } from './scoring-turn.ts';
import type { GameState, OpenStroke } from './state.ts';

/** What may be done about a wrong ball by this ruling. */
export const remediesOf = (ruling: WrongBallRuling): readonly RemedyChoice[] => {
  switch (ruling.outcome) {
    case 'replaceAndReplay':
      return ['replaceAndReplay'];
    case 'annulled':
      return ['annul'];
    case 'opponentsChoose':
      return ruling.choices.map(({ option }) => option);
    case 'stands':
    case 'referee':
      return [];
  }
};

/** The first of the strokes that the ruling undoes. */
const firstUndone = (state: GameState, undone: number): OpenStroke => {
  const { strokes } = state.order;
  return strokes[strokes.length - Math.max(1, undone)]!;
};

/** As if the undone strokes had never been played: places, points, rulings and directions are those before them. */
const putBack = (state: GameState, ruling: WrongBallRuling, next: readonly BallColour[]): GameState => {
  const { before } = firstUndone(state, ruling.undone);
  return { ...state, ...before, order: orderBefore(next, before.turns), wrongBall: null, lastStroke: null };
};

/** The balls stay where the wrong play put them, which excuses the opponents' balls; its points do not count. */
const leave = (state: GameState, ruling: WrongBallRuling, next: readonly BallColour[]): GameState => {
  const first = firstUndone(state, ruling.undone);
  return {
    ...state,
    points: first.before.points,
    balls: afterWrong(state.balls, first.entry, first.player),
    offside: first.before.offside,
    directions: directionsAfter(state, first, first.before.directions),
    order: orderBefore(next, state.turns),
    wrongBall: null,
    lastStroke: null,
  };
};

/** The partner balls change places, points and all, and the game goes on as if the ball due had been played. */
const swapBalls = (state: GameState): GameState => {
  const stroke = firstUndone(state, 1);
  const played = stroke.ball;
  // A ball swap follows only when the partner of the ball due was played.
  const due = partnerOf(played);
  const rename = (ball: typeof played) => (ball === played ? due : ball === due ? played : ball);
  const swapped: GameState = {
    ...state,
    points: state.points.map((point) =>
      point.entry === stroke.entry ? { ...point, ball: rename(point.ball) } : point,
    ),
    balls: afterSwap(state.balls, played, due, stroke.entry),
    order: orderBefore([ballAfter(due)], state.turns),
    wrongBall: null,
    lastStroke: null,
  };
  return atTurnEnd(swapped, due, stroke.entry);
};

const withMeasured = (state: GameState, remedy: Remedy, entry: number): GameState => ({
  ...state,
  balls: afterMeasuring(state.balls, remedy.positions, entry),
});

/** Applies the remedy of the wrong ball just played, if the ruling allows it. */
export const applyRemedy = (state: GameState, remedy: Remedy, entry: number): Result<GameState, Refusal> => {
  const ruling = state.wrongBall;
  if (ruling === null)
    return err(refusal('noWrongBall', 'No wrong ball is open: log a wrong ball first, or the next turn.'));
  const allowed = remediesOf(ruling);
  if (allowed.length === 0)
    return err(refusal('refereeNeeded', `${ruling.reason} Log the referee's decision as an overrule.`));
  if (!allowed.includes(remedy.choice))
    return err(
      refusal(
        'wrongRemedy',
        `By ${ruling.rule} what may be done now is ${allowed.join(' or ')}, but ${remedy.choice} was logged.`,
        ruling.next,
      ),
    );
  const next = ruling.choices.find(({ option }) => option === remedy.choice)?.next ?? ruling.next;
  switch (remedy.choice) {
    case 'ballSwap':
      return ok(withMeasured(swapBalls(state), remedy, entry));
    case 'leave':
      return ok(withMeasured(leave(state, ruling, next), remedy, entry));
    case 'replaceAndReplay':
    case 'annul':
    case 'putBack':
      return ok(withMeasured(putBack(state, ruling, next), remedy, entry));
  }
};

/** A referee's decision on a wrong ball. */
export const overruleWrongBall = (
  state: GameState,
  overrule: Extract<Overrule, { subject: 'wrongBall' }>,
): Result<GameState, Refusal> => {
  const ruling = state.wrongBall;
  if (ruling === null)
    return err(
      refusal('noWrongBall', 'No wrong ball is open that a referee could decide; log a wrong ball first.'),
    );
  const undone = { ...ruling, undone: Math.max(1, ruling.undone) };
  if (overrule.putBack) return ok(putBack(state, undone, overrule.next));
  if (!overrule.pointsCount) return ok(leave(state, undone, overrule.next));
  return ok({ ...state, order: orderBefore(overrule.next, state.turns), wrongBall: null });
};

import { BALL_COLOURS, type BallColour } from '../lawn/colours.ts';
import { setOf, sideName } from '../rules/ball-order.ts';
import type { WrongBallRuling } from '../rules/wrong-ball-types.ts';
import { err, ok, type Result } from '../units/result.ts';
import type { Turn, WrongBall } from './events.ts';
import { expectation, judgeNext, lastRightFor, nextBalls } from './order.ts';
import { type Refusal, refusal } from './refusal.ts';
import { afterPlay, movedIn } from './resting.ts';
import { atTurnEnd, directionsAfter } from './scoring-turn.ts';
import { type GameState, type OrderState, type PointScored, positionOf, standingsOf } from './state.ts';

/** A ball named in a stroke that is not of the game's set. */
const foreignBall = (state: GameState, play: Turn | WrongBall): BallColour | undefined => {
  const named = [play.ball, play.player, ...movedIn(play), ...play.scored];
  const placed = BALL_COLOURS.filter((ball) => play.positions[ball]);
  return [...named, ...placed].find((ball) => setOf(ball) !== state.setup.colours);
};

const otherColours = (state: GameState, ball: BallColour): Refusal =>
  refusal(
    'otherColours',
    `This game is played with the ${state.setup.colours} colours, but ${ball} was named; log it in the game of its own colours.`,
  );

/** The points after a stroke, or null when one comes after the game was won. */
const pointsAfter = (
  state: GameState,
  scored: readonly BallColour[],
  entry: number,
): readonly PointScored[] | null => {
  let points = state.points;
  for (const ball of scored) {
    if (standingsOf({ setup: state.setup, points }).code === 'won') return null;
    points = [...points, { point: points.length + 1, ball, entry }];
  }
  return points;
};

const wonAlready = (state: GameState): Refusal => {
  const { winner } = standingsOf(state);
  const by = winner === null ? 'a side' : sideName(state.setup.colours, winner);
  return refusal(
    'won',
    `No further point can be scored: ${by} has won; log the end of the game or correct an entry.`,
  );
};

/** The order of play after a stroke: settled when it is right or stands, open otherwise. */
const orderAfter = (
  state: GameState,
  play: Turn | WrongBall,
  entry: number,
  ruling: WrongBallRuling,
): OrderState => {
  const { player, ball } = play;
  if (ruling.outcome === 'stands') return { lastRight: ball, strokes: [], choice: null };
  const strokes = [...state.order.strokes, { player, ball, entry, before: positionOf(state) }];
  return { lastRight: lastRightFor(state, play), strokes, choice: null };
};

/** Refuses a right ball logged as wrong and a wrong one logged as right. */
const checkKind = (state: GameState, play: Turn | WrongBall, ruling: WrongBallRuling): Refusal | null => {
  const right = ruling.outcome === 'stands';
  if (right === (play.type === 'turn')) return null;
  const what = `${play.ball} played by the player of ${play.player}`;
  return right
    ? refusal('rightTurn', `${expectation(state)}, and ${what} is right; log it as a turn.`, nextBalls(state))
    : refusal(
        'wrongTurn',
        `${expectation(state)}; ${what} does not follow. Log it as a wrong ball, or correct an earlier entry.`,
        nextBalls(state),
      );
};

/**
 * A stroke, right or wrong. It ends what the stroke before left open: pending directions lapse as the edition says, an error that stands
 * is settled. A wrong ball is played and scored provisionally until its remedy.
 */
export const applyStroke = (
  state: GameState,
  play: Turn | WrongBall,
  entry: number,
): Result<GameState, Refusal> => {
  const foreign = foreignBall(state, play);
  if (foreign) return err(otherColours(state, foreign));
  const ruling = judgeNext(state, play);
  const refused = checkKind(state, play, ruling);
  if (refused) return err(refused);
  const points = pointsAfter(state, play.scored, entry);
  if (points === null) return err(wonAlready(state));
  const { player, ball, scored } = play;
  const played: GameState = {
    ...state,
    points,
    balls: afterPlay(state.balls, play, entry),
    directions: directionsAfter(state, play, state.directions),
    turns: state.turns + 1,
    order: orderAfter(state, play, entry, ruling),
    exchanged: state.exchanged || ruling.code === 'openingExchanged',
    lastStroke: { player, ball, entry, moved: movedIn(play), scored, before: positionOf(state) },
    wrongBall: ruling.outcome === 'stands' ? null : ruling,
  };
  return ok(atTurnEnd(played, ball, entry));
};

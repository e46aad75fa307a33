import { BALL_COLOURS } from '../lawn/colours.ts';
import { setOf, sideName } from '../rules/ball-order.ts';
import { err, ok, type Result } from '../units/result.ts';
import { applyRemedy } from './apply-remedy.ts';
import { applyDirection, applyFault, applyOverrule } from './apply-ruling.ts';
import { applyStroke } from './apply-stroke.ts';
import type { Ended, Placements, PlayEvent } from './events.ts';
import { expectation } from './order.ts';
import { type Refusal, refusal } from './refusal.ts';
import { afterMeasuring } from './resting.ts';
import { beginning, type GameState, standingsOf, statusOf } from './state.ts';

/** Events that a game takes while it is suspended. */
const WHILE_SUSPENDED: ReadonlySet<PlayEvent['type']> = new Set(['resumed', 'ended']);
/** Events that add to play, which stops when the game is won. */
const STROKES: ReadonlySet<PlayEvent['type']> = new Set(['turn', 'wrongBall']);

/** Refuses what the game's status does not allow. */
const checkStatus = (state: GameState, event: PlayEvent): Refusal | null => {
  const status = statusOf(state);
  if (event.type === 'begun')
    return refusal('alreadyBegun', 'The game has begun; correct the first entry to change how it is played.');
  if (status === 'ended') return refusal('ended', 'The game has ended; correct an entry to change it.');
  if (status === 'suspended' && !WHILE_SUSPENDED.has(event.type))
    return refusal('suspended', 'The game is suspended; log that it is resumed first.');
  if (status !== 'suspended' && event.type === 'resumed')
    return refusal('notSuspended', `The game is not suspended. ${expectation(state)}.`);
  if (status === 'won' && STROKES.has(event.type) && !state.wrongBall)
    return refusal(
      'won',
      `${sideName(state.setup.colours, standingsOf(state).winner!)} have won; log the end of the game or correct an entry.`,
    );
  return null;
};

/** Refuses places of balls that are not of this game. */
const checkColours = (state: GameState, positions: Placements | undefined): Refusal | null => {
  const foreign = BALL_COLOURS.find((ball) => positions?.[ball] && setOf(ball) !== state.setup.colours);
  if (foreign === undefined) return null;
  return refusal(
    'otherColours',
    `This game is played with the ${state.setup.colours} colours, but ${foreign} was placed; log it in the game of its own colours.`,
  );
};

const measure = (state: GameState, positions: Placements | undefined, entry: number): GameState => ({
  ...state,
  balls: afterMeasuring(state.balls, positions, entry),
});

const applyEnd = (state: GameState, ended: Ended): Result<GameState, Refusal> => {
  const { winner } = standingsOf(state);
  if (ended.reason !== 'points' || (winner !== null && winner === ended.winner))
    return ok({ ...state, suspended: false, ended });
  const need =
    winner === null ? 'no side has the points that win' : `${sideName(state.setup.colours, winner)} have won`;
  return err(
    refusal('notWon', `The game cannot end on points as logged: ${need}; name another reason or winner.`),
  );
};

const applyKind = (state: GameState, event: PlayEvent, entry: number): Result<GameState, Refusal> => {
  switch (event.type) {
    case 'begun':
      return err(refusal('alreadyBegun', 'The game has begun; correct the first entry instead.'));
    case 'turn':
    case 'wrongBall':
      return applyStroke(state, event, entry);
    case 'remedy':
      return applyRemedy(state, event, entry);
    case 'direction':
      return applyDirection(state, event, entry);
    case 'fault':
      return applyFault(state, event, entry);
    case 'ballsPutBack':
      return ok(measure(state, event.positions, entry));
    case 'overrule':
      return applyOverrule(state, event, entry);
    case 'suspended':
      return ok({ ...measure(state, event.positions, entry), suspended: true });
    case 'resumed':
      return ok({ ...measure(state, event.positions, entry), suspended: false });
    case 'ended':
      return applyEnd(state, event);
  }
};

/** The history with the places after entry `entry`, when it changed any. */
const remember = (before: GameState, after: GameState, entry: number): GameState =>
  after.balls === before.balls
    ? after
    : { ...after, history: [...before.history, { entry, balls: after.balls }] };

/**
 * The state after `event` with number `entry`; `state` null before the first. An event that does not fit is refused with what was expected,
 * and the state stays as it was.
 */
export const applyEvent = (
  state: GameState | null,
  event: PlayEvent,
  entry: number,
): Result<GameState, Refusal> => {
  if (state === null) {
    return event.type === 'begun'
      ? ok(beginning(event))
      : err(
          refusal('notBegun', `A log starts with the game's beginning, but ${event.type} was logged first.`),
        );
  }
  const positions = 'positions' in event ? event.positions : undefined;
  const refused = checkStatus(state, event) ?? checkColours(state, positions);
  if (refused) return err(refused);
  const applied = applyKind(state, event, entry);
  return applied.ok ? ok(remember(state, applied.value, entry)) : applied;
};

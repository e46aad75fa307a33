import { applyEvent } from '../../server/games/apply-event.ts';
import type { Entry, PlayEvent, Turn, WrongBall } from '../../server/games/events.ts';
import { replay } from '../../server/games/log.ts';
import type { GameState } from '../../server/games/state.ts';

/** The game after one of its entries in force: the entry's number, its event, the state before and after. */
export type Moment = {
  readonly number: number;
  readonly event: PlayEvent;
  readonly before: GameState | null;
  readonly after: GameState;
};

/** Whether a ball was played in `event`. */
export const isPlay = (event: PlayEvent): event is Turn | WrongBall =>
  event.type === 'turn' || event.type === 'wrongBall';

const playThrough = (entries: readonly Entry[]): readonly Moment[] => {
  const log = replay(entries);
  if (!log.ok) return [];
  const moments: Moment[] = [];
  let state: GameState | null = null;
  for (const { number, event } of log.value.effective) {
    const applied = applyEvent(state, event, number);
    if (!applied.ok) break;
    moments.push({ number, event, before: state, after: applied.value });
    state = applied.value;
  }
  return moments;
};

const played = new WeakMap<readonly Entry[], readonly Moment[]>();

/** The game moment by moment, corrections carried out; empty for a log that does not replay. The same list is played through once. */
export const momentsOf = (entries: readonly Entry[]): readonly Moment[] => {
  const known = played.get(entries);
  if (known) return known;
  const moments = playThrough(entries);
  played.set(entries, moments);
  return moments;
};

/** Whether the last stroke of the game scored, so that its rulings are the ones in question now. */
export const justScored = (moments: readonly Moment[]): boolean => {
  const last = moments.findLast(({ event }) => isPlay(event))?.event;
  return last !== undefined && isPlay(last) && last.scored.length > 0;
};

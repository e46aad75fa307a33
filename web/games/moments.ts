import { applyEvent } from '../../server/games/apply-event.ts';
import type { Entry, PlayEvent } from '../../server/games/events.ts';
import { replay } from '../../server/games/log.ts';
import type { GameState } from '../../server/games/state.ts';

/** The game after one of its entries in force: the entry's number, its event, the state before and after. */
export type Moment = {
  readonly number: number;
  readonly event: PlayEvent;
  readonly before: GameState | null;
  readonly after: GameState;
};

/** The game moment by moment, corrections carried out; empty for a log that does not replay. */
export const momentsOf = (entries: readonly Entry[]): Moment[] => {
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

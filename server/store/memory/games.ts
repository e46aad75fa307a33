import type { Addition, AdditionOutcome, GameHead, GameStore, KeptEvent, KeptGame } from '../store.ts';
import { emptyLabel } from './records.ts';
import { insist, kept, type State } from './state.ts';

const create = (state: State, head: GameHead, events: readonly KeptEvent[]): void => {
  insist(!state.games.has(head.id), 'games.id');
  state.games.set(head.id, kept({ ...head, events }));
};

const append = (state: State, addition: Addition): AdditionOutcome => {
  const game = state.games.get(addition.id);
  if (game === undefined) return { ok: false, code: 'no-such-game' };
  const { version } = game;
  if (version !== addition.expectedVersion) return { ok: false, code: 'version-conflict', version };
  const added = addition.events.map((event, index) => ({
    number: version + index + 1,
    at: addition.at,
    event,
  }));
  state.games.set(
    addition.id,
    kept({
      ...game,
      updatedAt: addition.at,
      version: version + added.length,
      title: addition.title,
      summary: addition.summary,
      events: [...game.events, ...added],
    }),
  );
  return { ok: true, version: version + added.length };
};

const newestFirst = (a: KeptGame, b: KeptGame): number =>
  a.createdAt !== b.createdAt ? (a.createdAt < b.createdAt ? 1 : -1) : a.id < b.id ? 1 : -1;

/** Games in memory. */
export const memoryGames = (state: State): GameStore => ({
  create: async (head, events) => create(state, head, events),
  append: async (addition) => append(state, addition),
  get: async (id) => kept(state.games.get(id) ?? null),
  list: async () =>
    [...state.games.values()].toSorted(newestFirst).map(({ events: _, ...head }) => kept(head)),
  remove: async (id) => {
    emptyLabel(state, 'game', id);
    return state.games.delete(id);
  },
});

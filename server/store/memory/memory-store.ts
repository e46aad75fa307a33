import { byName } from '../by-name.ts';
import type { AnswerStore, NamedStore, SettingsStore, Store, Tables } from '../store.ts';
import { memoryGames } from './games.ts';
import { memoryPhotos } from './photos.ts';
import { emptyLabel, memoryRecords } from './records.ts';
import { emptyState, insist, kept, type State, snapshotOf } from './state.ts';

const memoryNamed = <T extends { readonly id: string; readonly name: string }>(
  items: () => Map<string, T>,
  removed: (id: string) => void,
): NamedStore<T> => ({
  create: async (item) => {
    insist(!items().has(item.id), 'id');
    items().set(item.id, kept(item));
  },
  get: async (id) => kept(items().get(id) ?? null),
  list: async () => kept([...items().values()].toSorted(byName)),
  replace: async (item) => items().has(item.id) && items().set(item.id, kept(item)).has(item.id),
  remove: async (id) => {
    removed(id);
    return items().delete(id);
  },
});

const memorySettings = (state: State): SettingsStore => ({
  get: async () => kept(state.settings.current),
  put: async (settings) => {
    state.settings = { current: kept(settings) };
  },
});

const memoryAnswers = (state: State): AnswerStore => ({
  get: async (scope, key) => kept(state.answers.get(`${scope} ${key}`) ?? null),
  put: async (answer) => {
    const name = `${answer.scope} ${answer.key}`;
    insist(!state.answers.has(name), 'answers_pk');
    state.answers.set(name, kept(answer));
  },
  forgetAbout: async (id) => {
    for (const [name, answer] of state.answers)
      if (JSON.stringify(answer.body).includes(id)) state.answers.delete(name);
  },
  forgetBefore: async (instant) => {
    const old = [...state.answers].filter(([, { createdAt }]) => createdAt < instant);
    for (const [name] of old) state.answers.delete(name);
    return old.length;
  },
});

const tablesOf = (state: State): Tables => ({
  records: memoryRecords(state),
  photos: memoryPhotos(state),
  spots: memoryNamed(
    () => state.spots,
    (id) => emptyLabel(state, 'spot', id),
  ),
  lawns: memoryNamed(
    () => state.lawns,
    () => undefined,
  ),
  settings: memorySettings(state),
  games: memoryGames(state),
  answers: memoryAnswers(state),
});

/** The store in memory, for tests and for trying out: it passes the same suite as the database. */
export const openMemoryStore = (): Store => {
  const state = emptyState();
  const tables = tablesOf(state);
  let turn: Promise<unknown> = Promise.resolve();
  const attempt = async <T>(work: (tables: Tables) => Promise<T>): Promise<T> => {
    const before = snapshotOf(state);
    try {
      return await work(tables);
    } catch (error) {
      Object.assign(state, before);
      throw error;
    }
  };
  return {
    ...tables,
    atomically: (work) => {
      const result = turn.then(() => attempt(work));
      turn = result.catch(() => undefined);
      return result;
    },
    ping: async () => undefined,
    close: async () => undefined,
  };
};

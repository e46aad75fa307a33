import type { PhotoRecord, RecordPage, RecordQuery } from '../../contract/record.ts';
import { fold, wordsOf } from '../fold.ts';
import { type Cursor, makeCursor, parseCursor, periodOf } from '../page-cursor.ts';
import type { RecordStore } from '../store.ts';
import { summaryOf } from '../summary.ts';
import { insist, kept, type State } from './state.ts';

const checkReferences = (state: State, record: PhotoRecord): void => {
  insist(state.photos.has(record.photoId), 'records.photo_id');
  insist(record.game === null || state.games.has(record.game), 'records.game_id');
  insist(record.spot === null || state.spots.has(record.spot), 'records.spot_id');
};

const create = (state: State, record: PhotoRecord): void => {
  insist(!state.records.has(record.id), 'records.id');
  checkReferences(state, record);
  state.records.set(record.id, [kept(record)]);
};

const revise = (state: State, record: PhotoRecord): boolean => {
  const revisions = state.records.get(record.id);
  const newest = revisions?.at(-1);
  if (newest === undefined || newest.revision !== record.revision - 1) return false;
  checkReferences(state, record);
  const { game, spot } = record;
  state.records.set(record.id, [
    ...revisions!.map((revision) => ({ ...revision, game, spot })),
    kept(record),
  ]);
  return true;
};

/** Negative when `a` comes before `b` in the list; an instant's records are ordered by id. */
const newestFirst = (a: Cursor, b: Cursor): number => {
  if (a.at !== b.at) return a.at < b.at ? 1 : -1;
  return a.id === b.id ? 0 : a.id < b.id ? 1 : -1;
};

const placeOf = (record: PhotoRecord): Cursor => ({ at: record.createdAt, id: record.id });

const mentions = (state: State, record: PhotoRecord, word: string): boolean =>
  [
    record.note,
    record.spot && state.spots.get(record.spot)?.name,
    record.game && state.games.get(record.game)?.title,
  ].some((text) => text && fold(text).includes(word));

const admits = (state: State, query: RecordQuery, record: PhotoRecord): boolean => {
  const { from, to } = periodOf(query);
  const cursor = query.before === undefined ? null : parseCursor(query.before);
  return (
    (from === undefined || record.createdAt >= from) &&
    (to === undefined || record.createdAt < to) &&
    (query.kind === undefined || record.kind === query.kind) &&
    (query.game === undefined || record.game === query.game) &&
    (query.spot === undefined || record.spot === query.spot) &&
    wordsOf(query.q).every((word) => mentions(state, record, word)) &&
    (cursor === null || newestFirst(cursor, placeOf(record)) < 0)
  );
};

const list = (state: State, query: RecordQuery): RecordPage => {
  const found = [...state.records.values()]
    .map((revisions) => revisions.at(-1)!)
    .filter((record) => admits(state, query, record))
    .toSorted((a, b) => newestFirst(placeOf(a), placeOf(b)));
  const readings = found.slice(0, query.limit).map((record) => kept(summaryOf(record)));
  const last = found.length > query.limit ? readings.at(-1) : undefined;
  return { readings, next: last ? makeCursor({ at: last.createdAt, id: last.id }) : null };
};

/** Records in memory. */
export const memoryRecords = (state: State): RecordStore => ({
  create: async (record) => create(state, record),
  revise: async (record) => revise(state, record),
  get: async (id) => kept(state.records.get(id)?.at(-1) ?? null),
  revisions: async (id) => kept([...(state.records.get(id) ?? [])]),
  list: async (query) => list(state, query),
  remove: async (id) => state.records.delete(id),
});

/** Empties the label `field` of every record where it names `id`. */
export const emptyLabel = (state: State, field: 'game' | 'spot', id: string): void => {
  for (const [key, revisions] of state.records)
    if (revisions.at(-1)![field] === id)
      state.records.set(
        key,
        revisions.map((revision) => ({ ...revision, [field]: null })),
      );
};

import { type Kysely, sql } from 'kysely';
import type { PhotoRecord, RecordPage, RecordQuery, RecordSummary } from '../../contract/record.ts';
import { fold, wordsOf } from '../fold.ts';
import { makeCursor, parseCursor, periodOf } from '../page-cursor.ts';
import type { RecordStore } from '../store.ts';
import { decode, encode, FORMATS } from '../stored-format.ts';
import { summaryOf } from '../summary.ts';
import type { Database } from './schema.ts';
import { together } from './together.ts';

type Db = Kysely<Database>;
type Labels = { readonly game_id: string | null; readonly spot_id: string | null };

/** The columns are the truth about labels: removing a game or a spot empties them there. */
const withLabels = <T extends { game: string | null; spot: string | null }>(item: T, row: Labels): T => ({
  ...item,
  game: row.game_id,
  spot: row.spot_id,
});

const headRow = (record: PhotoRecord) => ({
  id: record.id,
  kind: record.kind,
  revision: record.revision,
  created_at: record.createdAt,
  updated_at: record.updatedAt,
  photo_id: record.photoId,
  game_id: record.game,
  spot_id: record.spot,
  format: FORMATS.record,
  summary: encode(summaryOf(record)),
  search: fold(record.note ?? ''),
});

const revisionRow = (record: PhotoRecord) => ({
  record_id: record.id,
  revision: record.revision,
  kept_at: record.updatedAt,
  format: FORMATS.record,
  document: encode(record),
});

const create = async (db: Db, record: PhotoRecord): Promise<void> => {
  await db.insertInto('records').values(headRow(record)).execute();
  await db.insertInto('record_revisions').values(revisionRow(record)).execute();
};

/** The condition on the revision makes the update the lock: of two corrections made at once one changes no row. */
const revise = async (db: Db, record: PhotoRecord): Promise<boolean> => {
  const { id, created_at: _, ...changed } = headRow(record);
  const { numUpdatedRows } = await db
    .updateTable('records')
    .set(changed)
    .where('id', '=', id)
    .where('revision', '=', record.revision - 1)
    .executeTakeFirst();
  if (numUpdatedRows === 0n) return false;
  await db.insertInto('record_revisions').values(revisionRow(record)).execute();
  return true;
};

const revisionsOf = (db: Db, id: string) =>
  db
    .selectFrom('record_revisions')
    .innerJoin('records', 'records.id', 'record_revisions.record_id')
    .where('record_revisions.record_id', '=', id)
    .select([
      'record_revisions.format',
      'record_revisions.document',
      'records.game_id',
      'records.spot_id',
      'record_revisions.revision',
    ]);

const get = async (db: Db, id: string): Promise<PhotoRecord | null> => {
  const row = await revisionsOf(db, id)
    .whereRef('record_revisions.revision', '=', 'records.revision')
    .executeTakeFirst();
  return row ? withLabels(decode<PhotoRecord>('record', row), row) : null;
};

/** A text to find anywhere, with what has a meaning in a LIKE pattern made plain. */
const anywhere = (word: string): string => `%${word.replaceAll(/[\\%_]/g, (sign) => `\\${sign}`)}%`;

/** Holds when the word is in the note, the spot's name or the game's title. */
const mentions = (word: string) =>
  sql<boolean>`records.search || ' ' || coalesce(spots.search, '') || ' ' || coalesce(games.search, '') like ${anywhere(word)} escape '\\'`;

const filtered = (db: Db, query: RecordQuery) => {
  const { from, to } = periodOf(query);
  let select = db
    .selectFrom('records')
    .leftJoin('spots', 'spots.id', 'records.spot_id')
    .leftJoin('games', 'games.id', 'records.game_id')
    .select(['records.summary', 'records.format', 'records.game_id', 'records.spot_id']);
  if (from !== undefined) select = select.where('records.created_at', '>=', from);
  if (to !== undefined) select = select.where('records.created_at', '<', to);
  if (query.kind !== undefined) select = select.where('records.kind', '=', query.kind);
  if (query.game !== undefined) select = select.where('records.game_id', '=', query.game);
  if (query.spot !== undefined) select = select.where('records.spot_id', '=', query.spot);
  for (const word of wordsOf(query.q)) select = select.where(mentions(word));
  if (query.before === undefined) return select;
  const { at, id } = parseCursor(query.before);
  return select.where(({ or, and, eb }) =>
    or([
      eb('records.created_at', '<', at),
      and([eb('records.created_at', '=', at), eb('records.id', '<', id)]),
    ]),
  );
};

const list = async (db: Db, query: RecordQuery): Promise<RecordPage> => {
  const rows = await filtered(db, query)
    .orderBy('records.created_at', 'desc')
    .orderBy('records.id', 'desc')
    .limit(query.limit + 1)
    .execute();
  const readings = rows
    .slice(0, query.limit)
    .map((row) => withLabels(decode<RecordSummary>('record', { ...row, document: row.summary }), row));
  const last = rows.length > query.limit ? readings.at(-1) : undefined;
  return { readings, next: last ? makeCursor({ at: last.createdAt, id: last.id }) : null };
};

/** Records in the database `db`. */
export const sqlRecords = (db: Db): RecordStore => ({
  create: (record) => together(db, (inner) => create(inner, record)),
  revise: (record) => together(db, (inner) => revise(inner, record)),
  get: (id) => get(db, id),
  revisions: async (id) =>
    (await revisionsOf(db, id).orderBy('record_revisions.revision').execute()).map((row) =>
      withLabels(decode<PhotoRecord>('record', row), row),
    ),
  list: (query) => list(db, query),
  remove: async (id) =>
    (await db.deleteFrom('records').where('id', '=', id).executeTakeFirst()).numDeletedRows > 0n,
});

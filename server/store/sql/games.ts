import type { Kysely } from 'kysely';
import { fold } from '../fold.ts';
import type { Addition, AdditionOutcome, GameHead, GameStore, KeptEvent, KeptGame } from '../store.ts';
import { decode, encode, FORMATS } from '../stored-format.ts';
import type { Database } from './schema.ts';
import { together } from './together.ts';

type Db = Kysely<Database>;

const eventRow = (gameId: string, { number, at, event }: KeptEvent) => ({
  game_id: gameId,
  number,
  kept_at: at,
  format: FORMATS.event,
  document: encode(event),
});

const create = async (db: Db, game: GameHead, events: readonly KeptEvent[]): Promise<void> => {
  await db
    .insertInto('games')
    .values({
      id: game.id,
      title: game.title,
      search: fold(game.title),
      created_at: game.createdAt,
      updated_at: game.updatedAt,
      version: game.version,
      format: FORMATS.game,
      summary: encode(game.summary),
    })
    .execute();
  for (const event of events) await db.insertInto('game_events').values(eventRow(game.id, event)).execute();
};

const refusal = async (db: Db, id: string): Promise<AdditionOutcome> => {
  const row = await db.selectFrom('games').select('version').where('id', '=', id).executeTakeFirst();
  return row
    ? { ok: false, code: 'version-conflict', version: row.version }
    : { ok: false, code: 'no-such-game' };
};

/** The condition on the version makes the update the lock: of two additions made at once one changes no row. */
const append = async (db: Db, addition: Addition): Promise<AdditionOutcome> => {
  const version = addition.expectedVersion + addition.events.length;
  const { numUpdatedRows } = await db
    .updateTable('games')
    .set({
      version,
      updated_at: addition.at,
      title: addition.title,
      search: fold(addition.title),
      summary: encode(addition.summary),
    })
    .where('id', '=', addition.id)
    .where('version', '=', addition.expectedVersion)
    .executeTakeFirst();
  if (numUpdatedRows === 0n) return refusal(db, addition.id);
  for (const [index, event] of addition.events.entries()) {
    const kept = { number: addition.expectedVersion + index + 1, at: addition.at, event };
    await db.insertInto('game_events').values(eventRow(addition.id, kept)).execute();
  }
  return { ok: true, version };
};

const HEAD = ['id', 'title', 'created_at', 'updated_at', 'version', 'format', 'summary'] as const;

const headOf = (row: Pick<Database['games'], (typeof HEAD)[number]>): GameHead => ({
  id: row.id,
  title: row.title,
  createdAt: row.created_at,
  updatedAt: row.updated_at,
  version: row.version,
  summary: decode('game', { format: row.format, document: row.summary }),
});

const get = async (db: Db, id: string): Promise<KeptGame | null> => {
  const head = await db.selectFrom('games').select(HEAD).where('id', '=', id).executeTakeFirst();
  if (head === undefined) return null;
  const rows = await db
    .selectFrom('game_events')
    .select(['number', 'kept_at', 'format', 'document'])
    .where('game_id', '=', id)
    .orderBy('number')
    .execute();
  const events = rows.map((row) => ({ number: row.number, at: row.kept_at, event: decode('event', row) }));
  return { ...headOf(head), events };
};

/** Games in the database `db`. */
export const sqlGames = (db: Db): GameStore => ({
  create: (game, events) => together(db, (inner) => create(inner, game, events)),
  append: (addition) => together(db, (inner) => append(inner, addition)),
  get: (id) => together(db, (inner) => get(inner, id)),
  list: async () =>
    (
      await db.selectFrom('games').select(HEAD).orderBy('created_at', 'desc').orderBy('id', 'desc').execute()
    ).map(headOf),
  remove: async (id) =>
    (await db.deleteFrom('games').where('id', '=', id).executeTakeFirst()).numDeletedRows > 0n,
});

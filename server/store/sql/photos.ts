import { type Kysely, sql } from 'kysely';
import type { Photo } from '../../contract/photo.ts';
import type { PhotoStore } from '../store.ts';
import type { Database } from './schema.ts';

type Db = Kysely<Database>;

const rowOf = (photo: Photo) => ({
  id: photo.id,
  created_at: photo.createdAt,
  width: photo.width,
  height: photo.height,
  format: photo.format,
  bytes: photo.bytes,
  focal35: photo.focal35,
  focal_pixels: photo.focalPixels,
  taken_at: photo.takenAt,
});

const photoOf = (row: ReturnType<typeof rowOf>): Photo => ({
  id: row.id,
  createdAt: row.created_at,
  width: row.width,
  height: row.height,
  format: row.format,
  bytes: row.bytes,
  focal35: row.focal35,
  focalPixels: row.focal_pixels,
  takenAt: row.taken_at,
});

const COLUMNS = [
  'id',
  'created_at',
  'width',
  'height',
  'format',
  'bytes',
  'focal35',
  'focal_pixels',
  'taken_at',
] as const;

/** Photos to which neither a record nor the text of a game's event refers. An id is random, so that it stands in a text by no accident. */
const unused = (db: Db) =>
  db
    .selectFrom('photos')
    .where(({ not, exists, selectFrom }) =>
      not(exists(selectFrom('records').select('records.id').whereRef('records.photo_id', '=', 'photos.id'))),
    )
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom('game_events')
            .select('game_events.number')
            .where('game_events.document', 'like', sql<string>`'%' || photos.id || '%'`),
        ),
      ),
    )
    .select('photos.id');

/** Photos in the database `db`. */
export const sqlPhotos = (db: Db): PhotoStore => ({
  create: async (photo) => {
    await db.insertInto('photos').values(rowOf(photo)).execute();
  },
  get: async (id) => {
    const row = await db.selectFrom('photos').select(COLUMNS).where('id', '=', id).executeTakeFirst();
    return row ? photoOf(row) : null;
  },
  ids: async () => (await db.selectFrom('photos').select('id').execute()).map(({ id }) => id),
  inUse: async (id) => (await unused(db).where('photos.id', '=', id).executeTakeFirst()) === undefined,
  unusedSince: async (instant) =>
    (await unused(db).where('photos.created_at', '<', instant).execute()).map(({ id }) => id),
  remove: async (id) =>
    (await db.deleteFrom('photos').where('id', '=', id).executeTakeFirst()).numDeletedRows > 0n,
});

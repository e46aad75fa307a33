import type { Kysely } from 'kysely';

type Db = Kysely<unknown>;

const photos = (db: Db) =>
  db.schema
    .createTable('photos')
    .ifNotExists()
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('created_at', 'text', (column) => column.notNull())
    .addColumn('width', 'integer', (column) => column.notNull())
    .addColumn('height', 'integer', (column) => column.notNull())
    .addColumn('format', 'text', (column) => column.notNull())
    .addColumn('bytes', 'integer', (column) => column.notNull())
    .addColumn('focal35', 'double precision')
    .addColumn('focal_pixels', 'double precision')
    .addColumn('taken_at', 'text')
    .execute();

const named = (db: Db, table: 'spots' | 'lawns') =>
  db.schema
    .createTable(table)
    .ifNotExists()
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('search', 'text', (column) => column.notNull())
    .addColumn('format', 'integer', (column) => column.notNull())
    .addColumn('document', 'text', (column) => column.notNull())
    .execute();

const settings = (db: Db) =>
  db.schema
    .createTable('settings')
    .ifNotExists()
    .addColumn('id', 'integer', (column) => column.primaryKey())
    .addColumn('format', 'integer', (column) => column.notNull())
    .addColumn('document', 'text', (column) => column.notNull())
    .execute();

const games = async (db: Db) => {
  await db.schema
    .createTable('games')
    .ifNotExists()
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('title', 'text', (column) => column.notNull())
    .addColumn('created_at', 'text', (column) => column.notNull())
    .addColumn('updated_at', 'text', (column) => column.notNull())
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('format', 'integer', (column) => column.notNull())
    .addColumn('summary', 'text', (column) => column.notNull())
    .addColumn('search', 'text', (column) => column.notNull())
    .execute();
  await db.schema
    .createTable('game_events')
    .ifNotExists()
    .addColumn('game_id', 'text', (column) => column.notNull().references('games.id').onDelete('cascade'))
    .addColumn('number', 'integer', (column) => column.notNull())
    .addColumn('kept_at', 'text', (column) => column.notNull())
    .addColumn('format', 'integer', (column) => column.notNull())
    .addColumn('document', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('game_events_pk', ['game_id', 'number'])
    .execute();
};

const records = async (db: Db) => {
  await db.schema
    .createTable('records')
    .ifNotExists()
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('revision', 'integer', (column) => column.notNull())
    .addColumn('created_at', 'text', (column) => column.notNull())
    .addColumn('updated_at', 'text', (column) => column.notNull())
    .addColumn('photo_id', 'text', (column) => column.notNull().references('photos.id'))
    .addColumn('game_id', 'text', (column) => column.references('games.id').onDelete('set null'))
    .addColumn('spot_id', 'text', (column) => column.references('spots.id').onDelete('set null'))
    .addColumn('format', 'integer', (column) => column.notNull())
    .addColumn('summary', 'text', (column) => column.notNull())
    .addColumn('search', 'text', (column) => column.notNull())
    .execute();
  await db.schema
    .createTable('record_revisions')
    .ifNotExists()
    .addColumn('record_id', 'text', (column) => column.notNull().references('records.id').onDelete('cascade'))
    .addColumn('revision', 'integer', (column) => column.notNull())
    .addColumn('kept_at', 'text', (column) => column.notNull())
    .addColumn('format', 'integer', (column) => column.notNull())
    .addColumn('document', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('record_revisions_pk', ['record_id', 'revision'])
    .execute();
};

const INDEXES = [
  ['records_by_time', ['created_at', 'id']],
  ['records_by_photo', ['photo_id']],
  ['records_by_game', ['game_id']],
  ['records_by_spot', ['spot_id']],
] as const;

const answers = (db: Db) =>
  db.schema
    .createTable('answers')
    .ifNotExists()
    .addColumn('scope', 'text', (column) => column.notNull())
    .addColumn('key', 'text', (column) => column.notNull())
    .addColumn('fingerprint', 'text', (column) => column.notNull())
    .addColumn('status', 'integer', (column) => column.notNull())
    .addColumn('created_at', 'text', (column) => column.notNull())
    .addColumn('format', 'integer', (column) => column.notNull())
    .addColumn('document', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('answers_pk', ['scope', 'key'])
    .execute();

/** Makes the first tables. Repeating it after an interruption does no harm. */
export const up = async (db: Db): Promise<void> => {
  await photos(db);
  await named(db, 'spots');
  await named(db, 'lawns');
  await settings(db);
  await games(db);
  await records(db);
  await answers(db);
  for (const [name, columns] of INDEXES)
    await db.schema
      .createIndex(name)
      .ifNotExists()
      .on('records')
      .columns([...columns])
      .execute();
};

/** Drops the first tables with all they hold. */
export const down = async (db: Db): Promise<void> => {
  for (const table of [
    'answers',
    'record_revisions',
    'records',
    'game_events',
    'games',
    'settings',
    'lawns',
    'spots',
    'photos',
  ])
    await db.schema.dropTable(table).ifExists().execute();
};

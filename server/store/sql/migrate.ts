import { type Kysely, Migrator } from 'kysely';
import { MIGRATIONS } from './migrations/all.ts';
import type { Database } from './schema.ts';

const migratorOf = (db: Kysely<Database>): Migrator =>
  new Migrator({ db, provider: { getMigrations: async () => ({ ...MIGRATIONS }) } });

/** Names of executed migrations that this program does not know: the database is newer than the program. */
const unknownMigrations = async (db: Kysely<Database>): Promise<string[]> => {
  const tables = await db.introspection.getTables({ withInternalKyselyTables: true });
  if (!tables.some(({ name }) => name === 'kysely_migration')) return [];
  const rows = await (db as unknown as Kysely<{ kysely_migration: { name: string } }>)
    .selectFrom('kysely_migration')
    .select('name')
    .execute();
  return rows.map(({ name }) => name).filter((name) => !(name in MIGRATIONS));
};

const newest = (): string => Object.keys(MIGRATIONS).at(-1) ?? 'none';

/** Brings the database to the newest form. Throws when it was made by a newer program, naming both forms. */
export const migrateToNewest = async (db: Kysely<Database>): Promise<void> => {
  const unknown = await unknownMigrations(db);
  if (unknown.length > 0)
    throw new Error(
      `The database has the form "${unknown.at(-1)}", but this program knows forms up to "${newest()}"; start the newer program, or restore a matching backup.`,
    );
  const { error } = await migratorOf(db).migrateToLatest();
  if (error) throw error;
};

/** Takes the last migration back; the tests prove by it that every step has a way down. */
export const migrateDown = async (db: Kysely<Database>): Promise<void> => {
  const { error } = await migratorOf(db).migrateDown();
  if (error) throw error;
};

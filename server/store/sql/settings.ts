import type { Kysely } from 'kysely';
import type { Settings } from '../../contract/settings.ts';
import type { SettingsStore } from '../store.ts';
import { decode, encode, FORMATS } from '../stored-format.ts';
import type { Database } from './schema.ts';

/** The one row of the table. */
const ONLY = 1;

/** The settings in the database `db`. */
export const sqlSettings = (db: Kysely<Database>): SettingsStore => ({
  get: async () => {
    const row = await db
      .selectFrom('settings')
      .select(['format', 'document'])
      .where('id', '=', ONLY)
      .executeTakeFirst();
    return row ? decode<Settings>('settings', row) : null;
  },
  put: async (settings) => {
    const kept = { format: FORMATS.settings, document: encode(settings) };
    await db
      .insertInto('settings')
      .values({ id: ONLY, ...kept })
      .onConflict((conflict) => conflict.column('id').doUpdateSet(kept))
      .execute();
  },
});

import type { Kysely } from 'kysely';
import type { Database } from './schema.ts';

/** Runs `work` as one transaction, unless `db` is one already. */
export const together = <T>(db: Kysely<Database>, work: (db: Kysely<Database>) => Promise<T>): Promise<T> =>
  db.isTransaction ? work(db) : db.transaction().execute(work);

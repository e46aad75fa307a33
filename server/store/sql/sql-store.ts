import { type Kysely, sql } from 'kysely';
import type { ClubLawn, Spot } from '../../contract/spot.ts';
import type { Store, Tables } from '../store.ts';
import { sqlAnswers } from './answers.ts';
import { sqlGames } from './games.ts';
import { migrateToNewest } from './migrate.ts';
import { sqlNamed } from './named.ts';
import { sqlPhotos } from './photos.ts';
import { sqlRecords } from './records.ts';
import type { Database } from './schema.ts';
import { sqlSettings } from './settings.ts';

const tablesOf = (db: Kysely<Database>): Tables => ({
  records: sqlRecords(db),
  photos: sqlPhotos(db),
  spots: sqlNamed<Spot>(db, 'spots'),
  lawns: sqlNamed<ClubLawn>(db, 'lawns'),
  settings: sqlSettings(db),
  games: sqlGames(db),
  answers: sqlAnswers(db),
});

/** The store in the database `db`, brought to the newest form first. Closing the store closes `db`. */
export const openSqlStore = async (db: Kysely<Database>): Promise<Store> => {
  await migrateToNewest(db);
  return {
    ...tablesOf(db),
    atomically: (work) => db.transaction().execute((inner) => work(tablesOf(inner))),
    ping: async () => {
      await sql`select 1`.execute(db);
    },
    close: () => db.destroy(),
  };
};

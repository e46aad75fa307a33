import { join } from 'node:path';
import type { Config } from '../config.ts';
import type { Log } from '../logging.ts';
import { connectFile, connectPostgres } from '../store/sql/connect.ts';
import { openSqlStore } from '../store/sql/sql-store.ts';
import type { Store } from '../store/store.ts';

/** The store that the configuration names: PostgreSQL by its address, otherwise a file in the folder of data. */
export const openStore = ({ databaseUrl, data }: Config, log: Log): Promise<Store> =>
  openSqlStore(
    databaseUrl === null
      ? connectFile(join(data, 'sward.db'))
      : connectPostgres(databaseUrl, (error) => log.warn({ err: error }, 'a database connection was lost')),
  );

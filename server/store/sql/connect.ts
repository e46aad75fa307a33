import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { Kysely, PostgresDialect, type SqliteDatabase, SqliteDialect } from 'kysely';
import LibsqlDatabase from 'libsql';
import pg from 'pg';
import type { Database } from './schema.ts';

/** How long a statement waits for another process that holds the file, ms. */
const BUSY_MS = 5000;

/**
 * The database in the file `path`, made when there is none. Every commit is on the disk before it is answered: write-ahead log with
 * `synchronous = FULL`, which flushes the log at each commit.
 */
export const connectFile = (path: string): Kysely<Database> => {
  mkdirSync(dirname(path), { recursive: true });
  const file = new LibsqlDatabase(path);
  file.exec(
    `pragma busy_timeout = ${BUSY_MS}; pragma journal_mode = WAL; pragma synchronous = FULL; pragma foreign_keys = ON;`,
  );
  return new Kysely<Database>({
    dialect: new SqliteDialect({ database: file as unknown as SqliteDatabase }),
  });
};

/** Most connections to a PostgreSQL server at once. */
const MOST_CONNECTIONS = 8;
/** How long to wait for a connection, ms. */
const CONNECT_MS = 10_000;

/**
 * The PostgreSQL database at `url`. Its default `synchronous_commit = on` puts every commit on the disk before it is answered; the
 * session insists on it. `lost` hears of idle connections that the server closed; the pool opens new ones by itself.
 */
export const connectPostgres = (url: string, lost: (error: Error) => void): Kysely<Database> => {
  const pool = new pg.Pool({
    connectionString: url,
    max: MOST_CONNECTIONS,
    connectionTimeoutMillis: CONNECT_MS,
    options: '-c synchronous_commit=on -c timezone=UTC',
  });
  pool.on('error', lost);
  return new Kysely<Database>({ dialect: new PostgresDialect({ pool }) });
};

import type { Migration } from 'kysely';
import * as firstTables from './2026-11-24-first-tables.ts';

/** Every change of the database's form by date, the oldest first. Add at the end; never change one that was released. */
export const MIGRATIONS: Readonly<Record<string, Migration>> = {
  '2026-11-24-first-tables': firstTables,
};

import type { Kysely } from 'kysely';
import { byName } from '../by-name.ts';
import { fold } from '../fold.ts';
import type { NamedStore } from '../store.ts';
import { decode, encode, FORMATS } from '../stored-format.ts';
import type { Database } from './schema.ts';

type Table = 'spots' | 'lawns';
const STORED = { spots: 'spot', lawns: 'lawn' } as const;

const rowOf = (table: Table, item: { readonly id: string; readonly name: string }) => ({
  id: item.id,
  name: item.name,
  search: fold(item.name),
  format: FORMATS[STORED[table]],
  document: encode(item),
});

/** The named things of `table` in the database `db`. */
export const sqlNamed = <T extends { readonly id: string; readonly name: string }>(
  db: Kysely<Database>,
  table: Table,
): NamedStore<T> => ({
  create: async (item) => {
    await db.insertInto(table).values(rowOf(table, item)).execute();
  },
  get: async (id) => {
    const row = await db
      .selectFrom(table)
      .select(['format', 'document'])
      .where('id', '=', id)
      .executeTakeFirst();
    return row ? decode<T>(STORED[table], row) : null;
  },
  list: async () =>
    (await db.selectFrom(table).select(['id', 'name', 'format', 'document']).execute())
      .map((row) => decode<T>(STORED[table], row))
      .toSorted(byName),
  replace: async (item) => {
    const { id, ...changed } = rowOf(table, item);
    const { numUpdatedRows } = await db
      .updateTable(table)
      .set(changed)
      .where('id', '=', id)
      .executeTakeFirst();
    return numUpdatedRows > 0n;
  },
  remove: async (id) =>
    (await db.deleteFrom(table).where('id', '=', id).executeTakeFirst()).numDeletedRows > 0n,
});

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { connectFile } from '../../server/store/sql/connect.ts';
import { migrateDown, migrateToNewest } from '../../server/store/sql/migrate.ts';
import { MIGRATIONS } from '../../server/store/sql/migrations/all.ts';
import { openSqlStore } from '../../server/store/sql/sql-store.ts';
import { lawnRecord, photo } from './samples.ts';
import { describeStore } from './store-suite.ts';

describeStore('in a database file', () => openSqlStore(connectFile(':memory:')));

describe('the database file', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'sward-'));
  });
  afterEach(() => rmSync(folder, { recursive: true }));
  const open = () => connectFile(join(folder, 'deep', 'sward.db'));

  it('writes ahead and flushes at every commit', async () => {
    const db = open();
    const value = async (pragma: string) =>
      Object.values((await sql.raw(`pragma ${pragma}`).execute(db)).rows[0] as object)[0];
    expect(await value('journal_mode')).toBe('wal');
    // 2 is FULL (sqlite.org/pragma.html#pragma_synchronous).
    expect(await value('synchronous')).toBe(2);
    expect(await value('foreign_keys')).toBe(1);
    await db.destroy();
  });

  it('still holds a record after it was closed and opened again', async () => {
    const its = photo();
    const record = lawnRecord(its.id);
    const store = await openSqlStore(open());
    await store.photos.create(its);
    await store.records.create(record);
    await store.close();
    const again = await openSqlStore(open());
    expect(await again.records.get(record.id)).toEqual(record);
    await again.close();
  });

  it('goes down every migration to nothing and up again', async () => {
    const db = open();
    await migrateToNewest(db);
    for (const _ of Object.keys(MIGRATIONS)) await migrateDown(db);
    expect(await db.introspection.getTables()).toEqual([]);
    await migrateToNewest(db);
    expect((await db.introspection.getTables()).map(({ name }) => name)).toContain('records');
    await db.destroy();
  });

  it('refuses a database that a newer program made, naming both forms', async () => {
    const db = open();
    await migrateToNewest(db);
    await sql`insert into kysely_migration (name, timestamp) values ('2031-01-01-later', '2031-01-01')`.execute(
      db,
    );
    await expect(openSqlStore(db)).rejects.toThrow(
      /"2031-01-01-later".*forms up to "2026-11-24-first-tables"/,
    );
    await db.destroy();
  });

  it('refuses a record of another format version, naming both', async () => {
    const db = open();
    const store = await openSqlStore(db);
    const its = photo();
    const record = lawnRecord(its.id);
    await store.photos.create(its);
    await store.records.create(record);
    await db.updateTable('record_revisions').set({ format: 9 }).execute();
    await expect(store.records.get(record.id)).rejects.toThrow(
      /record has format version 9, but this program reads version 1/,
    );
    await store.close();
  });
});

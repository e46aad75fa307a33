import { randomUUID } from 'node:crypto';
import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { connectPostgres } from '../../server/store/sql/connect.ts';
import { migrateDown, migrateToNewest } from '../../server/store/sql/migrate.ts';
import { MIGRATIONS } from '../../server/store/sql/migrations/all.ts';
import { openSqlStore } from '../../server/store/sql/sql-store.ts';
import { seeded, writeAndKill } from './kill-rounds.ts';
import { type PostgresServer, postgresPrograms, startPostgres } from './postgres-server.ts';
import { at } from './samples.ts';
import { describeStore } from './store-suite.ts';

const programs = postgresPrograms();
if (programs === null)
  console.warn(
    'PostgreSQL is not installed, so its tests are skipped; install the Debian package "postgresql".',
  );

const connect = (url: string) => connectPostgres(url, () => undefined);

describe.skipIf(programs === null)('with PostgreSQL', () => {
  let server: PostgresServer;
  beforeAll(async () => {
    server = await startPostgres(programs!);
  });
  afterAll(() => server?.remove());

  describeStore('in PostgreSQL', async () => openSqlStore(connect(await server.database('suite'))));

  it('commits to the disk before it answers', async () => {
    const db = connect(await server.database('settings'));
    const { rows } = await sql<{ synchronous_commit: string }>`show synchronous_commit`.execute(db);
    expect(rows[0]!.synchronous_commit).toBe('on');
    await db.destroy();
  });

  it('goes down every migration to nothing and up again', async () => {
    const db = connect(await server.database('migrations'));
    await migrateToNewest(db);
    for (const _ of Object.keys(MIGRATIONS)) await migrateDown(db);
    expect(await db.introspection.getTables()).toEqual([]);
    await migrateToNewest(db);
    expect((await db.introspection.getTables()).map(({ name }) => name)).toContain('records');
    await db.destroy();
  });

  it('keeps every acknowledged event through kills of the writer and of the server itself', async () => {
    const [url, id, random] = [await server.database('kills'), randomUUID(), seeded(20261125)];
    const first = await openSqlStore(connect(url));
    await first.games.create({ id, createdAt: at(0), updatedAt: at(0), version: 1, title: '', summary: {} }, [
      { number: 1, at: at(0), event: { type: 'begun' } },
    ]);
    await first.close();
    for (let kill = 0; kill < 8; kill += 1) {
      const acknowledged = await writeAndKill(url, id, 25, random() * 12);
      if (kill % 2 === 1) {
        await server.kill();
        await server.start();
      }
      const store = await openSqlStore(connect(url));
      const game = (await store.games.get(id))!;
      expect(game.events.map(({ number }) => number)).toEqual(
        Array.from({ length: game.version }, (_, index) => index + 1),
      );
      expect(game.version - acknowledged).toBeGreaterThanOrEqual(0);
      expect(game.version - acknowledged).toBeLessThanOrEqual(1);
      await store.close();
    }
  });
});

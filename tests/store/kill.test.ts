import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { expect, it } from 'vitest';
import { connectFile } from '../../server/store/sql/connect.ts';
import { openSqlStore } from '../../server/store/sql/sql-store.ts';
import type { Store } from '../../server/store/store.ts';
import { seeded, writeAndKill } from './kill-rounds.ts';
import { at } from './samples.ts';

/** Events acknowledged before each kill; 8 × 25 make the 200 rounds. */
const ROUNDS = 25;
const KILLS = 8;

const begin = async (store: Store, id: string) =>
  store.games.create({ id, createdAt: at(0), updatedAt: at(0), version: 1, title: '', summary: {} }, [
    { number: 1, at: at(0), event: { type: 'begun' } },
  ]);

const numbersKept = async (store: Store, id: string) =>
  (await store.games.get(id))!.events.map(({ number }) => number);

it('keeps every acknowledged event in the database file through 8 kills in 200 rounds', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'sward-'));
  const [path, id, random] = [join(folder, 'sward.db'), randomUUID(), seeded(20261124)];
  const first = await openSqlStore(connectFile(path));
  await begin(first, id);
  await first.close();
  for (let kill = 0; kill < KILLS; kill += 1) {
    const acknowledged = await writeAndKill(path, id, ROUNDS, random() * 12);
    const db = connectFile(path);
    const store = await openSqlStore(db);
    const numbers = await numbersKept(store, id);
    // What was acknowledged is there, in order, and at most the one event in flight is there besides.
    expect(numbers).toEqual(Array.from(numbers, (_, index) => index + 1));
    expect(numbers.length - acknowledged).toBeGreaterThanOrEqual(0);
    expect(numbers.length - acknowledged).toBeLessThanOrEqual(1);
    expect((await store.games.get(id))!.version).toBe(numbers.length);
    const { rows } = await sql<{ integrity_check: string }>`pragma integrity_check`.execute(db);
    expect(rows[0]!.integrity_check).toBe('ok');
    await store.close();
  }
  rmSync(folder, { recursive: true });
});

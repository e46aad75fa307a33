import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { postgresPrograms, startPostgres } from '../store/postgres-server.ts';
import { ready, startIn, stop } from './started-service.ts';

const programs = postgresPrograms();

it.skipIf(programs === null)(
  'keeps its records in the PostgreSQL database of DATABASE_URL, and only photos in its folder',
  async () => {
    const data = mkdtempSync(join(tmpdir(), 'sward-'));
    const server = await startPostgres(programs!);
    const environment = { DATABASE_URL: await server.database('club') };
    const first = startIn(data, environment);
    const made = await fetch(`${await ready(first)}/api/spots`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ name: 'Clubhouse balcony' }),
    });
    expect(made.status).toBe(201);
    const spot = await made.json();
    expect(await stop(first)).toBe(0);
    const second = startIn(data, environment);
    const { spots } = (await (await fetch(`${await ready(second)}/api/spots`)).json()) as {
      spots: unknown[];
    };
    expect(spots).toEqual([spot]);
    expect(await stop(second)).toBe(0);
    expect(readdirSync(data).toSorted()).toEqual(['incoming', 'photos']);
    await server.remove();
    rmSync(data, { recursive: true });
  },
  240_000,
);

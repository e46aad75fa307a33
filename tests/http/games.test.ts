import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { errorOf, type Running, startService } from './harness.ts';

let service: Running;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

type Game = {
  id: string;
  title: string;
  version: number;
  events: { number: number; at: string; event: { type: string } }[];
  state: { status: string; next: { balls: string[] }; turns: number };
};
const body = async <T = Game>(response: Response | Promise<Response>): Promise<T> =>
  (await response).json() as Promise<T>;
const begin = (input: object = {}) =>
  service.send('/api/games', { names: { blue: 'Ida Holm', red: 'Tomas Reyl' }, ...input });
const turn = (ball: string, more: object = {}) => ({
  type: 'turn',
  player: ball,
  ball,
  positions: { [ball]: { x: 5, y: 6 } },
  ...more,
});
const add = (id: string, expectedVersion: number, events: object[], init: RequestInit = {}) =>
  service.send(`/api/games/${id}/events`, { expectedVersion, events }, init);

describe('a game', () => {
  it('begins with what the club set, and is listed', async () => {
    await service.send(
      '/api/settings',
      { edition: '2013', lawn: { width: 20, length: 25 } },
      { method: 'PUT' },
    );
    const response = await begin();
    expect(response.status).toBe(201);
    const game = await body(response);
    expect(game).toMatchObject({ title: 'Ida Holm v Tomas Reyl', version: 1, state: { status: 'playing' } });
    expect(game.events[0]!.event).toMatchObject({
      type: 'begun',
      edition: '2013',
      lawn: { width: 20, length: 25 },
    });
    const { games } = await body<{ games: Game[] }>(service.ask('/api/games'));
    expect(games[0]).toMatchObject({ id: game.id, title: game.title, version: 1 });
    expect(await body(service.ask(`/api/games/${game.id}`))).toEqual(game);
  });

  it('grows by turns, several at once too', async () => {
    const { id } = await body(begin());
    const game = await body(add(id, 1, [turn('blue'), turn('red')]));
    expect(game).toMatchObject({ version: 3, state: { turns: 2, next: { balls: ['black'] } } });
    expect(game.events.map(({ number }) => number)).toEqual([1, 2, 3]);
  });

  it('refuses what the log does not take, says what it expected, and keeps nothing of it', async () => {
    const { id } = await body(begin());
    const response = await add(id, 1, [turn('blue'), turn('black')]);
    const error = await errorOf(response);
    expect([response.status, error.code, error.details]).toEqual([409, 'wrong-turn', { expected: ['red'] }]);
    expect((await body(service.ask(`/api/games/${id}`))).version).toBe(1);
  });

  it('refuses what comes from a tab that has not seen the last turn', async () => {
    const { id } = await body(begin());
    const both = await Promise.all([add(id, 1, [turn('blue')]), add(id, 1, [turn('blue')])]);
    expect(both.map(({ status }) => status).toSorted()).toEqual([201, 409]);
    const late = await add(id, 1, [turn('blue')]);
    const error = await errorOf(late);
    expect([late.status, error.code, error.details]).toEqual([409, 'version-conflict', { version: 2 }]);
  });

  it('takes a turn once however often it is sent with one key', async () => {
    const { id } = await body(begin());
    const headers = { 'idempotency-key': randomUUID() };
    const first = await body(add(id, 1, [turn('blue')], { headers }));
    expect(await body(add(id, 1, [turn('blue')], { headers }))).toEqual(first);
    expect((await body(service.ask(`/api/games/${id}`))).version).toBe(2);
  });

  it.each([
    ['an unknown colour', [turn('mauve')], 'unknown-colour'],
    ['an event of no kind', [{ type: 'dance' }], 'event-invalid'],
    ['no event', [], 'request-invalid'],
  ])('refuses %s', async (_, events, code) => {
    const { id } = await body(begin());
    const response = await add(id, 1, events);
    expect([response.status, (await errorOf(response)).code]).toEqual([422, code]);
  });

  it('is exported, and imported into the same game again', async () => {
    const { id } = await body(begin());
    const game = await body(add(id, 1, [turn('blue', { scored: ['blue'] }), turn('red')]));
    const file = await body<object>(service.ask(`/api/games/${id}/export.json`));
    const imported = await body(service.send('/api/games/import', file));
    expect(imported.id).not.toBe(id);
    expect([imported.events, imported.state, imported.title]).toEqual([game.events, game.state, game.title]);
  });

  it.each([
    [
      'of another version',
      { kind: 'sward-game', version: 9, entries: [] },
      'other-version',
      /version 9.*version 1/,
    ],
    ['of another kind', { kind: 'recipe' }, 'not-a-game', /not an exported game/],
    [
      'with a gap',
      {
        kind: 'sward-game',
        version: 1,
        entries: [{ number: 2, at: '2026-06-20T10:00:00.000Z', event: { type: 'begun' } }],
      },
      'number-gap',
      /Entry 1 was expected/,
    ],
  ])('does not import a file %s', async (_, file, code, message) => {
    const response = await service.send('/api/games/import', file);
    const error = await errorOf(response);
    expect([response.status, error.code]).toEqual([422, code]);
    expect(error.message).toMatch(message);
  });

  it('is removed', async () => {
    const { id } = await body(begin());
    expect((await service.ask(`/api/games/${id}`, { method: 'DELETE' })).status).toBe(204);
    expect((await service.ask(`/api/games/${id}`)).status).toBe(404);
    expect((await service.ask(`/api/games/${id}`, { method: 'DELETE' })).status).toBe(404);
  });

  it.each([
    ['plan.png', 'image/png', [3, 2]],
    ['plan.png?turn=1', 'image/png', [3, 1]],
    ['score.pdf', 'application/pdf', [4, 2]],
    ['putback.pdf?turn=99', 'application/pdf', [5, 2]],
  ])('prints its %s', async (path, type, bytes) => {
    const { id } = await body(begin());
    await add(id, 1, [turn('blue')]);
    const response = await service.ask(`/api/games/${id}/${path}`);
    expect(response.headers.get('content-type')).toBe(type);
    expect([...new Uint8Array(await response.arrayBuffer())]).toEqual(bytes);
  });

  it('tells its positions as a table', async () => {
    const { id } = await body(begin());
    await add(id, 1, [turn('blue')]);
    const response = await service.ask(`/api/games/${id}/positions.csv`);
    expect(response.headers.get('content-type')).toContain('text/csv');
    expect(await response.text()).toMatch(
      /^entry,at,event,played,ball,.*\r\n2,.*,turn,blue,blue,5\.0000,6\.0000/,
    );
  });
});

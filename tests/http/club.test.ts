import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { defaultSettings } from '../../server/contract/settings.ts';
import { errorOf, type Running, startService } from './harness.ts';
import { smallJpeg } from './pictures.ts';

let service: Running;
beforeAll(async () => {
  const picture = await smallJpeg();
  const sample = {
    name: 'terrace',
    title: 'From the terrace',
    kind: 'lawn' as const,
    photo: '/api/samples/terrace/photo',
    marks: {
      points: {},
      balls: ['blue' as const],
      certainty: 0.99,
      lawn: { width: 25.6032, length: 32.004, unevenness: 0.005 },
    },
  };
  service = await startService({
    samples: { list: async () => [sample], photo: async (name) => (name === 'terrace' ? picture : null) },
  });
});
afterAll(() => service.close());

const body = async (response: Promise<Response>) => (await response).json();
const put = (settings: object) => service.send('/api/settings', settings, { method: 'PUT' });

describe('settings', () => {
  it('of a new installation are the defaults', async () => {
    expect(await body(service.ask('/api/settings'))).toEqual(defaultSettings());
  });

  it('are kept', async () => {
    const settings = {
      ...defaultSettings(),
      units: 'metric',
      letters: { ...defaultSettings().letters, black: 'Z' },
    };
    expect(await body(put(settings))).toEqual(settings);
    expect(await body(service.ask('/api/settings'))).toEqual(settings);
  });

  it.each([
    ['an unknown unit', { units: 'furlongs' }],
    ['two balls with one letter', { letters: { ...defaultSettings().letters, black: 'B' } }],
    ['a letter of two', { letters: { ...defaultSettings().letters, black: 'BK' } }],
    ['an edition that nobody wrote', { edition: '1897' }],
    ['a tolerance of nothing', { tolerance: 0 }],
  ])('with %s are refused', async (_, wrong) => {
    const response = await put({ ...defaultSettings(), ...wrong });
    expect([response.status, (await errorOf(response)).code]).toEqual([422, 'settings-invalid']);
  });
});

describe.each([
  ['spots', 'spot', { name: 'Balcony' }],
  ['lawns', 'lawn', { name: 'Lawn 2', width: 20, length: 25 }],
])('%s', (list, word, input) => {
  it('are added, listed, changed and removed', async () => {
    const made = await body(service.send(`/api/${list}`, input));
    expect(made).toMatchObject(input);
    const changed = await body(
      service.send(`/api/${list}/${made.id}`, { name: 'Another' }, { method: 'PATCH' }),
    );
    expect(changed).toEqual({ ...made, name: 'Another', updatedAt: changed.updatedAt });
    expect((await body(service.ask(`/api/${list}`)))[list]).toEqual([changed]);
    expect((await service.ask(`/api/${list}/${made.id}`, { method: 'DELETE' })).status).toBe(204);
    const gone = await service.ask(`/api/${list}/${made.id}`, { method: 'DELETE' });
    expect([gone.status, (await errorOf(gone)).code]).toEqual([404, `no-such-${word}`]);
  });
});

describe('samples', () => {
  it('become ordinary photos', async () => {
    const { samples } = await body(service.ask('/api/samples'));
    expect(samples.map(({ name }: { name: string }) => name)).toEqual(['terrace']);
    expect((await service.ask(samples[0].photo)).status).toBe(200);
    const taken = await body(service.send('/api/samples/terrace', {}));
    expect(taken.marks).toEqual(samples[0].marks);
    expect((await service.ask(`/api/photos/${taken.photoId}`)).status).toBe(200);
  });

  it('that are not there are not found', async () => {
    expect((await service.send('/api/samples/mast', {})).status).toBe(404);
  });
});

it('judges without a picture', async () => {
  // The example of the contract: black stands at x = 20.9, west of which hoop 5 lies; 17.5 yd = 16.002 m, so it is short of it.
  const answer = await body(
    service.send('/api/judge', {
      kind: 'offside',
      hoopScored: 4,
      balls: { black: { x: 20.9, y: 6.1, sd: 0.01 } },
    }),
  );
  expect(answer.line).toEqual({ axis: 'x', at: expect.closeTo(16.002, 9), nextHoopSide: -1 });
  expect(answer.balls[0]).toMatchObject({ colour: 'black', lies: 'short', verdict: 'onside' });
  expect(answer.balls[0].beyond).toBeCloseTo(16.002 - 20.9 - 0.046, 9);
});

describe('health', () => {
  it('is well', async () => {
    const response = await service.ask('/api/health');
    expect(response.status).toBe(200);
    expect(await response.json()).toMatchObject({
      ok: true,
      version: '0.0.0-test',
      checks: { store: { ok: true } },
    });
  });

  it('says that the database does not answer', async () => {
    const { store } = service.deps;
    const ill = await startService({
      store: { ...store, ping: async () => Promise.reject(new Error('gone')) },
    });
    const response = await ill.ask('/api/health');
    expect(response.status).toBe(503);
    expect(await response.json()).toMatchObject({
      ok: false,
      checks: { store: { ok: false }, photos: { ok: true } },
    });
    await ill.close();
  });
});

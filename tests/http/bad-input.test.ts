import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { errorOf, formOf, keptBy, MARKS, type Running, startService } from './harness.ts';
import { pngHeader, smallJpeg, terrace } from './pictures.ts';

let service: Running;
let good: Buffer;
beforeAll(async () => {
  service = await startService();
  good = await smallJpeg();
});
afterAll(() => service.close());

const marks = (changes: object = {}) => JSON.stringify({ ...MARKS, ...changes });
const text = (content: string) => Buffer.from(content);

type Case = [name: string, status: number, code: string, form: () => FormData];

const PHOTOS: Case[] = [
  [
    'a text file',
    415,
    'not-a-picture',
    () => formOf(text('Dear committee, the lawn was wet.'), { marks: marks() }),
  ],
  ['an empty file', 422, 'photo-empty', () => formOf(text(''), { marks: marks() })],
  [
    'a JPEG cut off in the middle',
    422,
    'photo-cut-off',
    () => formOf(terrace().subarray(0, 400_000), { marks: marks() }),
  ],
  [
    'a JPEG cut off in its header',
    422,
    'photo-damaged',
    () => formOf(good.subarray(0, 30), { marks: marks() }),
  ],
  ['a picture of one pixel', 422, 'photo-too-small', () => formOf(pngHeader(1, 1), { marks: marks() })],
  [
    'a header of 30,000 × 30,000',
    413,
    'photo-too-large',
    () => formOf(pngHeader(30_000, 30_000), { marks: marks() }),
  ],
  ['no photo', 400, 'no-photo', () => formOf(null, { marks: marks() })],
];

const MARKINGS: Case[] = [
  ['no marks', 400, 'no-marks', () => formOf(good)],
  ['marks that are no JSON', 400, 'not-json', () => formOf(good, { marks: 'corner one is at the hedge' })],
  ['marks as a JSON text', 422, 'marks-invalid', () => formOf(good, { marks: '"corner1"' })],
  [
    'a mark given as text',
    422,
    'marks-invalid',
    () => formOf(good, { marks: marks({ points: { corner1: ['left', 'low'] } }) }),
  ],
  [
    'a mark outside the picture',
    422,
    'mark-outside',
    () => formOf(good, { marks: marks({ points: { corner1: [641, 5] } }) }),
  ],
  [
    'a point that no lawn has',
    422,
    'unknown-point',
    () => formOf(good, { marks: marks({ points: { corner5: [1, 1] } }) }),
  ],
  ['an unknown colour', 422, 'unknown-colour', () => formOf(good, { marks: marks({ balls: ['mauve'] }) })],
  ['hoop 14', 422, 'no-such-hoop', () => formOf(good, { marks: marks({ hoopScored: 14 }) })],
  ['a certainty of 1', 422, 'marks-invalid', () => formOf(good, { marks: marks({ certainty: 1 }) })],
  ['a lawn of one metre', 422, 'marks-invalid', () => formOf(good, { marks: marks({ lawn: { width: 1 } }) })],
  [
    'a game that is not there',
    422,
    'no-such-game',
    () => formOf(good, { marks: marks(), game: '7b0c8f0e-3c58-4b7e-8f0e-2c58fb7e8f0e' }),
  ],
  [
    'a spot that is not an id',
    422,
    'request-invalid',
    () => formOf(good, { marks: marks(), spot: '../spots' }),
  ],
  [
    'two photos',
    400,
    'unexpected-file',
    () => {
      const form = formOf(good, { marks: marks() });
      form.append('photo', new Blob(['x']), 'second.jpg');
      return form;
    },
  ],
  [
    'a file in another field',
    400,
    'unexpected-file',
    () => {
      const form = formOf(null, { marks: marks() });
      form.set('picture', new Blob(['x']), 'x.jpg');
      return form;
    },
  ],
];

it('marks sent as a file are as good as a field', async () => {
  const form = formOf(good);
  form.set('marks', new Blob([marks()]), 'marks.json');
  const response = await service.ask('/api/readings', { method: 'POST', body: form });
  expect(response.status).toBe(201);
});

describe('a reading is refused, nothing is kept, and the next one works', () => {
  it.each([...PHOTOS, ...MARKINGS])('%s: %i %s', async (_, status, code, form) => {
    const before = await keptBy(service);
    const response = await service.ask('/api/readings', { method: 'POST', body: form() });
    const error = await errorOf(response);
    expect([response.status, error.code]).toEqual([status, code]);
    expect(error.message).toMatch(/^[A-Z].+[.]$/);
    await expect.poll(() => keptBy(service)).toEqual({ ...before, incoming: 0 });
    const next = await service.ask('/api/readings', {
      method: 'POST',
      body: formOf(good, { marks: marks() }),
    });
    expect(next.status).toBe(201);
  });

  it('more than 60 MB: 413 photo-too-heavy', async () => {
    const before = await keptBy(service);
    const heavy = Buffer.alloc(60_000_001, 7);
    const response = await service.ask('/api/readings', {
      method: 'POST',
      body: formOf(heavy, { marks: marks() }),
    });
    expect([response.status, (await errorOf(response)).code]).toEqual([413, 'photo-too-heavy']);
    await expect.poll(() => keptBy(service)).toEqual({ ...before, incoming: 0 });
  });
});

describe('a photo alone is refused and nothing is kept', () => {
  it.each(PHOTOS)('%s: %i %s', async (_, status, code, form) => {
    const before = await keptBy(service);
    const response = await service.ask('/api/photos', { method: 'POST', body: form() });
    expect([response.status, (await errorOf(response)).code]).toEqual([status, code]);
    await expect.poll(() => keptBy(service)).toEqual({ ...before, incoming: 0 });
  });
});

const JSON_CASES: [name: string, path: string, init: RequestInit, status: number, code: string][] = [
  ['broken JSON', '/api/judge', { body: '{"kind":' }, 400, 'not-json'],
  [
    'a photo that is not there',
    '/api/readings',
    { body: JSON.stringify({ photoId: '7b0c8f0e-3c58-4b7e-8f0e-2c58fb7e8f0e', marks: MARKS }) },
    404,
    'no-such-photo',
  ],
  [
    'a photo id that is a path',
    '/api/readings',
    { body: JSON.stringify({ photoId: '../../etc/passwd', marks: MARKS }) },
    422,
    'request-invalid',
  ],
  ['a question of no kind', '/api/judge', { body: '{"kind":"astrology"}' }, 422, 'question-invalid'],
  [
    'the last hoop',
    '/api/judge',
    { body: '{"kind":"offside","hoopScored":13,"balls":{}}' },
    422,
    'last-hoop',
  ],
  [
    'a body of 400 kB',
    '/api/spots',
    { body: JSON.stringify({ name: 'x'.repeat(400_000) }) },
    413,
    'too-large',
  ],
  ['a name of control characters', '/api/spots', { body: '{"name":"a\\u0007b"}' }, 422, 'spot-invalid'],
  ['an empty name', '/api/spots', { body: '{"name":"  "}' }, 422, 'spot-invalid'],
  ['nothing at all', '/api/spots', {}, 422, 'spot-invalid'],
];

it.each(JSON_CASES)('%s is refused in one sentence', async (_, path, init, status, code) => {
  const response = await service.ask(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    ...init,
  });
  const error = await errorOf(response);
  expect([response.status, error.code]).toEqual([status, code]);
  expect(error.message).toMatch(/^[A-Z].+[.]$/);
});

it.each([
  ['/api/nothing', 404, 'not-found'],
  ['/api/readings/not-an-id', 404, 'no-such-reading'],
  ['/api/readings/7b0c8f0e-3c58-4b7e-8f0e-2c58fb7e8f0e', 404, 'no-such-reading'],
  ['/api/photos/%2e%2e%2fsward.db', 404, 'no-such-photo'],
  ['/api/photos/7b0c8f0e-3c58-4b7e-8f0e-2c58fb7e8f0e/thumbnail', 404, 'no-such-photo'],
  ['/api/samples/..%2f..%2fpackage.json/photo', 404, 'no-such-sample'],
  ['/api/readings?limit=0', 422, 'query-invalid'],
  ['/api/readings?day=yesterday', 422, 'query-invalid'],
  ['/api/readings?before=x', 422, 'no-such-page'],
  ['/api/photos/%', 400, 'bad-request'],
])('GET %s: %i %s', async (path, status, code) => {
  const response = await service.ask(path);
  expect([response.status, (await errorOf(response)).code]).toEqual([status, code]);
});

it('names the methods that an address takes', async () => {
  const response = await service.ask('/api/settings', { method: 'DELETE' });
  expect([response.status, response.headers.get('allow'), (await errorOf(response)).code]).toEqual([
    405,
    'GET, PUT',
    'method-not-allowed',
  ]);
});

import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LawnRecord } from '../../server/contract/record.ts';
import { errorOf, formOf, keptBy, MARKS, type Running, slowReader, startService } from './harness.ts';
import { smallJpeg } from './pictures.ts';

let service: Running;
let picture: Buffer;
beforeAll(async () => {
  service = await startService();
  picture = await smallJpeg();
});
afterAll(() => service.close());

const read = async (fields: Record<string, string> = {}, init: RequestInit = {}, path = '/api/readings') => {
  const body = formOf(picture, { marks: JSON.stringify(MARKS), ...fields });
  return service.ask(path, { method: 'POST', body, ...init });
};
const body = async <T = LawnRecord>(response: Response | Promise<Response>): Promise<T> =>
  (await response).json() as Promise<T>;
const patch = (id: string, change: object) =>
  service.send(`/api/readings/${id}`, change, { method: 'PATCH' });
const newSpot = async (name: string) => body<{ id: string }>(service.send('/api/spots', { name }));

describe('a reading', () => {
  it('is kept with its photo, and found again', async () => {
    const response = await read({ note: 'Fernbeck, lawn 1' });
    expect(response.status).toBe(201);
    const record = await body(response);
    expect(record).toMatchObject({
      kind: 'lawn',
      revision: 1,
      note: 'Fernbeck, lawn 1',
      game: null,
      spot: null,
    });
    expect(record.sentence).toBe('Blue is too close to call.');
    expect(record).not.toHaveProperty('pose');
    expect(await body(service.ask(`/api/readings/${record.id}`))).toEqual(record);
    const { readings } = await body<{ readings: { id: string }[] }>(service.ask('/api/readings?limit=1'));
    expect(readings.map(({ id }) => id)).toEqual([record.id]);
  });

  it('of a photo kept before answers the same', async () => {
    const photo = await body<{ id: string; width: number; bytes: number }>(
      service.ask('/api/photos', { method: 'POST', body: formOf(picture) }),
    );
    expect(photo).toMatchObject({
      width: 640,
      height: 480,
      format: 'jpeg',
      bytes: picture.length,
      focal35: null,
    });
    expect(await body(service.ask(`/api/photos/${photo.id}/facts`))).toEqual(photo);
    const record = await body(service.send('/api/readings', { photoId: photo.id, marks: MARKS }));
    expect(record.photoId).toBe(photo.id);
    expect(record.balls).toEqual((await body(read())).balls);
  });

  it('of another kind is kept in the same list', async () => {
    const sighting = await body<{ id: string; sentence: string }>(read({}, {}, '/api/sightings'));
    expect(sighting.sentence).toBe('Red is not past the line.');
    const check = await body<{ id: string; tolerance: number }>(read({}, {}, '/api/checks'));
    expect(check.tolerance).toBe(0.15);
    const { readings } = await body<{ readings: { id: string; kind: string }[] }>(
      service.ask('/api/readings?limit=2'),
    );
    expect(new Set(readings.map(({ kind }) => kind))).toEqual(new Set(['sighting', 'check']));
    const refused = await patch(check.id, { hoopScored: 2 });
    expect([refused.status, (await errorOf(refused)).code]).toEqual([422, 'not-correctable']);
  });

  it('carries the rules’ verdict, which a known arrival changes', async () => {
    // Blue is 34 mm past the line with a standard deviation of 17 mm, so at 0.95 it is firmly beyond (97.7 %).
    const marks = JSON.stringify({ ...MARKS, certainty: 0.95 });
    const record = await body(read({ marks }));
    expect(record.verdict?.balls.map(({ colour, beyond }) => [colour, beyond])).toEqual([['blue', 0.034]]);
    const excused = await body(patch(record.id, { arrivedBy: { blue: { directedTo: 'west' } } }));
    expect(excused.arrivedBy).toEqual({ blue: { directedTo: 'west' } });
    const forgotten = await body(patch(record.id, { arrivedBy: { blue: null } }));
    expect(forgotten.arrivedBy).toEqual({});
    expect(forgotten.revision).toBe(3);
  });

  it('is corrected in revisions, any of which comes back', async () => {
    const first = await body(read());
    const second = await body(patch(first.id, { hoopScored: null, note: 'No point scored' }));
    expect(second).toMatchObject({ revision: 2, note: 'No point scored', verdict: null });
    expect(second.call).toBeUndefined();
    const third = await body(patch(first.id, { restore: 1 }));
    expect(third.call).toEqual(first.call);
    expect(third).toMatchObject({ revision: 3, note: 'No point scored' });
    const { revisions } = await body<{ revisions: LawnRecord[] }>(
      service.ask(`/api/readings/${first.id}/revisions`),
    );
    expect(revisions.map(({ revision }) => revision)).toEqual([1, 2, 3]);
    const unknown = await patch(first.id, { restore: 9 });
    expect([unknown.status, (await errorOf(unknown)).code]).toEqual([422, 'no-such-revision']);
  });

  it('is not corrected from a tab that has not seen the last correction', async () => {
    const { id } = await body(read());
    await patch(id, { note: 'First tab', revision: 1 });
    const late = await patch(id, { note: 'Second tab', revision: 1 });
    const error = await errorOf(late);
    expect([late.status, error.code, error.details]).toEqual([409, 'revision-conflict', { revision: 2 }]);
    expect((await body(service.ask(`/api/readings/${id}`))).note).toBe('First tab');
  });

  it('takes its photo along when it is deleted, unless another one uses it', async () => {
    const first = await body(read());
    const second = await body(service.send('/api/readings', { photoId: first.photoId, marks: MARKS }));
    const photo = `/api/photos/${first.photoId}`;
    expect((await service.ask(`/api/readings/${first.id}`, { method: 'DELETE' })).status).toBe(204);
    expect((await service.ask(photo)).status).toBe(200);
    expect((await service.ask(`/api/readings/${second.id}`, { method: 'DELETE' })).status).toBe(204);
    expect((await service.ask(photo)).status).toBe(404);
    expect(await service.deps.files.original(first.photoId)).toBeNull();
    expect((await service.ask(`/api/readings/${second.id}`, { method: 'DELETE' })).status).toBe(404);
  });

  it('leaves its marks with the spot for the next picture', async () => {
    const { id } = await newSpot('Clubhouse balcony');
    await read({ spot: id });
    const spot = await body<{ marks: { points: object }; photo: object }>(service.ask(`/api/spots/${id}`));
    expect(spot.marks.points).toEqual(MARKS.points);
    expect(spot.photo).toEqual({ width: 640, height: 480 });
    const photo = await body<{ id: string }>(
      service.ask('/api/photos', { method: 'POST', body: formOf(picture) }),
    );
    const guess = await body<{ followed: boolean }>(
      service.send('/api/guesses', { photoId: photo.id, spot: id }),
    );
    expect(guess.followed).toBe(true);
  });

  it.each([
    ['card.png', 'image/png', [1, 1]],
    ['card.png?photo=0', 'image/png', [1, 0]],
    ['card.pdf', 'application/pdf', [2, 1]],
    ['card.pdf?photo=0', 'application/pdf', [2, 0]],
  ])('gives its %s', async (path, type, bytes) => {
    const { id } = await body(read());
    const response = await service.ask(`/api/readings/${id}/${path}`);
    expect(response.headers.get('content-type')).toContain(type);
    expect([...new Uint8Array(await response.arrayBuffer())]).toEqual(bytes);
  });

  it('gives its card as text, with the name of the spot', async () => {
    const { id } = await body(read({ spot: (await newSpot('Terrace')).id }));
    const response = await service.ask(`/api/readings/${id}/card.txt`);
    expect(response.headers.get('content-type')).toBe('text/plain; charset=utf-8');
    expect(await response.text()).toBe('Blue is too close to call. Terrace');
  });
});

describe('a picture', () => {
  it.each(['photo', 'thumbnail', 'overhead'])(
    '(%s) is a JPEG with a tag, and is not sent twice',
    async (name) => {
      const { id } = await body(read());
      const path = `/api/readings/${id}/${name}`;
      const response = await service.ask(path);
      expect([response.status, response.headers.get('content-type')]).toEqual([200, 'image/jpeg']);
      expect([...new Uint8Array(await response.arrayBuffer()).subarray(0, 2)]).toEqual([0xff, 0xd8]);
      expect(response.headers.get('cache-control')).toBe('private, no-cache');
      const tag = response.headers.get('etag')!;
      const again = await service.ask(path, {
        headers: { 'if-none-match': tag, 'cache-control': 'max-age=0' },
      });
      expect(again.status).toBe(304);
      await service.ask(`/api/readings/${id}`, { method: 'DELETE' });
      expect(
        (await service.ask(path, { headers: { 'if-none-match': tag, 'cache-control': 'max-age=0' } })).status,
      ).toBe(404);
    },
  );
});

describe('a request with a key of its own', () => {
  it('is answered the same and kept once, one after another and at once', async () => {
    const headers = { 'idempotency-key': randomUUID() };
    const before = await keptBy(service);
    const answers = await Promise.all([read({}, { headers }), read({}, { headers })]);
    answers.push(await read({}, { headers }));
    expect(answers.map(({ status }) => status)).toEqual([201, 201, 201]);
    const [first, ...others] = await Promise.all(answers.map((answer) => body(answer)));
    for (const other of others) expect(other).toEqual(first);
    const after = await keptBy(service);
    expect([after.photos, after.readings]).toEqual([before.photos + 1, before.readings + 1]);
  });

  it('is refused with other content', async () => {
    const headers = { 'idempotency-key': randomUUID() };
    await read({}, { headers });
    const other = await read({ note: 'Another' }, { headers });
    expect([other.status, (await errorOf(other)).code]).toEqual([422, 'key-used']);
  });

  it('works again after it failed', async () => {
    const headers = { 'idempotency-key': randomUUID() };
    expect((await read({ marks: '{' }, { headers })).status).toBe(400);
    expect((await read({}, { headers })).status).toBe(201);
  });

  it.each(['photos', 'spots', 'lawns'])('makes one thing under /api/%s', async (kind) => {
    const headers = { 'idempotency-key': randomUUID() };
    const ask = () =>
      kind === 'photos'
        ? service.ask('/api/photos', { method: 'POST', body: formOf(picture), headers })
        : service.send(`/api/${kind}`, { name: 'North lawn' }, { headers });
    expect(await body(ask())).toEqual(await body(ask()));
  });

  it('needs a key of some length', async () => {
    const response = await read({}, { headers: { 'idempotency-key': 'x' } });
    expect([response.status, (await errorOf(response)).code]).toEqual([400, 'bad-key']);
  });
});

describe('a reading under way', () => {
  it('tells what it is doing, and that it is done', async () => {
    const key = randomUUID();
    const events = service.ask(`/api/progress/${key}`);
    await read({}, { headers: { 'x-progress-key': key } });
    const text = await (await events).text();
    const steps = [...text.matchAll(/^data: (.*)$/gm)].map(([, data]) => JSON.parse(data!).step);
    expect(steps).toEqual(['find', 'done']);
  });

  it('can be called off: nothing is kept, and the next one works', async () => {
    const slow = slowReader();
    const busy = await startService({ readers: slow.readers });
    const key = randomUUID();
    const answer = busy.ask('/api/readings', {
      method: 'POST',
      body: formOf(picture, { marks: JSON.stringify(MARKS) }),
      headers: { 'x-progress-key': key },
    });
    await slow.started;
    expect((await busy.ask(`/api/progress/${key}`, { method: 'DELETE' })).status).toBe(204);
    const response = await answer;
    expect([response.status, (await errorOf(response)).code]).toEqual([409, 'cancelled']);
    expect(await keptBy(busy)).toMatchObject({ photos: 0, readings: 0 });
    const late = await (await busy.ask(`/api/progress/${key}`)).text();
    expect(late).toContain('"cancelled"');
    expect((await busy.ask(`/api/progress/${key}`, { method: 'DELETE' })).status).toBe(404);
    await busy.close();
  });

  it('sends others away when too many wait, and takes them afterwards', async () => {
    const slow = slowReader();
    const { deps } = service;
    const busy = await startService({ readers: slow.readers, limits: { ...deps.limits, waitingJobs: 1 } });
    const ask = () =>
      busy.ask('/api/readings', { method: 'POST', body: formOf(picture, { marks: JSON.stringify(MARKS) }) });
    const first = ask();
    await slow.started;
    const second = await ask();
    expect([second.status, second.headers.get('retry-after'), (await errorOf(second)).code]).toEqual([
      503,
      '3',
      'busy',
    ]);
    slow.finish();
    expect((await first).status).toBe(201);
    await busy.close();
  });

  it('costs nothing else when the reader breaks', async () => {
    const { readers } = slowReader();
    const broken = await startService({
      readers: { ...readers, read: async () => Promise.reject(new Error('the worker is gone')) },
    });
    const response = await broken.ask('/api/readings', {
      method: 'POST',
      body: formOf(picture, { marks: JSON.stringify(MARKS) }),
    });
    const error = await errorOf(response);
    expect([response.status, error.code]).toEqual([500, 'fault']);
    expect(error.message).not.toContain('worker');
    expect(await keptBy(broken)).toMatchObject({ photos: 0, readings: 0 });
    expect((await broken.ask('/api/readings')).status).toBe(200);
    await broken.close();
  });
});

import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Combination, CombinationSchema } from '../../server/contract/combine.ts';
import type { CheckRecord, LawnRecord, PhotoRecord, SightingRecord } from '../../server/contract/record.ts';
import { seeded } from '../accuracy/random.ts';
import { type Position, phoneAt, takeLawn, takeSighting } from '../reading/simulated-answers.ts';
import { at, photo } from '../store/samples.ts';
import { errorOf, keptBy, type Running, startService } from './harness.ts';

let service: Running;
const ids: Record<'lawn' | 'sighting' | 'check', string> = { lawn: '', sighting: '', check: '' };

const balls: Position = new Map([
  ['red', { x: 9, y: 16.3, z: 0.046 }],
  ['blue', { x: 14, y: 15.9, z: 0.046 }],
]);

const head = () => ({
  id: randomUUID(),
  revision: 1,
  createdAt: at(1),
  updatedAt: at(1),
  game: null,
  spot: null,
  note: null,
  sentence: 'Kept for the test.',
});

const keep = async (make: (photoId: string) => PhotoRecord): Promise<string> => {
  const kept = photo();
  await service.deps.store.photos.create(kept);
  const record = make(kept.id);
  await service.deps.store.records.create(record);
  return record.id;
};

beforeAll(async () => {
  service = await startService();
  const random = seeded(7);
  const lawn = takeLawn(random, phoneAt(11, -19, 7.2, 12.8, 14), balls, { name: '' });
  const sighting = takeSighting(random, phoneAt(-3, 16.1, 1.6, 12, 16), balls, { name: '' });
  const { marks } = lawn;
  ids.lawn = await keep(
    (photoId) =>
      ({
        ...head(),
        kind: 'lawn',
        photoId,
        marks,
        ...lawn.answer,
        arrivedBy: {},
        verdict: null,
      }) as LawnRecord,
  );
  ids.sighting = await keep(
    (photoId) =>
      ({ ...head(), kind: 'sighting', photoId, marks: sighting.marks, ...sighting.answer }) as SightingRecord,
  );
  const nothing = { dx: null, dy: null, sd: null, within: null };
  ids.check = await keep(
    (photoId) =>
      ({
        ...head(),
        kind: 'check',
        photoId,
        marks,
        tolerance: 0.15,
        markers: [],
        hoops: [],
        peg: nothing,
        warnings: [],
      }) as CheckRecord,
  );
});
afterAll(() => service.close());

const combine = (body: unknown) => service.send('/api/combinations', body);

describe('a combination over HTTP', () => {
  it('is one answer from several stored readings, and is not kept', async () => {
    const before = await keptBy(service);
    const response = await combine({ readings: [ids.lawn, ids.sighting] });
    expect(response.status).toBe(200);
    const answer = CombinationSchema.parse(await response.json());
    expect(answer.pictures).toEqual([
      { name: 'picture 1', kind: 'lawn', reading: ids.lawn },
      { name: 'picture 2', kind: 'sighting', reading: ids.sighting },
    ]);
    // Red was put 298 mm north of the line y = 16.002 m, towards hoop 2: 252 mm past it.
    const red = answer.call!.balls.find(({ colour }) => colour === 'red')!;
    expect(Math.abs(red.beyond - 0.252)).toBeLessThan(4 * red.sd);
    expect(red.lies).toBe('beyond');
    expect(await keptBy(service)).toEqual(before);
  });

  it('asks no call when the point is null', async () => {
    const answer = (await (
      await combine({ readings: [ids.lawn, ids.sighting], hoopScored: null })
    ).json()) as Combination;
    expect(answer.call).toBeUndefined();
  });

  it.each([
    ['one reading alone', () => ({ readings: [ids.lawn] }), 422, null],
    ['one reading twice', () => ({ readings: [ids.lawn, ids.lawn] }), 422, 'same-reading'],
    ['a court check', () => ({ readings: [ids.lawn, ids.check] }), 422, 'not-a-position'],
    ['a reading that is not there', () => ({ readings: [ids.lawn, randomUUID()] }), 404, 'no-such-reading'],
    ['no ids', () => ({ readings: ['a', 'b'] }), 422, null],
  ] as const)('refuses %s', async (_, body, status, code) => {
    const response = await combine(body());
    expect(response.status).toBe(status);
    const error = await errorOf(response);
    if (code) expect(error.code).toBe(code);
    expect(error.message).toMatch(/^[A-Z].*\.$/);
  });
});

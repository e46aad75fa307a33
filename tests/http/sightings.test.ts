import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SightingRecord } from '../../server/contract/record.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { readSighting } from '../../server/reading/read-sighting.ts';
import { errorOf, formOf, quickReaders, type Running, startService } from './harness.ts';

const read = (name: string) => readFileSync(new URL(`../../fixtures/photos/${name}`, import.meta.url));
const marks = JSON.parse(read('d7-sighting.marks.json').toString());
const truth = JSON.parse(read('d7-sighting.truth.json').toString()) as {
  balls: { colour: string; beyond_mm: number; image: [number, number] }[];
};
const trueBall = (colour: string) => truth.balls.find((ball) => ball.colour === colour)!;

let service: Running;
let photoId: string;
beforeAll(async () => {
  const answers = new Map<string, ReturnType<typeof readSighting>>();
  const sight = async (photo: Uint8Array, asked: Parameters<typeof readSighting>[1]) => {
    // The same marks on the one photo are read once.
    const key = JSON.stringify(asked);
    const answer = answers.get(key) ?? readSighting(await openPhoto(photo), asked);
    answers.set(key, answer);
    return answer;
  };
  service = await startService({ readers: { ...quickReaders(), sight } });
  const kept = await service.ask('/api/photos', {
    method: 'POST',
    body: formOf(read('d7-sighting.jpg')),
  });
  photoId = ((await kept.json()) as { id: string }).id;
});
afterAll(() => service.close());

const sight = async (changes: object = {}): Promise<SightingRecord> => {
  const response = await service.send('/api/sightings', { photoId, marks: { ...marks, ...changes } });
  expect(response.status).toBe(201);
  return (await response.json()) as SightingRecord;
};
const patch = (id: string, change: object) =>
  service.send(`/api/readings/${id}`, change, { method: 'PATCH' });
const corrected = async (id: string, change: object) =>
  (await (await patch(id, change)).json()) as SightingRecord;

describe('a sighting over HTTP', () => {
  it('judges the ball that was tapped alone', async () => {
    const [x, y] = trueBall('blue').image;
    const record = await sight({ tap: [x + 9, y - 7] });
    expect(record.balls.map(({ colour, origin }) => [colour, origin])).toEqual([['blue', 'found']]);
    // The picture's truth is of the centre, 46 mm behind the nearest point; 15 mm are the most a sighting may be off.
    expect(Math.abs(record.balls[0]!.beyond * 1000 + 46 - trueBall('blue').beyond_mm)).toBeLessThan(15);
  }, 60_000);

  it('is corrected from its kept camera, without the photo', async () => {
    const found = await sight();
    const blue = found.balls.find(({ colour }) => colour === 'blue')!;
    // Red was not in the picture; put where blue is, it lies where blue lies, with a hand's uncertainty.
    const added = await corrected(found.id, { balls: [{ colour: 'red', place: blue.image }] });
    const red = added.balls.find(({ colour }) => colour === 'red')!;
    expect(added.revision).toBe(2);
    expect(red.origin).toBe('placed');
    expect(red.beyond).toBeCloseTo(blue.beyond, 9);
    expect(red.sd).toBeGreaterThan(blue.sd);
    expect(added.balls.find(({ colour }) => colour === 'blue')).toEqual(blue);
    expect(added.missing).toEqual(['black']);
    const recoloured = await corrected(found.id, { balls: [{ colour: 'red', recolour: 'black' }] });
    expect(recoloured.balls.map(({ colour }) => colour)).toContain('black');
    const removed = await corrected(found.id, { balls: [{ colour: 'black', remove: true }] });
    expect(removed.balls).toEqual(found.balls);
    expect(removed.sentence).toBe(found.sentence);
    expect((await corrected(found.id, { restore: 2 })).balls).toEqual(added.balls);
  }, 60_000);

  it('is asked for a tapped ball, another certainty and another point of the same line afterwards', async () => {
    const found = await sight();
    const [x, y] = trueBall('blue').image;
    const tapped = await corrected(found.id, { tap: [x, y] });
    expect(tapped.balls.map(({ colour }) => colour)).toEqual(['blue']);
    expect(tapped.marks.tap).toEqual([x, y]);
    const blue = tapped.balls[0]!;
    // After hoop 3 the same line is judged towards the south: the far point is then the near one, 92 mm away.
    const south = await corrected(found.id, { hoopScored: 3, tap: null });
    expect(south.balls[0]!.beyond).toBeCloseTo(-0.092 - blue.beyond, 4);
    expect(south.marks.tap).toBeUndefined();
    const strict = await corrected(found.id, { hoopScored: 1, certainty: 0.9999999999 });
    expect(strict.balls[0]!.lies).toBe('tooClose');
  }, 60_000);

  it.each([
    ['another line', { hoopScored: 2 }, 'other-line'],
    ['no point', { hoopScored: null }, 'hoop-needed'],
    ['a ball that is not there', { balls: [{ colour: 'white', remove: true }] }, 'no-such-ball'],
    ['the sky', { balls: [{ colour: 'red', place: [1600, 40] }] }, 'above-horizon'],
    ['behind the phone', { balls: [{ colour: 'red', x: -20, y: 16 }] }, 'not-in-view'],
    ['how a ball arrived', { arrivedBy: { blue: null } }, 'not-correctable'],
  ])(
    'refuses a correction to %s',
    async (_, change, code) => {
      const { id } = await sight();
      const refused = await patch(id, change);
      expect([refused.status, (await errorOf(refused)).code]).toEqual([422, code]);
    },
    60_000,
  );
});

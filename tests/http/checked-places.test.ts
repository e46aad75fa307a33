import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Marks } from '../../server/contract/marks.ts';
import type { ClubLawn } from '../../server/contract/spot.ts';
import { errorOf, formOf, MARKS, quickReaders, type Running, startService } from './harness.ts';
import { smallJpeg } from './pictures.ts';

/** What the check of the invented readers found: W is off, E was not seen. */
const FOUND = [
  { name: 'W', along: 0.18, sd: 0.01, within: false },
  { name: 'E', along: null, sd: null, within: null },
];

let service: Running;
let picture: Buffer;
let seen: Marks[];
beforeAll(async () => {
  picture = await smallJpeg();
  const quick = quickReaders();
  service = await startService({
    readers: {
      ...quick,
      check: async (...asked) => ({ ...(await quick.check(...asked)), markers: FOUND }),
      sight: (photo, marks, job) => {
        seen.push(marks);
        return quick.sight(photo, marks, job);
      },
    },
  });
});
afterAll(() => service.close());

const post = async (path: string, marks: object) => {
  const body = formOf(picture, { marks: JSON.stringify(marks) });
  return service.ask(path, { method: 'POST', body });
};
const checkedLawn = async (): Promise<ClubLawn> => {
  const check = (await (await post('/api/checks', MARKS)).json()) as { id: string; createdAt: string };
  const lawn = { name: 'Lawn 2', check: { id: check.id, at: check.createdAt } };
  return (await (await service.send('/api/lawns', lawn)).json()) as ClubLawn;
};

describe('a sighting on a lawn with a kept court check', () => {
  it('gets the markers that the check saw, with its date, and keeps them', async () => {
    seen = [];
    const lawn = await checkedLawn();
    const marks = { ...MARKS, lawn: { id: lawn.id } };
    const record = (await (await post('/api/sightings', marks)).json()) as { marks: Marks };
    const checked = { at: lawn.check!.at, markers: [{ name: 'W', along: 0.18, sd: 0.01 }] };
    expect(seen.map((one) => one.checked)).toEqual([checked]);
    expect(record.marks.checked).toEqual(checked);
    expect(record.marks.lawn.id).toBe(lawn.id);
  });

  it('does without when that is switched off, or without a check', async () => {
    seen = [];
    const { id } = await checkedLawn();
    await post('/api/sightings', { ...MARKS, lawn: { id }, useChecked: false });
    const bare = (await (await service.send('/api/lawns', { name: 'Lawn 3' })).json()) as ClubLawn;
    await post('/api/sightings', { ...MARKS, lawn: { id: bare.id } });
    await post('/api/sightings', MARKS);
    expect(seen.map(({ checked }) => checked)).toEqual([undefined, undefined, undefined]);
  });

  it('does without when the check was deleted', async () => {
    seen = [];
    const { id, check } = await checkedLawn();
    await service.ask(`/api/readings/${check!.id}`, { method: 'DELETE' });
    await post('/api/sightings', { ...MARKS, lawn: { id } });
    expect(seen[0]!.checked).toBeUndefined();
  });

  it('is refused for a lawn that is not there', async () => {
    const refused = await post('/api/sightings', { ...MARKS, lawn: { id: randomUUID() } });
    expect([refused.status, (await errorOf(refused)).code]).toEqual([422, 'no-such-lawn']);
  });
});

import { resolve } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { openSamples } from '../../server/store/samples.ts';

const samples = openSamples(resolve(import.meta.dirname, '..', '..', 'fixtures'));

describe('the sample pictures', () => {
  it('begin with one of each kind, each under a title and a name of its own', async () => {
    const list = await samples.list();
    expect(list.length).toBeGreaterThan(10);
    expect(new Set(list.map(({ kind }) => kind))).toEqual(new Set(['lawn', 'sighting', 'check']));
    expect(new Set(list.map(({ name }) => name)).size).toBe(list.length);
    expect(new Set(list.map(({ title }) => title)).size).toBe(list.length);
  });

  it('are JPEGs, and every mark lies in or near the picture', async () => {
    for (const { name, marks } of await samples.list()) {
      const { format, width, height } = await sharp((await samples.photo(name))!).metadata();
      expect([name, format]).toEqual([name, 'jpeg']);
      // A mark may lie a little outside where only its line is seen; a quarter of the long side is far beyond that.
      const beyond = Math.max(width, height) / 4;
      for (const [x, y] of Object.values(marks.points)) {
        expect(x, name).toBeGreaterThan(-beyond);
        expect(x, name).toBeLessThan(Math.max(width, height) + beyond);
        expect(y, name).toBeGreaterThan(-beyond);
        expect(y, name).toBeLessThan(Math.max(width, height) + beyond);
      }
    }
  });

  it('are not found under a name that is not offered, nor outside their folders', async () => {
    expect(await samples.photo('d9-nowhere')).toBeNull();
    expect(await samples.photo('../photos/d1-terrace')).toBeNull();
    await expect(openSamples('/nowhere').list()).resolves.toEqual([]);
  });
});

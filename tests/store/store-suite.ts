import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { defaultSettings } from '../../server/contract/settings.ts';
import type { Store } from '../../server/store/store.ts';
import { describeLists } from './list-suite.ts';
import { at, begun, game, lawnRecord, photo, spot } from './samples.ts';

/** What every store must do; `open` gives a fresh empty one. */
export const describeStore = (name: string, open: () => Promise<Store>): void => {
  describe(`store: ${name}`, () => {
    let store: Store;
    beforeAll(async () => {
      store = await open();
    });
    afterAll(() => store?.close());

    /** A record on a photo of its own. */
    const kept = async (changes: Parameters<typeof lawnRecord>[1] = {}) => {
      const its = photo();
      await store.photos.create(its);
      const record = lawnRecord(its.id, changes);
      await store.records.create(record);
      return record;
    };

    it('answers', async () => {
      await expect(store.ping()).resolves.toBeUndefined();
    });

    it('gives a photo back as it was kept, empty fields and all', async () => {
      for (const changes of [{}, { focal35: null, focalPixels: null, takenAt: null }]) {
        const its = photo(changes);
        await store.photos.create(its);
        expect(await store.photos.get(its.id)).toEqual(its);
      }
      expect(await store.photos.get(randomUUID())).toBeNull();
    });

    it('gives a record back as it was kept, accents and fractions and all', async () => {
      const record = await kept();
      expect(await store.records.get(record.id)).toEqual(record);
      expect(await store.records.get(randomUUID())).toBeNull();
    });

    it('refuses a record whose photo is unknown, and keeps nothing of it', async () => {
      const record = lawnRecord(randomUUID());
      await expect(store.records.create(record)).rejects.toThrow();
      expect(await store.records.get(record.id)).toBeNull();
      expect(await store.records.revisions(record.id)).toEqual([]);
    });

    it('keeps every revision, and shows the newest', async () => {
      const first = await kept();
      const second = { ...first, revision: 2, updatedAt: at(5), note: 'Looked again' };
      expect(await store.records.revise(second)).toBe(true);
      expect(await store.records.get(first.id)).toEqual(second);
      expect(await store.records.revisions(first.id)).toEqual([first, second]);
    });

    it('refuses a revision made on an old one', async () => {
      const first = await kept();
      const second = { ...first, revision: 2, note: 'First tab' };
      expect(await store.records.revise(second)).toBe(true);
      expect(await store.records.revise({ ...second, note: 'Second tab' })).toBe(false);
      expect(await store.records.revise({ ...second, revision: 4 })).toBe(false);
      expect((await store.records.get(first.id))?.note).toBe('First tab');
      expect(await store.records.revisions(first.id)).toHaveLength(2);
    });

    it('lets one of many corrections of the same revision win', async () => {
      const first = await kept();
      const outcomes = await Promise.all(
        [1, 2, 3, 4, 5].map((tab) => store.records.revise({ ...first, revision: 2, note: `Tab ${tab}` })),
      );
      expect(outcomes.filter(Boolean)).toHaveLength(1);
    });

    it('removes a record with all its revisions', async () => {
      const record = await kept();
      expect(await store.records.remove(record.id)).toBe(true);
      expect(await store.records.remove(record.id)).toBe(false);
      expect(await store.records.revisions(record.id)).toEqual([]);
    });

    it('says which photos are in use, by records and by events of games', async () => {
      const record = await kept();
      const [free, played] = [photo(), photo()];
      await store.photos.create(free);
      await store.photos.create(played);
      const id = randomUUID();
      await store.games.create(game(id), [
        { ...begun, event: { type: 'turn', reading: { photoId: played.id } } },
      ]);
      expect(await store.photos.inUse(record.photoId)).toBe(true);
      expect(await store.photos.inUse(played.id)).toBe(true);
      expect(await store.photos.inUse(free.id)).toBe(false);
      const unused = await store.photos.unusedSince(at(1));
      expect(unused).toContain(free.id);
      expect(unused).not.toContain(played.id);
      expect(unused).not.toContain(record.photoId);
      expect(await store.photos.unusedSince(at(0))).not.toContain(free.id);
    });

    it('does not remove a photo from under its record', async () => {
      const record = await kept();
      await expect(store.photos.remove(record.photoId)).rejects.toThrow();
      await store.records.remove(record.id);
      expect(await store.photos.remove(record.photoId)).toBe(true);
      expect(await store.photos.ids()).not.toContain(record.photoId);
    });

    describeLists(() => store, kept);

    it('keeps, lists by name, replaces and removes named things', async () => {
      const [b, a] = [spot('mast'), spot('Émile’s corner')];
      for (const item of [b, a]) await store.spots.create(item);
      const names = (await store.spots.list()).map(({ name }) => name);
      expect(names.indexOf(a.name)).toBeLessThan(names.indexOf(b.name));
      expect(await store.spots.replace({ ...b, name: 'Mast, north end' })).toBe(true);
      expect((await store.spots.get(b.id))?.name).toBe('Mast, north end');
      expect(await store.spots.replace(spot('Unknown'))).toBe(false);
      expect(await store.spots.remove(b.id)).toBe(true);
      expect(await store.spots.remove(b.id)).toBe(false);
    });

    it('has no settings at first, and then the last ones put', async () => {
      expect(await store.settings.get()).toBeNull();
      await store.settings.put(defaultSettings());
      await store.settings.put({ ...defaultSettings(), units: 'metric' });
      expect(await store.settings.get()).toEqual({ ...defaultSettings(), units: 'metric' });
    });

    it('adds events to a game in order', async () => {
      const id = randomUUID();
      await store.games.create(game(id), [begun]);
      const outcome = await store.games.append({
        id,
        expectedVersion: 1,
        at: at(3),
        events: [
          { type: 'turn', ball: 'blue' },
          { type: 'turn', ball: 'red' },
        ],
        title: 'Holm against Pell',
        summary: { turns: 2 },
      });
      expect(outcome).toEqual({ ok: true, version: 3 });
      expect(await store.games.get(id)).toEqual({
        ...game(id),
        updatedAt: at(3),
        version: 3,
        title: 'Holm against Pell',
        summary: { turns: 2 },
        events: [
          begun,
          { number: 2, at: at(3), event: { type: 'turn', ball: 'blue' } },
          { number: 3, at: at(3), event: { type: 'turn', ball: 'red' } },
        ],
      });
    });

    it('refuses events from a tab that has not seen the last one', async () => {
      const id = randomUUID();
      await store.games.create(game(id), [begun]);
      const addition = {
        id,
        expectedVersion: 1,
        at: at(3),
        events: [{ type: 'turn' }],
        title: '',
        summary: {},
      };
      const outcomes = await Promise.all([store.games.append(addition), store.games.append(addition)]);
      expect(outcomes.toSorted((a, b) => Number(b.ok) - Number(a.ok))).toEqual([
        { ok: true, version: 2 },
        { ok: false, code: 'version-conflict', version: 2 },
      ]);
      expect((await store.games.get(id))?.events).toHaveLength(2);
      expect(await store.games.append({ ...addition, id: randomUUID() })).toEqual({
        ok: false,
        code: 'no-such-game',
      });
    });

    it('keeps all of a group of changes or none', async () => {
      const [its, other] = [photo(), photo()];
      await expect(
        store.atomically(async (tables) => {
          await tables.photos.create(its);
          await tables.records.create(lawnRecord(its.id));
          throw new Error('the power fails');
        }),
      ).rejects.toThrow('the power fails');
      expect(await store.photos.get(its.id)).toBeNull();
      await store.atomically((tables) => tables.photos.create(other));
      expect(await store.photos.get(other.id)).toEqual(other);
    });

    it('remembers an answer once, and forgets old ones', async () => {
      const answer = {
        scope: 'POST /api/readings',
        key: randomUUID(),
        fingerprint: 'abc',
        status: 201,
        body: { id: 'x' },
        createdAt: at(0),
      };
      await store.answers.put(answer);
      expect(await store.answers.get(answer.scope, answer.key)).toEqual(answer);
      expect(await store.answers.get('POST /api/spots', answer.key)).toBeNull();
      await expect(store.answers.put(answer)).rejects.toThrow();
      const about = { ...answer, key: randomUUID(), body: { id: randomUUID() } };
      await store.answers.put(about);
      await store.answers.forgetAbout(about.body.id);
      expect(await store.answers.get(about.scope, about.key)).toBeNull();
      expect(await store.answers.get(answer.scope, answer.key)).not.toBeNull();
      expect(await store.answers.forgetBefore(at(0))).toBe(0);
      expect(await store.answers.forgetBefore(at(1))).toBe(1);
      expect(await store.answers.get(answer.scope, answer.key)).toBeNull();
    });
  });
};

import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { RecordQuerySchema } from '../../server/contract/record.ts';
import { defaultSettings } from '../../server/contract/settings.ts';
import type { Store } from '../../server/store/store.ts';
import { at, lawnRecord, photo, spot } from './samples.ts';

const query = (changes: object = {}) => RecordQuerySchema.parse(changes);
const game = (id: string = randomUUID()) => ({
  id,
  createdAt: at(0),
  updatedAt: at(0),
  version: 1,
  title: 'Holm against Reyl',
  summary: { turns: 0 },
});
const begun = { number: 1, at: at(0), event: { type: 'begun' } };

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

    it('lists the newest first, page by page, without a gap or a repeat', async () => {
      const its = spot('Clubhouse balcony');
      await store.spots.create(its);
      // Three of the seven share an instant: the page's border may fall between them.
      const made = [];
      for (const minute of [10, 11, 12, 12, 12, 13, 14])
        made.push(await kept({ spot: its.id, createdAt: at(minute) }));
      const seen: string[] = [];
      let before: string | undefined;
      do {
        const page = await store.records.list(query({ spot: its.id, limit: 2, ...(before && { before }) }));
        expect(page.readings.length).toBeLessThanOrEqual(2);
        seen.push(...page.readings.map(({ id }) => id));
        before = page.next ?? undefined;
      } while (before !== undefined);
      const expected = made
        .toSorted((a, b) => (a.createdAt + a.id < b.createdAt + b.id ? 1 : -1))
        .map(({ id }) => id);
      expect(seen).toEqual(expected);
    });

    it.each([
      ['its day', { day: '2026-07-01' }, true],
      ['the day before', { day: '2026-06-30' }, false],
      ['a period that begins with it', { from: '2026-07-01T23:59:59.999Z' }, true],
      ['a period that ends with it', { to: '2026-07-01T23:59:59.999Z' }, false],
      ['its kind', { kind: 'lawn', day: '2026-07-01' }, true],
      ['another kind', { kind: 'check', day: '2026-07-01' }, false],
      ['another game', { game: '7b0c8f0e-3c58-4b7e-8f0e-2c58fb7e8f0e', day: '2026-07-01' }, false],
    ])('finds a record by %s', async (_, filter, found) => {
      const record = await kept({ createdAt: '2026-07-01T23:59:59.999Z' });
      const { readings } = await store.records.list(query({ ...filter, limit: 100 }));
      expect(readings.some(({ id }) => id === record.id)).toBe(found);
      await store.records.remove(record.id);
    });

    it('summarises a record by its balls and where they lie', async () => {
      const record = await kept({ createdAt: at(600) });
      const { readings } = await store.records.list(query({ limit: 1 }));
      expect(readings).toEqual([
        {
          id: record.id,
          kind: 'lawn',
          revision: 1,
          createdAt: at(600),
          photoId: record.photoId,
          game: null,
          spot: null,
          note: record.note,
          sentence: record.sentence,
          hoopScored: 1,
          balls: [{ colour: 'blue', x: 22.24, y: 16.08, lies: 'tooClose' }],
        },
      ]);
      await store.records.remove(record.id);
    });

    it('finds records by words of the note, the spot’s name and the game’s title, accents and case aside', async () => {
      const [its, played] = [spot('Señor Wall 100%'), game()];
      await store.spots.create(its);
      await store.games.create(played, [begun]);
      const record = await kept({ note: 'Émile asked', spot: its.id, game: played.id });
      const found = async (q: string) =>
        (await store.records.list(query({ q, limit: 100 }))).readings.some(({ id }) => id === record.id);
      for (const q of ['emile', 'SENOR', 'reyl', 'Reyl  émile', '100%', ' '])
        expect([q, await found(q)]).toEqual([q, true]);
      for (const q of ['emile pell', '10_%', "' or 1=1", 'blue'])
        expect([q, await found(q)]).toEqual([q, false]);
    });

    it('refuses a page that it never offered', async () => {
      await expect(store.records.list(query({ before: "1' or '1'='1" }))).rejects.toThrow(/no page/);
    });

    it('empties the label when a spot or a game is removed', async () => {
      const [its, played] = [spot('Terrace'), game()];
      await store.spots.create(its);
      await store.games.create(played, [begun]);
      const record = await kept({ spot: its.id, game: played.id });
      expect((await store.records.get(record.id))?.spot).toBe(its.id);
      await store.spots.remove(its.id);
      await store.games.remove(played.id);
      expect(await store.records.get(record.id)).toEqual({ ...record, spot: null, game: null });
    });

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

import { expect, it } from 'vitest';
import { type LawnRecord, RecordQuerySchema } from '../../server/contract/record.ts';
import type { Store } from '../../server/store/store.ts';
import { at, begun, game, spot } from './samples.ts';

const query = (changes: object = {}) => RecordQuerySchema.parse(changes);

/** What every store must do with lists of records; `kept` keeps a record on a photo of its own. */
export const describeLists = (
  store: () => Store,
  kept: (changes?: Partial<LawnRecord>) => Promise<LawnRecord>,
): void => {
  it('lists the newest first, page by page, without a gap or a repeat', async () => {
    const its = spot('Clubhouse balcony');
    await store().spots.create(its);
    // Three of the seven share an instant: the page's border may fall between them.
    const made = [];
    for (const minute of [10, 11, 12, 12, 12, 13, 14])
      made.push(await kept({ spot: its.id, createdAt: at(minute) }));
    const seen: string[] = [];
    let before: string | undefined;
    do {
      const page = await store().records.list(query({ spot: its.id, limit: 2, ...(before && { before }) }));
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
    const { readings } = await store().records.list(query({ ...filter, limit: 100 }));
    expect(readings.some(({ id }) => id === record.id)).toBe(found);
    await store().records.remove(record.id);
  });

  it('summarises a record by its balls and where they lie', async () => {
    const record = await kept({ createdAt: at(600) });
    const { readings } = await store().records.list(query({ limit: 1 }));
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
    await store().records.remove(record.id);
  });

  it('finds records by words of the note, the spot’s name and the game’s title, accents and case aside', async () => {
    const [its, played] = [spot('Señor Wall 100%'), game()];
    await store().spots.create(its);
    await store().games.create(played, [begun]);
    const record = await kept({ note: 'Émile asked', spot: its.id, game: played.id });
    const found = async (q: string) =>
      (await store().records.list(query({ q, limit: 100 }))).readings.some(({ id }) => id === record.id);
    for (const q of ['emile', 'SENOR', 'reyl', 'Reyl  émile', '100%', ' '])
      expect([q, await found(q)]).toEqual([q, true]);
    for (const q of ['emile pell', '10_%', "' or 1=1", 'blue'])
      expect([q, await found(q)]).toEqual([q, false]);
  });

  it('refuses a page that it never offered', async () => {
    await expect(store().records.list(query({ before: "1' or '1'='1" }))).rejects.toThrow(/no page/);
  });

  it('empties the label when a spot or a game is removed', async () => {
    const [its, played] = [spot('Terrace'), game()];
    await store().spots.create(its);
    await store().games.create(played, [begun]);
    const record = await kept({ spot: its.id, game: played.id });
    expect((await store().records.get(record.id))?.spot).toBe(its.id);
    await store().spots.remove(its.id);
    await store().games.remove(played.id);
    expect(await store().records.get(record.id)).toEqual({ ...record, spot: null, game: null });
  });
};

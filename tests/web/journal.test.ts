import { describe, expect, test } from 'vitest';
import type { Draft } from '../../web/draft/draft.ts';
import { createJournal, type JournalStorage } from '../../web/draft/journal.ts';

const DRAFT: Draft = {
  id: 'd1',
  kind: 'lawn',
  createdAt: 0,
  version: 4,
  name: 'lawn.jpg',
  size: null,
  shownHere: true,
  pins: { corner1: [10, 20] },
  hoopScored: 1,
  balls: ['blue'],
  spot: null,
  game: null,
  state: 'read',
  photoId: 'p1',
  readingId: 'r1',
  sendKey: 'k1',
  past: [],
  pinsFrom: null,
  straightToCall: false,
  trouble: null,
};

/** Storage as a browser gives it, over a map; `full` refuses to write as one without room does. */
const storageOf = (kept: Map<string, string>, full = false): JournalStorage => ({
  get length() {
    return kept.size;
  },
  key: (i) => [...kept.keys()][i] ?? null,
  getItem: (key) => kept.get(key) ?? null,
  setItem: (key, value) => {
    if (full) throw new DOMException('no room', 'QuotaExceededError');
    kept.set(key, value);
  },
  removeItem: (key) => void kept.delete(key),
});

const moved = (to: readonly [number, number]): Draft => ({
  ...DRAFT,
  pins: { corner1: to },
  past: [DRAFT.pins],
  state: 'marking',
});

describe('the journal of changes', () => {
  test('holds only what a change set, until it is struck out', () => {
    const journal = createJournal(storageOf(new Map()), () => 5, 'a');
    const key = journal.note(DRAFT, moved([11, 20]));
    expect(journal.pending()).toEqual([
      {
        key,
        id: 'd1',
        fields: { pins: { corner1: [11, 20] }, past: [{ corner1: [10, 20] }], state: 'marking' },
      },
    ]);
    journal.strike(key!);
    expect(journal.pending()).toEqual([]);
  });

  test('gives changes back in the order in which they were made, over tabs and in the same millisecond', () => {
    const kept = new Map<string, string>();
    let now = 999;
    const [one, two] = ['b', 'a'].map((tab) => createJournal(storageOf(kept), () => now, tab));
    for (let i = 0; i < 12; i++) one!.note(DRAFT, moved([i, 0]));
    now = 1000;
    two!.note(DRAFT, moved([12, 0]));
    expect(one!.pending().map(({ fields }) => fields.pins?.corner1?.[0])).toEqual([...Array(13).keys()]);
  });

  test('leaves alone what others keep in the same storage, and what it cannot read', () => {
    const kept = new Map([
      ['theme', 'dark'],
      ['sward-change 1', 'no JSON'],
      ['sward-change 2', '{"id":3}'],
    ]);
    expect(createJournal(storageOf(kept), () => 0, 'a').pending()).toEqual([]);
    expect(kept.get('theme')).toBe('dark');
  });

  test('lets a change pass when there is no room', () => {
    const journal = createJournal(storageOf(new Map(), true), () => 0, 'a');
    expect(journal.note(DRAFT, moved([1, 1]))).toBeNull();
    expect(journal.pending()).toEqual([]);
  });
});

import type { Draft } from './draft.ts';

/** Where the journal is written: the part of `localStorage` that it needs. */
export type JournalStorage = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

/** A change that was made but is not known to be in the database: the fields that it set. */
export type NotedChange = {
  readonly key: string;
  readonly id: string;
  readonly fields: Partial<Draft>;
};

/** Changes between the moment they are made and the moment the database has them. */
export type Journal = {
  /** Writes down, before it returns, what a change set; null when this browser lets nothing be written. */
  readonly note: (before: Draft, after: Draft) => string | null;
  /** Strikes out a change that the database has. */
  readonly strike: (key: string) => void;
  /** What is still written down, the oldest first: changes whose page was closed too early. */
  readonly pending: () => readonly NotedChange[];
};

const PREFIX = 'sward-change ';
/** Digits of an instant in ms and of a count, so that keys sort as text in the order of the changes. */
const [INSTANT_DIGITS, COUNT_DIGITS] = [15, 6];

/** The fields in which two versions of a draft differ. */
const changedFields = (before: Draft, after: Draft): Partial<Draft> =>
  Object.fromEntries(
    Object.entries(after).filter(([name, value]) => !Object.is(value, before[name as keyof Draft])),
  );

/** A change as written, or null for text that this journal did not write. */
const parseChange = (key: string, text: string | null): NotedChange | null => {
  try {
    const { id, fields } = JSON.parse(text ?? 'null') as NotedChange;
    return typeof id === 'string' && fields ? { key, id, fields } : null;
  } catch {
    return null;
  }
};

/**
 * A journal in this storage. A database answers later, and a page that is reloaded in between loses what it asked for; this is written
 * before the key or finger that made the change has gone up again. `now` and `tab` keep the keys of several tabs apart.
 */
export const createJournal = (storage: JournalStorage, now: () => number, tab: string): Journal => {
  let count = 0;
  const nextKey = () => {
    const instant = String(now()).padStart(INSTANT_DIGITS, '0');
    return `${PREFIX}${instant} ${String(count++).padStart(COUNT_DIGITS, '0')} ${tab}`;
  };
  return {
    note: (before, after) => {
      const key = nextKey();
      try {
        storage.setItem(key, JSON.stringify({ id: after.id, fields: changedFields(before, after) }));
        return key;
      } catch {
        // No room or not allowed: the database alone keeps the change, a moment later.
        return null;
      }
    },
    strike: (key) => storage.removeItem(key),
    pending: () => {
      const keys = Array.from({ length: storage.length }, (_, i) => storage.key(i) ?? '');
      return keys
        .filter((key) => key.startsWith(PREFIX))
        .sort()
        .flatMap((key) => parseChange(key, storage.getItem(key)) ?? []);
    },
  };
};

/** A journal for a browser that has no storage: nothing is written, nothing is pending. */
export const NO_JOURNAL: Journal = { note: () => null, strike: () => undefined, pending: () => [] };

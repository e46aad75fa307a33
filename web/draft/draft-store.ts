import { newKey } from '../service/new-key.ts';
import type { Draft } from './draft.ts';
import { createJournal, type Journal, NO_JOURNAL } from './journal.ts';

const NAME = 'sward';
const VERSION = 1;
/** Tells the other tabs that a draft changed. */
const channel = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('sward-drafts');
/** A draft as it is to be after a change; the same object when there is nothing to change. */
type Change = (draft: Draft) => Draft;
/** Told which draft changed, and what it has become where that is known at once. */
type Listener = (id: string, draft?: Draft | null) => void;
const listeners = new Set<Listener>();
/** Drafts as last seen here: a change shows at once, before it is on the disk. */
const seen = new Map<string, Draft>();
channel?.addEventListener('message', (event: MessageEvent<string>) => {
  for (const listener of listeners) listener(event.data);
});

const openJournal = (): Journal => {
  try {
    return createJournal(localStorage, Date.now, newKey());
  } catch {
    return NO_JOURNAL;
  }
};
const journal = openJournal();

const openDatabase = (): Promise<IDBDatabase> =>
  new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('drafts', { keyPath: 'id' });
      request.result.createObjectStore('photos');
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

const done = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

const committed = (transaction: IDBTransaction): Promise<void> =>
  new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });

/** Brings into the database what a page that was closed or reloaded had only written in the journal. */
const foldJournal = async (database: IDBDatabase): Promise<void> => {
  const pending = journal.pending();
  if (pending.length === 0) return;
  const transaction = database.transaction('drafts', 'readwrite');
  const drafts = transaction.objectStore('drafts');
  for (const { id, fields } of pending) {
    const before = (await done(drafts.get(id))) as Draft | undefined;
    if (before) drafts.put({ ...before, ...fields, id, version: before.version + 1 });
  }
  await committed(transaction);
  for (const { key, id } of pending) {
    journal.strike(key);
    channel?.postMessage(id);
  }
};

let opening: Promise<IDBDatabase> | null = null;
/** The database with the journal folded in, so that whatever is read first is what was done last. */
const open = (): Promise<IDBDatabase> => {
  opening ??= openDatabase().then(async (database) => {
    // A journal that cannot be folded in now stays for the next opening.
    await foldJournal(database).catch(() => undefined);
    return database;
  });
  return opening;
};

const tell = (id: string, draft: Draft | null): void => {
  if (draft) seen.set(id, draft);
  else seen.delete(id);
  for (const listener of listeners) listener(id, draft);
};

const announce = (id: string, draft: Draft | null): void => {
  channel?.postMessage(id);
  tell(id, draft);
};

/** Keeps a new draft and its photo; resolves when both are on the disk. */
export const addDraft = async (draft: Draft, photo: Blob | null): Promise<void> => {
  const transaction = (await open()).transaction(['drafts', 'photos'], 'readwrite', { durability: 'strict' });
  transaction.objectStore('drafts').put(draft);
  if (photo) transaction.objectStore('photos').put(photo, draft.id);
  await committed(transaction);
  announce(draft.id, draft);
};

/** Changes of this page that the database does not have yet, the oldest first, by draft. */
const underWay = new Map<string, readonly Change[]>();

/** Shows a change at once and writes it in the journal, if this page has seen the draft. Returns how to end it when the database has answered. */
const begin = (id: string, change: Change): (() => void) => {
  const known = seen.get(id);
  const soon = known && change(known);
  if (!soon || soon === known) return () => undefined;
  const key = journal.note(known, soon);
  underWay.set(id, [...(underWay.get(id) ?? []), change]);
  tell(id, soon);
  return () => {
    if (key) journal.strike(key);
    underWay.set(
      id,
      underWay.get(id)!.filter((other) => other !== change),
    );
  };
};

/** A draft as the database has it, with what this page has asked for since. */
const withUnderWay = (draft: Draft): Draft =>
  (underWay.get(draft.id) ?? []).reduce((now, change) => change(now), draft);

/**
 * Changes a draft by `change`, which sees the latest version whichever tab wrote it. A change of a draft that this page has seen is safe
 * from the moment of the call, even if the page is left in the next. Resolves with the draft as kept, or null when it was deleted
 * meanwhile.
 */
export const updateDraft = async (id: string, change: Change): Promise<Draft | null> => {
  const end = begin(id, change);
  const transaction = (await open()).transaction('drafts', 'readwrite');
  const drafts = transaction.objectStore('drafts');
  const before = (await done(drafts.get(id))) as Draft | undefined;
  const after = before && change(before);
  const changed = before && after && after !== before;
  const kept = changed ? { ...after, version: before.version + 1 } : before;
  if (changed) drafts.put(kept);
  await committed(transaction);
  end();
  if (changed) announce(id, withUnderWay(kept!));
  return kept ?? null;
};

/** One draft, or null. */
export const getDraft = async (id: string): Promise<Draft | null> => {
  const found = (await done((await open()).transaction('drafts').objectStore('drafts').get(id))) as
    | Draft
    | undefined;
  if (!found) return null;
  const now = withUnderWay(found);
  seen.set(id, now);
  return now;
};

/** All drafts, the newest first. */
export const listDrafts = async (): Promise<Draft[]> => {
  const all = (await done((await open()).transaction('drafts').objectStore('drafts').getAll())) as Draft[];
  return all.toSorted((a, b) => b.createdAt - a.createdAt);
};

/** The photo of a draft as it was chosen, or null for one that lies on the server. */
export const getDraftPhoto = async (id: string): Promise<Blob | null> =>
  ((await done((await open()).transaction('photos').objectStore('photos').get(id))) as Blob | undefined) ??
  null;

/** Deletes a draft and its photo from this browser. */
export const removeDraft = async (id: string): Promise<void> => {
  const transaction = (await open()).transaction(['drafts', 'photos'], 'readwrite');
  transaction.objectStore('drafts').delete(id);
  transaction.objectStore('photos').delete(id);
  await committed(transaction);
  announce(id, null);
};

/** Calls `listener` for each draft that changes, in this tab (with what it becomes, null when deleted) or in another; returns how to stop. */
export const onDraftChange = (listener: Listener): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

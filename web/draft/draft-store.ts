import type { Draft } from './draft.ts';

const NAME = 'sward';
const VERSION = 1;
/** Tells the other tabs that a draft changed. */
const channel = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('sward-drafts');
/** Told which draft changed, and what it has become where that is known at once. */
type Listener = (id: string, draft?: Draft | null) => void;
const listeners = new Set<Listener>();
/** Drafts as last seen here: a change shows at once, before it is on the disk. */
const seen = new Map<string, Draft>();
channel?.addEventListener('message', (event: MessageEvent<string>) => {
  for (const listener of listeners) listener(event.data);
});

let opening: Promise<IDBDatabase> | null = null;
const open = (): Promise<IDBDatabase> => {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('drafts', { keyPath: 'id' });
      request.result.createObjectStore('photos');
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opening;
};

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

/**
 * Changes a draft by `change`, which sees the latest version whichever tab wrote it. Resolves with the draft as kept, or null when it
 * was deleted meanwhile.
 */
export const updateDraft = async (id: string, change: (draft: Draft) => Draft): Promise<Draft | null> => {
  const known = seen.get(id);
  const soon = known && change(known);
  if (soon && soon !== known) tell(id, soon);
  const transaction = (await open()).transaction('drafts', 'readwrite');
  const drafts = transaction.objectStore('drafts');
  const before = (await done(drafts.get(id))) as Draft | undefined;
  if (!before) return null;
  const after = change(before);
  if (after === before) return before;
  const kept = { ...after, version: before.version + 1 };
  drafts.put(kept);
  await committed(transaction);
  announce(id, kept);
  return kept;
};

/** One draft, or null. */
export const getDraft = async (id: string): Promise<Draft | null> => {
  const found = (await done((await open()).transaction('drafts').objectStore('drafts').get(id))) as
    | Draft
    | undefined;
  if (found) seen.set(id, found);
  return found ?? null;
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

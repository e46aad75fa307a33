import type { ProgressEvent } from '../../server/contract/service.ts';
import { Refusal, Unreachable } from '../service/request.ts';
import type { Draft } from './draft.ts';

/** What a draft is doing in this tab. */
export type Doing =
  | { readonly state: 'sending' }
  | { readonly state: 'reading'; readonly message: string }
  | { readonly state: 'unreachable' };

/** What the outbox needs from store and server, so that a test can put its own in their place. */
export type OutboxPorts = {
  readonly drafts: () => Promise<readonly Draft[]>;
  readonly photo: (id: string) => Promise<Blob | null>;
  readonly update: (id: string, change: (draft: Draft) => Draft) => Promise<Draft | null>;
  readonly sendPhoto: (
    draft: Draft,
    photo: Blob,
    signal: AbortSignal,
  ) => Promise<{ id: string; width: number; height: number }>;
  readonly read: (draft: Draft, signal: AbortSignal) => Promise<{ id: string }>;
  readonly cancel: (sendKey: string) => Promise<void>;
  readonly follow: (sendKey: string, tell: (event: ProgressEvent) => void) => () => void;
  readonly tell: (id: string, doing: Doing | null) => void;
};

/** Sends what waits, one draft after another, each at most once; what cannot be sent stays and is tried again. */
export type Outbox = {
  /** Sends everything that waits; resolves when nothing more can be done now. True when something is still waiting for the server. */
  readonly run: () => Promise<boolean>;
  /** Stops the reading of a draft; its marks stay. */
  readonly cancel: (draft: Draft) => Promise<void>;
};

const isUnreachable = (error: unknown): boolean =>
  error instanceof Unreachable ||
  (error instanceof Refusal && (error.status === 503 || error.status === 429));

const troubleOf = (error: unknown): string =>
  error instanceof Refusal
    ? error.message
    : 'The photo could not be sent from this page. Load the page again; it is kept.';

/** Puts the photo on the server if it is not there yet. */
const withPhoto = async (ports: OutboxPorts, draft: Draft, signal: AbortSignal): Promise<Draft | null> => {
  if (draft.photoId) return draft;
  const file = await ports.photo(draft.id);
  if (!file) return null;
  const { id, width, height } = await ports.sendPhoto(draft, file, signal);
  return ports.update(draft.id, (now) => ({ ...now, photoId: id, size: now.size ?? { width, height } }));
};

const readOne = async (ports: OutboxPorts, draft: Draft, signal: AbortSignal): Promise<void> => {
  const stop = ports.follow(draft.sendKey, ({ message }) =>
    ports.tell(draft.id, { state: 'reading', message }),
  );
  try {
    const record = await ports.read(draft, signal);
    await ports.update(draft.id, (now) =>
      now.sendKey === draft.sendKey ? { ...now, state: 'read', readingId: record.id, trouble: null } : now,
    );
  } finally {
    stop();
  }
};

/** A refusal ends the waiting and is kept with the draft; silence does not. */
const settle = async (ports: OutboxPorts, draft: Draft, error: unknown): Promise<boolean> => {
  if (isUnreachable(error)) {
    ports.tell(draft.id, { state: 'unreachable' });
    return true;
  }
  const cancelled = error instanceof Refusal && error.code === 'cancelled';
  await ports.update(draft.id, (now) => ({
    ...now,
    state: now.state === 'waiting' ? 'marking' : now.state,
    trouble: cancelled ? null : troubleOf(error),
  }));
  ports.tell(draft.id, null);
  return false;
};

const wantsSending = (draft: Draft): boolean =>
  draft.state === 'waiting' || (!draft.photoId && draft.trouble === null);

/** An outbox over these ports. */
export const createOutbox = (ports: OutboxPorts): Outbox => {
  const stops = new Map<string, AbortController>();
  let running: Promise<boolean> | null = null;

  const sendOne = async (id: string): Promise<boolean> => {
    const draft = (await ports.drafts()).find((one) => one.id === id);
    if (!draft || !wantsSending(draft)) return false;
    const stop = new AbortController();
    stops.set(id, stop);
    if (draft.state === 'waiting') ports.tell(id, { state: 'sending' });
    try {
      await withPhoto(ports, draft, stop.signal);
      // The marks may have been finished while the photo was on its way.
      const now = (await ports.drafts()).find((one) => one.id === id);
      if (now?.state === 'waiting' && now.photoId) await readOne(ports, now, stop.signal);
      ports.tell(id, null);
      return false;
    } catch (error) {
      if (stop.signal.aborted) return false;
      return settle(ports, draft, error);
    } finally {
      stops.delete(id);
    }
  };

  const runOnce = async (): Promise<boolean> => {
    let left = false;
    // What is waited for goes before what is only sent ahead.
    const unsent = (await ports.drafts())
      .filter(wantsSending)
      .toSorted((a, b) => Number(b.state === 'waiting') - Number(a.state === 'waiting'));
    for (const { id } of unsent) left = (await sendOne(id)) || left;
    return left;
  };

  return {
    run: () => {
      // A second call while one runs takes up what the first one missed.
      const next = (running ?? Promise.resolve(false)).catch(() => false).then(runOnce);
      running = next;
      return next;
    },
    cancel: async (draft) => {
      stops.get(draft.id)?.abort();
      await ports.update(draft.id, (now) => ({ ...now, state: 'marking', trouble: null }));
      ports.tell(draft.id, null);
      await ports.cancel(draft.sendKey);
    },
  };
};

import type { Photo } from '../contract/photo.ts';
import type { PhotoRecord, RecordPage, RecordQuery } from '../contract/record.ts';
import type { Settings } from '../contract/settings.ts';
import type { ClubLawn, Spot } from '../contract/spot.ts';

/** Readings, sightings and court checks. Each correction is a new revision; none is ever overwritten. */
export interface RecordStore {
  /** Keeps `record` as revision 1. Its photo, game and spot must be kept already. */
  create(record: PhotoRecord): Promise<void>;
  /** Keeps `record` as the revision after the newest one; false, and nothing kept, when its number is not that one. */
  revise(record: PhotoRecord): Promise<boolean>;
  /** The newest revision; null when there is none. */
  get(id: string): Promise<PhotoRecord | null>;
  /** Every revision, the oldest first. */
  revisions(id: string): Promise<PhotoRecord[]>;
  /** One page of summaries, the newest first. */
  list(query: RecordQuery): Promise<RecordPage>;
  /** Removes all revisions; false when there was none. */
  remove(id: string): Promise<boolean>;
}

/** What is known about each photo; the files are kept by `PhotoFiles`. */
export interface PhotoStore {
  create(photo: Photo): Promise<void>;
  get(id: string): Promise<Photo | null>;
  /** Ids of all photos. */
  ids(): Promise<string[]>;
  /** Whether a record or a game's event still refers to the photo. */
  inUse(id: string): Promise<boolean>;
  /** Ids of photos kept before `instant` to which nothing refers. */
  unusedSince(instant: string): Promise<string[]>;
  remove(id: string): Promise<boolean>;
}

/** A list of small things with an id that people name, edit and remove. */
export interface NamedStore<T extends { readonly id: string }> {
  create(item: T): Promise<void>;
  get(id: string): Promise<T | null>;
  /** All of them by name. */
  list(): Promise<T[]>;
  /** Puts `item` in the place of the one with its id; false when there is none. */
  replace(item: T): Promise<boolean>;
  /** Removes it; labels that named it become empty. False when there was none. */
  remove(id: string): Promise<boolean>;
}

/** The club's settings: one document. */
export interface SettingsStore {
  /** Null in a new installation. */
  get(): Promise<Settings | null>;
  put(settings: Settings): Promise<void>;
}

/** A game without its events. `version` is the number of its events; `summary` is what a list shows; `title` is what a search looks at. */
export type GameHead = {
  readonly id: string;
  readonly title: string;
  readonly createdAt: string;
  readonly updatedAt: string;
  readonly version: number;
  readonly summary: unknown;
};
/** One event as kept: its number from 1, the instant it was kept, and the event itself. */
export type KeptEvent = { readonly number: number; readonly at: string; readonly event: unknown };
/** A game with all its events in order. */
export type KeptGame = GameHead & { readonly events: readonly KeptEvent[] };
/** Events to add to a game's log, on the condition that it has `expectedVersion` events. */
export type Addition = {
  readonly id: string;
  readonly expectedVersion: number;
  readonly at: string;
  readonly events: readonly unknown[];
  readonly title: string;
  readonly summary: unknown;
};
/** Outcome of an addition: the log's version afterwards, or the one it has. */
export type AdditionOutcome =
  | { readonly ok: true; readonly version: number }
  | { readonly ok: false; readonly code: 'no-such-game' }
  | { readonly ok: false; readonly code: 'version-conflict'; readonly version: number };

/** Logs of games. Events are only ever added. */
export interface GameStore {
  create(game: GameHead, events: readonly KeptEvent[]): Promise<void>;
  append(addition: Addition): Promise<AdditionOutcome>;
  get(id: string): Promise<KeptGame | null>;
  /** Heads, the newest first. */
  list(): Promise<GameHead[]>;
  remove(id: string): Promise<boolean>;
}

/** The answer that was given to a request with a key of its own. */
export type KeptAnswer = {
  readonly scope: string;
  readonly key: string;
  /** Digest of the request; the same key with another request is a mistake. */
  readonly fingerprint: string;
  readonly status: number;
  readonly body: unknown;
  readonly createdAt: string;
};

/** Answers by idempotency key. */
export interface AnswerStore {
  get(scope: string, key: string): Promise<KeptAnswer | null>;
  put(answer: KeptAnswer): Promise<void>;
  /** Forgets answers that speak of `id`, because the thing itself was removed. */
  forgetAbout(id: string): Promise<void>;
  /** Forgets answers kept before `instant`; returns how many. */
  forgetBefore(instant: string): Promise<number>;
}

/** All that is kept, apart from photo files. */
export interface Tables {
  readonly records: RecordStore;
  readonly photos: PhotoStore;
  readonly spots: NamedStore<Spot>;
  readonly lawns: NamedStore<ClubLawn>;
  readonly settings: SettingsStore;
  readonly games: GameStore;
  readonly answers: AnswerStore;
}

/** The store. What a call has resolved is on disk and survives the loss of the process. */
export interface Store extends Tables {
  /** Runs `work` so that all of it is kept or none; what it throws is thrown on. Use only the tables handed to it inside. */
  atomically<T>(work: (tables: Tables) => Promise<T>): Promise<T>;
  /** Resolves when the store answers; throws when it does not. */
  ping(): Promise<void>;
  close(): Promise<void>;
}

import type { Photo } from '../../contract/photo.ts';
import type { PhotoRecord } from '../../contract/record.ts';
import type { Settings } from '../../contract/settings.ts';
import type { ClubLawn, Spot } from '../../contract/spot.ts';
import type { KeptAnswer, KeptGame } from '../store.ts';

/** All that the in-memory store holds. Values are never changed in place, so that a shallow copy of each map is a snapshot. */
export type State = {
  records: Map<string, readonly PhotoRecord[]>;
  photos: Map<string, Photo>;
  spots: Map<string, Spot>;
  lawns: Map<string, ClubLawn>;
  games: Map<string, KeptGame>;
  answers: Map<string, KeptAnswer>;
  settings: { current: Settings | null };
};

/** An empty store. */
export const emptyState = (): State => ({
  records: new Map(),
  photos: new Map(),
  spots: new Map(),
  lawns: new Map(),
  games: new Map(),
  answers: new Map(),
  settings: { current: null },
});

/** A snapshot of `state`. */
export const snapshotOf = (state: State): State => ({
  records: new Map(state.records),
  photos: new Map(state.photos),
  spots: new Map(state.spots),
  lawns: new Map(state.lawns),
  games: new Map(state.games),
  answers: new Map(state.answers),
  settings: { ...state.settings },
});

/** What a database would hand back for `value`: a copy that nobody else holds, without undefined fields. */
export const kept = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/** Refuses what a unique key or a reference of the database would refuse. */
export const insist = (holds: boolean, constraint: string): void => {
  if (!holds) throw new Error(`Constraint failed: ${constraint}`);
};

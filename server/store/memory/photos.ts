import type { PhotoStore } from '../store.ts';
import { insist, kept, type State } from './state.ts';

const inUse = (state: State, id: string): boolean =>
  [...state.records.values()].some((revisions) => revisions.at(-1)!.photoId === id) ||
  [...state.games.values()].some(({ events }) => JSON.stringify(events).includes(id));

/** Photos in memory. */
export const memoryPhotos = (state: State): PhotoStore => ({
  create: async (photo) => {
    insist(!state.photos.has(photo.id), 'photos.id');
    state.photos.set(photo.id, kept(photo));
  },
  get: async (id) => kept(state.photos.get(id) ?? null),
  ids: async () => [...state.photos.keys()],
  inUse: async (id) => !state.photos.has(id) || inUse(state, id),
  unusedSince: async (instant) =>
    [...state.photos.values()]
      .filter(({ id, createdAt }) => createdAt < instant && !inUse(state, id))
      .map(({ id }) => id),
  remove: async (id) => {
    insist(
      ![...state.records.values()].some((revisions) => revisions.at(-1)!.photoId === id),
      'records.photo_id',
    );
    return state.photos.delete(id);
  },
});

import type { Settings } from '../../server/contract/settings.ts';
import type { ClubLawn, Spot } from '../../server/contract/spot.ts';
import { request } from './request.ts';

const listOf = async <T>(path: string, name: string): Promise<T[]> => {
  const answer = await request<T[] | Record<string, T[]>>(path);
  return Array.isArray(answer) ? answer : (answer[name] ?? []);
};

/** What the club chose. */
export const getSettings = (): Promise<Settings> => request('/api/settings');
/** Keeps the club's choices. */
export const putSettings = (settings: Settings): Promise<Settings> =>
  request('/api/settings', { method: 'PUT', json: settings });

/** The named camera places. */
export const listSpots = (): Promise<Spot[]> => listOf('/api/spots', 'spots');
/** A new camera place. */
export const addSpot = (spot: Partial<Spot> & { name: string }): Promise<Spot> =>
  request('/api/spots', { method: 'POST', json: spot });
/** Changes a camera place. */
export const changeSpot = (id: string, change: Partial<Spot>): Promise<Spot> =>
  request(`/api/spots/${id}`, { method: 'PATCH', json: change });
/** Forgets a camera place; its readings stay. */
export const removeSpot = (id: string): Promise<void> => request(`/api/spots/${id}`, { method: 'DELETE' });

/** The club's lawns. */
export const listLawns = (): Promise<ClubLawn[]> => listOf('/api/lawns', 'lawns');
/** A new lawn. */
export const addLawn = (
  lawn: Pick<ClubLawn, 'name' | 'width' | 'length' | 'unevenness'>,
): Promise<ClubLawn> => request('/api/lawns', { method: 'POST', json: lawn });
/** Changes a lawn. */
export const changeLawn = (id: string, change: Partial<ClubLawn>): Promise<ClubLawn> =>
  request(`/api/lawns/${id}`, { method: 'PATCH', json: change });
/** Forgets a lawn. */
export const removeLawn = (id: string): Promise<void> => request(`/api/lawns/${id}`, { method: 'DELETE' });

import type { Begun, GameEvent } from '../../server/games/events.ts';
import type { GameSummary, GameView } from '../../server/games/view-game.ts';
import { request } from './request.ts';

/** One line of the list of games. */
export type GameHead = {
  readonly id: string;
  readonly title: string;
  readonly createdAt: string;
  readonly updatedAt: string;
  readonly version: number;
  readonly summary: GameSummary;
};

/** A game with its log and how it stands. */
export type Game = GameHead & {
  readonly events: readonly { readonly number: number; readonly at: string; readonly event: GameEvent }[];
  readonly state: GameView;
};

/** What a new game may say; the rest comes from the club's settings. */
export type NewGame = Partial<Omit<Begun, 'type'>>;

/** All games, the latest first. */
export const listGames = async (): Promise<GameHead[]> =>
  (await request<{ games: GameHead[] }>('/api/games')).games;
/** One game. */
export const getGame = (id: string): Promise<Game> => request(`/api/games/${id}`);
/** Begins a game. */
export const beginGame = (game: NewGame, key: string): Promise<Game> =>
  request('/api/games', { method: 'POST', json: game, key });
/** Adds to a game's log if it still has `expectedVersion` entries; the answer is the game after it. */
export const addEvents = (
  id: string,
  expectedVersion: number,
  events: readonly GameEvent[],
  key: string,
): Promise<Game> =>
  request(`/api/games/${id}/events`, { method: 'POST', json: { expectedVersion, events }, key });
/** Deletes a game and its log. */
export const deleteGame = (id: string): Promise<void> => request(`/api/games/${id}`, { method: 'DELETE' });
/** Takes in a game that was exported, here or elsewhere. */
export const importGame = (file: unknown, key: string): Promise<Game> =>
  request('/api/games/import', { method: 'POST', json: file, key });
/** Address of one of a game's prints; `turn` is the number of the entry after which. */
export const printAddress = (
  id: string,
  name: 'export.json' | 'positions.csv' | 'plan.svg' | 'plan.png' | 'score.pdf' | 'putback.pdf',
  turn?: number,
): string => `/api/games/${id}/${name}${turn === undefined ? '' : `?turn=${turn}`}`;

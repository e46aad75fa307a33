import type { Request } from 'express';
import { AdditionSchema } from '../../contract/game-request.ts';
import { parseInput } from '../../contract/parse.ts';
import { InputError } from '../../errors.ts';
import type { KeptGame } from '../../store/store.ts';
import type { Deps } from '../deps.ts';
import { found, idOf, noSuch } from '../handle.ts';
import { fingerprintOf, type Given, keyOf } from '../jobs/answer-once.ts';
import { settingsOf } from '../records/take-reading.ts';
import type { Service } from '../service.ts';
import type { CheckedLog } from './games.ts';

/** The game of a request; 404 when there is none. */
export const gameOf = async ({ store }: Deps, request: Request): Promise<KeptGame> =>
  found(await store.games.get(idOf(request, 'game')), 'game');

/** A game as clients see it: its log, and the state that the log replays to. */
export const shownGame = (deps: Deps, game: KeptGame) => ({ ...game, state: deps.games.state(game) });

const newGame = (deps: Deps, log: CheckedLog, times: readonly (string | null)[] = []): KeptGame => {
  const at = deps.now().toISOString();
  const events = log.events.map((event, index) => ({ number: index + 1, at: times[index] ?? at, event }));
  const { title, summary } = log;
  return {
    id: deps.newId(),
    title,
    summary,
    createdAt: events[0]?.at ?? at,
    updatedAt: at,
    version: events.length,
    events,
  };
};

const asked = (request: Request, scope: string) => ({
  scope,
  key: keyOf(request),
  fingerprint: fingerprintOf(request.originalUrl, JSON.stringify(request.body ?? null)),
});

const keepNew = ({ deps, once }: Service, request: Request, game: KeptGame, scope: string): Promise<Given> =>
  once(asked(request, scope), async () => {
    const { events, ...head } = game;
    return {
      status: 201,
      body: shownGame(deps, game),
      keep: (tables) => tables.games.create(head, events),
    };
  });

/** Begins a game. */
export const begin = async (service: Service, request: Request): Promise<Given> => {
  const { deps } = service;
  const log = deps.games.begin(request.body, await settingsOf(deps));
  return keepNew(service, request, newGame(deps, log), 'POST game');
};

/** Makes a game of an exported file. */
export const importGame = async (service: Service, request: Request): Promise<Given> => {
  const { times, ...log } = service.deps.games.importGame(request.body);
  return keepNew(service, request, newGame(service.deps, log, times), 'POST game import');
};

const versionConflict = (version: number): InputError =>
  new InputError(
    'version-conflict',
    'The log was continued elsewhere meanwhile; load the game again and enter the turn on top of it.',
    409,
    { version },
  );

/** Adds the events of a request to a game, once however often it is sent. */
export const addEvents = ({ deps, once }: Service, request: Request): Promise<Given> => {
  const id = idOf(request, 'game');
  const { expectedVersion } = parseInput(AdditionSchema, request.body, 'request');
  return once(asked(request, 'POST event'), async () => {
    const game = found(await deps.store.games.get(id), 'game');
    if (game.version !== expectedVersion) throw versionConflict(game.version);
    const { events, title, summary } = deps.games.add(game, request.body);
    const at = deps.now().toISOString();
    const added = events.map((event, index) => ({ number: expectedVersion + index + 1, at, event }));
    const version = expectedVersion + added.length;
    const next = { ...game, title, summary, version, updatedAt: at, events: [...game.events, ...added] };
    return {
      status: 201,
      body: shownGame(deps, next),
      keep: async (tables) => {
        const outcome = await tables.games.append({ id, expectedVersion, at, events, title, summary });
        if (outcome.ok) return;
        throw outcome.code === 'no-such-game' ? noSuch('game') : versionConflict(outcome.version);
      },
    };
  });
};

/** Removes a game; labels that named it become empty. */
export const removeGame = async ({ store }: Deps, request: Request): Promise<void> => {
  const id = idOf(request, 'game');
  const removed = await store.atomically(async (tables) => {
    await tables.answers.forgetAbout(id);
    return tables.games.remove(id);
  });
  if (!removed) throw noSuch('game');
};

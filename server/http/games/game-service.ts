import type { Request } from 'express';
import { AdditionSchema } from '../../contract/game-request.ts';
import { parseInput } from '../../contract/parse.ts';
import { InputError } from '../../errors.ts';
import type { GameLog } from '../../games/log.ts';
import { viewGame } from '../../games/view-game.ts';
import type { KeptGame } from '../../store/store.ts';
import type { Deps } from '../deps.ts';
import { found, idOf, noSuch } from '../handle.ts';
import { fingerprintOf, type Given, keyOf } from '../jobs/answer-once.ts';
import { settingsOf } from '../records/take-reading.ts';
import type { Service } from '../service.ts';
import { addToLog, beginLog, headOf, logOf, logOfFile } from './game-log.ts';

/** The game of a request; 404 when there is none. */
export const gameOf = async ({ store }: Deps, request: Request): Promise<KeptGame> =>
  found(await store.games.get(idOf(request, 'game')), 'game');

/** A game as clients see it: its log, and the state that the log replays to. */
export const shownGame = (game: KeptGame, log: GameLog = logOf(game)) => ({
  ...game,
  state: viewGame(log.state),
});

const asked = (request: Request, scope: string) => ({
  scope,
  key: keyOf(request),
  fingerprint: fingerprintOf(request.originalUrl, JSON.stringify(request.body ?? null)),
});

/** Keeps a new game that has the entries of `log`. */
const keepNew = ({ deps, once }: Service, request: Request, log: GameLog, scope: string): Promise<Given> =>
  once(asked(request, scope), async () => {
    const head = {
      id: deps.newId(),
      ...headOf(log),
      createdAt: log.entries[0]!.at,
      updatedAt: deps.now().toISOString(),
      version: log.version,
    };
    return {
      status: 201,
      body: shownGame({ ...head, events: log.entries }, log),
      keep: (tables) => tables.games.create(head, log.entries),
    };
  });

/** Begins a game. */
export const begin = async (service: Service, request: Request): Promise<Given> => {
  const { deps } = service;
  const log = beginLog(request.body, await settingsOf(deps), deps.now().toISOString());
  return keepNew(service, request, log, 'POST game');
};

/** Makes a game of an exported file; its entries keep their instants. */
export const importFile = async (service: Service, request: Request): Promise<Given> =>
  keepNew(service, request, logOfFile(request.body), 'POST game import');

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
    const at = deps.now().toISOString();
    const log = addToLog(logOf(game), request.body, at);
    const head = { ...headOf(log), version: log.version, updatedAt: at };
    const events = log.entries.slice(expectedVersion).map(({ event }) => event);
    return {
      status: 201,
      body: shownGame({ ...game, ...head, events: log.entries }, log),
      keep: async (tables) => {
        const { title, summary } = head;
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

import { type Request, Router } from 'express';
import { MomentSchema } from '../../contract/game-request.ts';
import { parseInput } from '../../contract/parse.ts';
import type { Settings } from '../../contract/settings.ts';
import type { KeptGame } from '../../store/store.ts';
import { addEvents, begin, gameOf, importGame, removeGame, shownGame } from '../games/game-service.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { done, file, given, json } from '../handle.ts';
import { settingsOf } from '../records/take-reading.ts';
import type { Service } from '../service.ts';

type Draw = (game: KeptGame, turn: number | null, settings: Settings) => Promise<Uint8Array | string>;

/** What is printed from a game at the moment that the request asks for. */
const drawn =
  ({ deps }: Service, draw: Draw) =>
  async (request: Request): Promise<Uint8Array | string> => {
    const { turn } = parseInput(MomentSchema, request.query, 'query');
    return draw(await gameOf(deps, request), turn ?? null, await settingsOf(deps));
  };

const addPrints = (router: Router, service: Service): void => {
  const { games } = service.deps;
  const prints: readonly (readonly [path: string, type: string, draw: Draw])[] = [
    ['positions.csv', 'csv', async (game) => games.positionsCsv(game)],
    ['plan.svg', 'svg', async (game, turn, settings) => games.planSvg(game, turn, settings)],
    ['plan.png', 'png', (game, turn, settings) => games.planPng(game, turn, settings)],
    ['score.pdf', 'pdf', (game, _, settings) => games.scorePdf(game, settings)],
    ['putback.pdf', 'pdf', (game, turn, settings) => games.putBackPdf(game, turn, settings)],
  ];
  for (const [path, type, draw] of prints) router.get(`/:id/${path}`, file(type, path, drawn(service, draw)));
};

/** `/api/games`: logs of games, and what is printed from them. */
export const gamesRouter = (service: Service): Router => {
  const { deps } = service;
  const router = Router();
  router.get(
    '/',
    json(async () => ({ games: await deps.store.games.list() })),
  );
  router.post(
    '/',
    given((request) => begin(service, request)),
  );
  router.post(
    '/import',
    given((request) => importGame(service, request)),
  );
  router.get(
    '/:id',
    json(async (request) => shownGame(deps, await gameOf(deps, request))),
  );
  router.delete(
    '/:id',
    done((request) => removeGame(deps, request)),
  );
  router.post(
    '/:id/events',
    given((request) => addEvents(service, request)),
  );
  router.get(
    '/:id/export.json',
    json(async (request) => deps.games.exportGame(await gameOf(deps, request))),
  );
  addPrints(router, service);
  return refuseOtherMethods(router);
};

import { type Request, Router } from 'express';
import { MomentSchema } from '../../contract/game-request.ts';
import { parseInput } from '../../contract/parse.ts';
import { exportGame } from '../../games/game-file.ts';
import { positionsCsv } from '../../games/positions-csv.ts';
import type { Deps, GamePrint } from '../deps.ts';
import { logOf } from '../games/game-log.ts';
import { addEvents, begin, gameOf, importFile, removeGame, shownGame } from '../games/game-service.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { done, file, given, json } from '../handle.ts';
import { settingsOf } from '../records/take-reading.ts';
import type { Service } from '../service.ts';

const logIn = async (deps: Deps, request: Request) => logOf(await gameOf(deps, request));

/** What is printed of a game at the moment that a request asks for. */
const printOf = async (deps: Deps, request: Request): Promise<GamePrint> => {
  const { turn } = parseInput(MomentSchema, request.query, 'query');
  const log = await logIn(deps, request);
  return { log, entry: Math.min(turn ?? log.version, log.version), settings: await settingsOf(deps) };
};

const addPrints = (router: Router, deps: Deps): void => {
  const { cards } = deps;
  const print = (
    name: string,
    type: string,
    draw: (print: GamePrint) => Promise<Uint8Array | string> | string,
  ) =>
    router.get(
      `/:id/${name}`,
      file(type, name, async (request) => draw(await printOf(deps, request))),
    );
  print('positions.csv', 'csv', ({ log }) => positionsCsv(log));
  print('plan.svg', 'svg', cards.planSvg);
  print('plan.png', 'png', cards.planPng);
  print('score.pdf', 'pdf', cards.scorePdf);
  print('putback.pdf', 'pdf', cards.putBackPdf);
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
    given((request) => importFile(service, request)),
  );
  router.get(
    '/:id',
    json(async (request) => shownGame(await gameOf(deps, request))),
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
    json(async (request) => exportGame(await logIn(deps, request))),
  );
  addPrints(router, deps);
  return refuseOtherMethods(router);
};

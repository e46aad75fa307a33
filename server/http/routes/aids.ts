import { type Request, Router } from 'express';
import { parseInput } from '../../contract/parse.ts';
import { GuessRequestSchema, TraceRequestSchema } from '../../contract/photo.ts';
import { StandsRequestSchema } from '../../contract/stands.ts';
import type { Deps, FormerPicture } from '../deps.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { found, json } from '../handle.ts';
import { progressKeyOf } from '../records/take-reading.ts';
import type { Service } from '../service.ts';

const photoOf = async ({ files }: Deps, id: string): Promise<Uint8Array> =>
  found(await files.original(id), 'photo');

/** The last picture of a spot, with the marks it was read with; null when there is none. */
const formerPicture = async (deps: Deps, spot: string | undefined): Promise<FormerPicture | null> => {
  if (spot === undefined) return null;
  const { readings } = await deps.store.records.list({ spot, kind: 'lawn', limit: 1 });
  const last = readings[0] && (await deps.store.records.get(readings[0].id));
  const photo = last && (await deps.files.original(last.photoId));
  return last && photo ? { photo, marks: last.marks } : null;
};

const trace = async ({ deps, run }: Service, request: Request) => {
  const { photoId, marks } = parseInput(TraceRequestSchema, request.body, 'request');
  const photo = await photoOf(deps, photoId);
  return run(progressKeyOf(request), (job) => deps.readers.trace(photo, marks, job));
};

const guess = async ({ deps, run }: Service, request: Request) => {
  const { photoId, spot } = parseInput(GuessRequestSchema, request.body, 'request');
  const photo = await photoOf(deps, photoId);
  const former = await formerPicture(deps, spot);
  return run(progressKeyOf(request), (job) => deps.readers.guess(photo, former, job));
};

const stands = ({ deps, run }: Service, request: Request) => {
  const wanted = parseInput(StandsRequestSchema, request.body, 'request');
  return run(undefined, async () => deps.stands(wanted));
};

/** A router with one route: a question that keeps nothing. */
const asking = (
  service: Service,
  answer: (service: Service, request: Request) => Promise<unknown>,
): Router => {
  const router = Router();
  router.post(
    '/',
    json((request) => answer(service, request)),
  );
  return refuseOtherMethods(router);
};

/** `/api/traces`: the boundary lines near the marks. */
export const tracesRouter = (service: Service): Router => asking(service, trace);
/** `/api/guesses`: the page's own guess of the corners. */
export const guessesRouter = (service: Service): Router => asking(service, guess);
/** `/api/stands`: where to stand. */
export const standsRouter = (service: Service): Router => asking(service, stands);

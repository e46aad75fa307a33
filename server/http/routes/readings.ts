import { type Request, type Response, Router } from 'express';
import { parseInput } from '../../contract/parse.ts';
import { type RecordKind, RecordQuerySchema } from '../../contract/record.ts';
import { InputError } from '../../errors.ts';
import type { Deps } from '../deps.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { done, file, found, given, idOf, json } from '../handle.ts';
import { sendDerived, sendThumbnail, sendUpright } from '../pictures/send-picture.ts';
import { removeUpload, takeUpload } from '../pictures/upload.ts';
import { cardFile } from '../records/card.ts';
import { correctRecord, removeRecord } from '../records/correct-record.ts';
import { shown } from '../records/shown.ts';
import { takeReading } from '../records/take-reading.ts';
import type { Service } from '../service.ts';

const recordOf = async ({ store }: Deps, request: Request) =>
  found(await store.records.get(idOf(request, 'reading')), 'reading');

/** Reads the photo of a form or of a JSON request. */
const taking = (service: Service, kind: RecordKind) => [
  removeUpload,
  takeUpload(service.deps.incoming),
  given((request) => takeReading(service, kind, request)),
];

const sendOverhead = async ({ deps, run }: Service, request: Request, response: Response): Promise<void> => {
  const record = await recordOf(deps, request);
  if (record.kind !== 'lawn')
    throw new InputError(
      'no-overhead',
      'Only a picture of the whole lawn can be straightened; choose a reading of one.',
      404,
    );
  // The camera's pose is part of the picture's name: a photo read twice has two.
  await sendDerived(deps, [request, response], record.photoId, `overhead-${record.id}.jpg`, (original) =>
    run(undefined, (job) => deps.readers.overhead(original, record, job)),
  );
};

/** `/api/readings`: stored answers of every kind. */
export const readingsRouter = (service: Service): Router => {
  const { deps } = service;
  const { records } = deps.store;
  const router = Router();
  router.get(
    '/',
    json((request) => records.list(parseInput(RecordQuerySchema, request.query, 'query'))),
  );
  router.post('/', ...taking(service, 'lawn'));
  router.get(
    '/:id',
    json(async (request) => shown(await recordOf(deps, request))),
  );
  router.get(
    '/:id/revisions',
    json(async (request) => ({
      revisions: (await records.revisions((await recordOf(deps, request)).id)).map(shown),
    })),
  );
  router.patch(
    '/:id',
    json((request) => correctRecord(deps, request)),
  );
  router.delete(
    '/:id',
    done((request) => removeRecord(deps, request)),
  );
  router.get('/:id/photo', async (request, response) =>
    sendUpright(deps, [request, response], (await recordOf(deps, request)).photoId),
  );
  router.get('/:id/thumbnail', async (request, response) =>
    sendThumbnail(deps, [request, response], (await recordOf(deps, request)).photoId),
  );
  router.get('/:id/overhead', (request, response) => sendOverhead(service, request, response));
  router.get(
    '/:id/card.png',
    file('png', 'call.png', (request) => cardFile(deps, 'png', request)),
  );
  router.get(
    '/:id/card.pdf',
    file('pdf', 'call.pdf', (request) => cardFile(deps, 'pdf', request)),
  );
  router.get(
    '/:id/card.txt',
    file('txt', 'call.txt', (request) => cardFile(deps, 'text', request)),
  );
  return refuseOtherMethods(router);
};

/** `/api/sightings` or `/api/checks`: reads another kind of picture. The answer is kept in the one list of readings. */
export const takingRouter = (service: Service, kind: RecordKind): Router => {
  const router = Router();
  router.post('/', ...taking(service, kind));
  return refuseOtherMethods(router);
};

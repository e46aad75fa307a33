import { type Request, Router } from 'express';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { found, given, idOf, json } from '../handle.ts';
import { fingerprintOf, type Given, keyOf } from '../jobs/answer-once.ts';
import { sendThumbnail, sendUpright } from '../pictures/send-picture.ts';
import { describePhoto, keepDecoded } from '../pictures/store-photo.ts';
import { removeUpload, takeUpload, uploadedPhoto } from '../pictures/upload.ts';
import type { Service } from '../service.ts';

const keepPhoto = async ({ deps, once, run }: Service, request: Request): Promise<Given> => {
  const key = keyOf(request);
  const bytes = await uploadedPhoto(request);
  return once({ scope: 'POST photo', key, fingerprint: fingerprintOf(bytes) }, () =>
    run(undefined, async () => {
      const arrived = await describePhoto(deps, bytes);
      await keepDecoded(deps, arrived);
      return {
        status: 201,
        body: arrived.photo,
        keep: (tables) => tables.photos.create(arrived.photo),
        undo: () => deps.files.remove(arrived.photo.id),
      };
    }),
  );
};

/** `/api/photos`: photos on their own, before they are read. */
export const photosRouter = (service: Service): Router => {
  const { deps } = service;
  const router = Router();
  router.post(
    '/',
    removeUpload,
    takeUpload(deps.incoming),
    given((request) => keepPhoto(service, request)),
  );
  router.get('/:id', (request, response) => sendUpright(deps, [request, response], idOf(request, 'photo')));
  router.get('/:id/thumbnail', (request, response) =>
    sendThumbnail(deps, [request, response], idOf(request, 'photo')),
  );
  router.get(
    '/:id/facts',
    json(async (request) => found(await deps.store.photos.get(idOf(request, 'photo')), 'photo')),
  );
  return refuseOtherMethods(router);
};

import { type Request, Router } from 'express';
import type { Sample } from '../../contract/photo.ts';
import type { Deps } from '../deps.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { found, given, json } from '../handle.ts';
import { fingerprintOf, type Given, keyOf } from '../jobs/answer-once.ts';
import { describePhoto, keepDecoded } from '../pictures/store-photo.ts';
import type { Service } from '../service.ts';

const sampleOf = async (
  { samples }: Deps,
  request: Request,
): Promise<{ sample: Sample; bytes: Uint8Array }> => {
  const sample = (await samples.list()).find(({ name }) => name === request.params.name) ?? null;
  const { name } = found(sample, 'sample');
  return { sample: sample!, bytes: found(await samples.photo(name), 'sample') };
};

/** Makes a sample an ordinary photo. */
const take = async ({ deps, once, run }: Service, request: Request): Promise<Given> => {
  const { sample, bytes } = await sampleOf(deps, request);
  const asked = { scope: 'POST sample', key: keyOf(request), fingerprint: fingerprintOf(sample.name) };
  return once(asked, () =>
    run(undefined, async () => {
      const arrived = await describePhoto(deps, bytes);
      await keepDecoded(deps, arrived);
      return {
        status: 201,
        body: { photoId: arrived.photo.id, marks: sample.marks },
        keep: (tables) => tables.photos.create(arrived.photo),
        undo: () => deps.files.remove(arrived.photo.id),
      };
    }),
  );
};

/** `/api/samples`: pictures to try the program with. */
export const samplesRouter = (service: Service): Router => {
  const { deps } = service;
  const router = Router();
  router.get(
    '/',
    json(async () => ({ samples: await deps.samples.list() })),
  );
  router.post(
    '/:name',
    given((request) => take(service, request)),
  );
  router.get('/:name/photo', async (request, response) => {
    const { bytes } = await sampleOf(deps, request);
    response.type('jpeg').send(Buffer.from(bytes));
  });
  return refuseOtherMethods(router);
};

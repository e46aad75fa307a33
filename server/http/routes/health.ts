import { access, constants, statfs } from 'node:fs/promises';
import { Router } from 'express';
import type { Health } from '../../contract/service.ts';
import type { Deps } from '../deps.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import type { Service } from '../service.ts';

/** Least free space in bytes: a few of the heaviest photos. */
const LEAST_FREE = 200e6;

const checkStore = async ({ store, log }: Deps): Promise<Health['checks'][string]> => {
  try {
    await store.ping();
    return { ok: true, message: 'The database answers.' };
  } catch (error) {
    log.error({ err: error }, 'the database does not answer');
    return { ok: false, message: 'The database does not answer; look at the log.' };
  }
};

const checkDisk = async ({ incoming, log }: Deps): Promise<Health['checks'][string]> => {
  try {
    await access(incoming, constants.W_OK);
    const { bavail, bsize } = await statfs(incoming);
    return bavail * bsize >= LEAST_FREE
      ? { ok: true, message: 'Photos can be kept.' }
      : { ok: false, message: 'The disk is almost full; delete readings that are no longer needed.' };
  } catch (error) {
    log.error({ err: error }, 'the folder of photos cannot be written');
    return { ok: false, message: 'The folder of photos cannot be written; look at the log.' };
  }
};

const healthOf = async (deps: Deps): Promise<Health> => {
  const [store, photos] = await Promise.all([checkStore(deps), checkDisk(deps)]);
  return { ok: store.ok && photos.ok, version: deps.version, checks: { store, photos } };
};

/** `/api/health`: 200 when all is well, 503 when not, with what is wrong. */
export const healthRouter = ({ deps }: Service): Router => {
  const router = Router();
  router.get('/', async (_request, response) => {
    const health = await healthOf(deps);
    response.status(health.ok ? 200 : 503).json(health);
  });
  return refuseOtherMethods(router);
};

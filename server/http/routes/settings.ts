import { type Request, Router } from 'express';
import { parseInput } from '../../contract/parse.ts';
import { type Settings, SettingsSchema } from '../../contract/settings.ts';
import type { Deps } from '../deps.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { json } from '../handle.ts';
import { settingsOf } from '../records/take-reading.ts';
import type { Service } from '../service.ts';

const put = async ({ store }: Deps, request: Request): Promise<Settings> => {
  const settings = parseInput(SettingsSchema, request.body, 'settings');
  await store.settings.put(settings);
  return settings;
};

/** `/api/settings`: what the club chose. */
export const settingsRouter = ({ deps }: Service): Router => {
  const router = Router();
  router.get(
    '/',
    json(() => settingsOf(deps)),
  );
  router.put(
    '/',
    json((request) => put(deps, request)),
  );
  return refuseOtherMethods(router);
};

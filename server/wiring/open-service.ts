import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { openCards } from '../cards/open-cards.ts';
import type { Config } from '../config.ts';
import type { Deps } from '../http/deps.ts';
import type { Log } from '../logging.ts';
import { findStands } from '../reading/find-stands.ts';
import { openPool } from '../reading/pool.ts';
import { reEvaluate } from '../reading/re-evaluate.ts';
import { reEvaluateSighting } from '../reading/re-evaluate-sighting.ts';
import { judge } from '../rules/judge.ts';
import { openDiskFiles } from '../store/files/disk-files.ts';
import { openSamples } from '../store/samples.ts';
import { emptyIncoming, keepHouseDaily } from './housekeeping.ts';
import { openPhotoRoom, openReaders } from './open-readers.ts';
import { openStore } from './open-store.ts';

/** Everything the service stands on, opened, and how to close it. */
export type OpenService = { readonly deps: Deps; readonly close: () => Promise<void> };

const versionOf = (project: string): string =>
  (JSON.parse(readFileSync(join(project, 'package.json'), 'utf8')) as { version: string }).version;

/** Opens the store, the photo files and the worker threads as `config` says. `project` is the folder of the program. */
export const openService = async (config: Config, project: string, log: Log): Promise<OpenService> => {
  const data = resolve(config.data);
  const incoming = join(data, 'incoming');
  await emptyIncoming(incoming);
  const store = await openStore({ ...config, data }, log);
  const files = await openDiskFiles(join(data, 'photos'));
  const pool = openPool();
  const deps: Deps = {
    store,
    files,
    photos: openPhotoRoom(pool),
    readers: openReaders(pool),
    reEvaluate,
    reEvaluateSighting,
    judge,
    stands: findStands,
    cards: openCards(),
    samples: openSamples(join(project, 'fixtures')),
    now: () => new Date(),
    newId: randomUUID,
    log,
    limits: config.limits,
    version: versionOf(project),
    incoming,
    host: config.host,
    names: config.names,
  };
  const endHousekeeping = keepHouseDaily(deps);
  const close = async (): Promise<void> => {
    endHousekeeping();
    await pool.close();
    await store.close();
  };
  return { deps, close };
};

import { mkdir, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Deps } from '../http/deps.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** Days for which the answer to a request's key is remembered: longer than a phone keeps a picture that it could not send. */
const ANSWER_DAYS = 30;

type Kept = Pick<Deps, 'store' | 'files' | 'limits' | 'log' | 'incoming' | 'now'>;

/** Makes the folder for uploads, and empties it of what broke off when the service last ended. */
export const emptyIncoming = async (incoming: string): Promise<void> => {
  await mkdir(incoming, { recursive: true, mode: 0o700 });
  for (const name of await readdir(incoming)) await rm(join(incoming, name), { force: true });
};

const removeUnused = async ({ store, files, limits, now }: Kept): Promise<number> => {
  const before = new Date(now().getTime() - limits.unusedPhotoDays * DAY_MS).toISOString();
  const unused = await store.photos.unusedSince(before);
  for (const id of unused) if (await store.photos.remove(id)) await files.remove(id);
  return unused.length;
};

/** Removes photos that nothing uses any more, files without a photo, and answers that nobody asks for again. */
export const keepHouse = async (kept: Kept): Promise<void> => {
  const { store, files, log, now } = kept;
  const unused = await removeUnused(kept);
  const hourAgo = new Date(now().getTime() - HOUR_MS);
  const orphans = await files.sweep(new Set(await store.photos.ids()), hourAgo);
  if (orphans < 0)
    log.warn('none of the photos in the folder of data belongs to this database; they are left alone');
  const answers = await store.answers.forgetBefore(
    new Date(now().getTime() - ANSWER_DAYS * DAY_MS).toISOString(),
  );
  log.debug({ unused, orphans, answers }, 'kept house');
};

/** Keeps house now and once a day; the function returned ends it. A failure is logged and waits for the next day. */
export const keepHouseDaily = (kept: Kept): (() => void) => {
  const attempt = () =>
    keepHouse(kept).catch((error) => kept.log.error({ err: error }, 'could not keep house'));
  void attempt();
  const timer = setInterval(attempt, DAY_MS);
  timer.unref();
  return () => clearInterval(timer);
};

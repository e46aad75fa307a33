import { spawn } from 'node:child_process';
import { mkdir, rmdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { isStale } from '../../../server/http/page/build-page.ts';

/** A builder that has not come back after this long is taken for dead, ms. */
const BUILDS_WITHIN = 180_000;
const LOOK_AGAIN = 200;

const BUILDER = join(import.meta.dirname, 'build-page.ts');

const build = (project: string): Promise<void> =>
  new Promise((done, fail) => {
    const child = spawn(process.execPath, ['--import', 'tsx', BUILDER], {
      cwd: project,
      stdio: ['ignore', 'inherit', 'inherit'],
    });
    child.once('error', fail);
    child.once('exit', (code) =>
      code === 0 ? done() : fail(new Error(`The page's build ended with ${code}`)),
    );
  });

/** Whether this process may build now; a folder is made by one process only. */
const claim = async (lock: string): Promise<boolean> => {
  const claimed = await mkdir(lock).then(
    () => true,
    () => false,
  );
  if (claimed) return true;
  const since = await stat(lock).then(
    ({ mtimeMs }) => mtimeMs,
    () => Date.now(),
  );
  if (Date.now() - since > BUILDS_WITHIN) await rmdir(lock).catch(() => undefined);
  return false;
};

/** Has the page of `project` built, once, however many test files ask for it at the same time. */
export const pageBuilt = async (project: string): Promise<void> => {
  const lock = join(project, '.cache', 'page-is-built');
  await mkdir(join(project, '.cache'), { recursive: true });
  while (isStale(project)) {
    if (await claim(lock)) await build(project).finally(() => rmdir(lock));
    else await new Promise((done) => setTimeout(done, LOOK_AGAIN));
  }
};

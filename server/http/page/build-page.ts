import { existsSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Name of the file that a finished build leaves; a build that broke off has none. */
const STAMP = '.built';

/** Folders that are no sources. */
const LEFT_OUT = new Set(['dist', 'node_modules']);

const newestIn = (path: string): number => {
  const found = statSync(path);
  if (!found.isDirectory()) return found.mtimeMs;
  const inner = readdirSync(path)
    .filter((name) => !LEFT_OUT.has(name))
    .map((name) => newestIn(join(path, name)));
  return Math.max(0, ...inner);
};

/** What the page is made of, relative to the project: its own sources, the pure rooms it shares with the server, the versions of its packages. */
const SOURCES = [
  'web',
  'server/contract',
  'server/units',
  'server/camera',
  'server/lawn',
  'server/rules',
  'server/games',
  'package-lock.json',
] as const;

/** Whether the page in `project` is missing, unfinished or older than one of its sources. */
export const isStale = (project: string): boolean => {
  const stamp = join(project, 'web', 'dist', STAMP);
  if (!existsSync(stamp) || !existsSync(join(project, 'web', 'dist', 'index.html'))) return true;
  const sources = SOURCES.map((path) => join(project, path)).filter((path) => existsSync(path));
  return Math.max(...sources.map(newestIn)) > statSync(stamp).mtimeMs;
};

/**
 * Builds the page of `project` into `web/dist`. It is built aside and put in place whole, so that a build that breaks off, or a second one at
 * the same time, leaves no half of a page.
 */
export const buildPage = async (project: string): Promise<void> => {
  const { build } = await import('vite');
  const aside = join(project, '.cache', `page-${process.pid}`);
  const dist = join(project, 'web', 'dist');
  await build({
    configFile: join(project, 'web', 'vite.config.ts'),
    logLevel: 'error',
    build: { outDir: aside, emptyOutDir: true },
  });
  writeFileSync(join(aside, STAMP), '');
  putInPlace(project, aside, dist);
};

/** Puts the build `aside` in the place of `dist`. When another program has just put its own there, that one stays. */
const putInPlace = (project: string, aside: string, dist: string): void => {
  try {
    rmSync(dist, { recursive: true, force: true });
    renameSync(aside, dist);
  } catch (error) {
    if (isStale(project)) throw error;
    rmSync(aside, { recursive: true });
  }
};

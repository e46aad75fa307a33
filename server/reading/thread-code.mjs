// How a thread gets its code. Threads do the arithmetic, and the same modules run a sixth faster as few plain files than one by one through
// a loader that also keeps the name of every inner function (`npm run bench`). A thread does not inherit the reading of TypeScript from its parent on every version of
// Node either. So its modules are bundled when it begins, which takes a tenth of a second, and the result is kept under `node_modules/.cache`.
import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build, stop } from 'esbuild';
import { register } from 'tsx/esm/api';

const PROJECT = fileURLToPath(new URL('../../', import.meta.url));
const CACHE = join(PROJECT, 'node_modules', '.cache', 'sward');

/** Modules keep their own address: some name files beside them. */
const ownAddress = {
  name: 'own-address',
  setup: (bundling) =>
    bundling.onLoad({ filter: /\.ts$/ }, async ({ path }) => {
      const contents = await readFile(path, 'utf8');
      const address = JSON.stringify(pathToFileURL(path).href);
      return { contents: contents.replaceAll('import.meta.url', address), loader: 'ts' };
    }),
};

const bundle = async (entry) => {
  const { outputFiles } = await build({
    stdin: { contents: entry, resolveDir: PROJECT, sourcefile: 'thread.js' },
    absWorkingDir: PROJECT,
    outdir: CACHE,
    bundle: true,
    // What is loaded on demand stays so.
    splitting: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    target: 'node20',
    sourcemap: true,
    outExtension: { '.js': '.mjs' },
    write: false,
    logLevel: 'silent',
    plugins: [ownAddress],
  });
  return outputFiles;
};

/** Writes `files` into a folder named by what they hold, all at once, unless it is there already; several threads may do so at the same time. */
const keep = async (files) => {
  const hash = createHash('sha256');
  for (const { contents } of files) hash.update(contents);
  const folder = join(CACHE, hash.digest('hex').slice(0, 16));
  const entry = pathToFileURL(join(folder, 'stdin.mjs')).href;
  await mkdir(CACHE, { recursive: true });
  const draft = await mkdtemp(join(CACHE, 'draft-'));
  try {
    await Promise.all(
      files.map(({ path, contents }) =>
        writeFile(join(draft, path.slice(dirname(path).length + 1)), contents),
      ),
    );
    await rename(draft, folder);
  } catch (error) {
    await rm(draft, { recursive: true, force: true });
    if (error.code !== 'ENOTEMPTY' && error.code !== 'EEXIST') throw error;
  }
  return entry;
};

const exportAll = (addresses) =>
  addresses.map((address) => `export * from ${JSON.stringify(fileURLToPath(address))};`).join('\n');

/** Bundles under way: the bundler must not be stopped under another's feet. */
let bundling = 0;

/** Loads the TypeScript modules at `addresses`; returns what they export, together. Where the bundle cannot be made or kept, the modules are loaded one by one, slower. */
export const loadCode = async (...addresses) => {
  let entry;
  bundling++;
  try {
    entry = await keep(await bundle(exportAll(addresses)));
  } catch {
    register();
    return Object.assign({}, ...(await Promise.all(addresses.map((address) => import(address)))));
  } finally {
    bundling--;
    // The bundler is a process of its own.
    if (bundling === 0) await stop();
  }
  process.setSourceMapsEnabled(true);
  return import(entry);
};

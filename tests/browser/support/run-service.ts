import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pageBuilt } from './page-built.ts';

const PROJECT = resolve(import.meta.dirname, '..', '..', '..');
/** How long a start may take on a busy machine, ms. */
const START_WITHIN = 180_000;

/** The running program, on a port and data folder of its own. */
export type RunningService = {
  readonly address: string;
  /** Stops it as a power cut does. */
  readonly kill: () => Promise<void>;
  /** Starts it again on the same port and data. */
  readonly start: () => Promise<void>;
  /** Stops it and deletes its data. */
  readonly close: () => Promise<void>;
};

const freePort = (): Promise<number> =>
  new Promise((done, fail) => {
    const server = createServer();
    server.once('error', fail);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() =>
        address && typeof address === 'object' ? done(address.port) : fail(new Error('no port')),
      );
    });
  });

const ready = (child: ChildProcess): Promise<void> =>
  new Promise((done, fail) => {
    let said = '';
    const timer = setTimeout(
      () => fail(new Error(`The service did not start; it said:\n${said}`)),
      START_WITHIN,
    );
    const hear = (data: Buffer) => {
      said += data.toString();
      if (!said.includes('Sward is ready')) return;
      clearTimeout(timer);
      done();
    };
    child.stdout?.on('data', hear);
    child.stderr?.on('data', hear);
    child.once('exit', (code) => fail(new Error(`The service ended with ${code}; it said:\n${said}`)));
  });

/**
 * Starts the program from its sources with an empty data folder, as a club does: without what the test runner sets. `extra` is added to its
 * environment.
 */
export const runService = async (extra: Record<string, string> = {}): Promise<RunningService> => {
  const { NODE_ENV: _, SWARD_DEV: __, ...environment } = process.env;
  if (!extra.SWARD_DEV) await pageBuilt(PROJECT);
  const port = await freePort();
  const data = await mkdtemp(join(tmpdir(), 'sward-browser-'));
  let child: ChildProcess | null = null;
  const start = async () => {
    child = spawn(process.execPath, ['--import', 'tsx', join(PROJECT, 'server', 'start.ts')], {
      cwd: PROJECT,
      env: { ...environment, SWARD_PORT: String(port), SWARD_DATA: data, DATABASE_URL: '', ...extra },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    await ready(child);
  };
  const kill = async () => {
    const dying = child;
    child = null;
    if (!dying || dying.exitCode !== null) return;
    const gone = new Promise((done) => dying.once('exit', done));
    dying.kill('SIGKILL');
    await gone;
  };
  await start();
  const close = async () => {
    await kill();
    await rm(data, { recursive: true, force: true });
  };
  return { address: `http://127.0.0.1:${port}`, kill, start, close };
};

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { expect } from 'vitest';

/** The folder of the program. */
export const PROJECT = new URL('../..', import.meta.url).pathname;

/** A started service, and what it wrote to its two outputs. */
export type Started = {
  readonly child: ChildProcess;
  readonly said: () => string;
  readonly complained: () => string;
};

/** Starts the service with its data in `data`, on a free port. */
export const startIn = (data: string, environment: Record<string, string>): Started => {
  const child = spawn(process.execPath, ['--import', 'tsx', 'server/start.ts'], {
    cwd: PROJECT,
    env: { PATH: process.env.PATH, SWARD_PORT: '0', SWARD_DATA: data, SWARD_LOG: 'warn', ...environment },
  });
  let [said, complained] = ['', ''];
  child.stdout.on('data', (chunk) => {
    said += chunk;
  });
  child.stderr.on('data', (chunk) => {
    complained += chunk;
  });
  return { child, said: () => said, complained: () => complained };
};

/** The address of the service once it is ready. */
export const ready = async ({ said, complained, child }: Started): Promise<string> => {
  await expect
    .poll(() => child.exitCode !== null || said().includes('ready'), { timeout: 110_000 })
    .toBe(true);
  const address = /Sward is ready: (\S+)/.exec(said())?.[1];
  if (address === undefined) throw new Error(complained());
  return address.replace('localhost', '127.0.0.1');
};

/** Ends the service by a signal; resolves to its exit code. */
export const stop = async (
  { child }: Started,
  signal: NodeJS.Signals = 'SIGTERM',
): Promise<number | null> => {
  const exit = once(child, 'exit');
  child.kill(signal);
  return ((await exit) as [number | null])[0];
};

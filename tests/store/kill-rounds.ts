import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';

const WRITER = join(import.meta.dirname, 'event-writer.ts');

/** Numbers from a fixed seed (mulberry32), so that a failing run can be repeated. */
export const seeded = (seed: number) => () => {
  seed = (seed + 0x6d2b79f5) | 0;
  let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
};

/**
 * Lets a writer add events to game `id` until it has acknowledged `rounds` of them, and kills it with SIGKILL `delay` ms later, in the
 * middle of whatever it does. Resolves to the number of the last event it acknowledged.
 */
export const writeAndKill = async (
  target: string,
  id: string,
  rounds: number,
  delay: number,
): Promise<number> => {
  const writer = spawn(process.execPath, ['--import', 'tsx', WRITER, target, id], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let [told, complaint, heard] = ['', '', 0];
  writer.stderr.on('data', (chunk) => {
    complaint += chunk;
  });
  const enough = new Promise<void>((resolve) => {
    writer.stdout.on('data', (chunk) => {
      told += chunk;
      heard = told.split('\n').length - 1;
      if (heard >= rounds) resolve();
    });
    writer.once('exit', () => resolve());
  });
  const closed = once(writer, 'close');
  await enough;
  if (heard < rounds) throw new Error(`The writer ended by itself: ${complaint}`);
  await new Promise((resolve) => setTimeout(resolve, delay));
  writer.kill('SIGKILL');
  await closed;
  // A line cut by the kill was not acknowledged.
  return Number(told.split('\n').slice(0, -1).at(-1));
};

// Where a worker thread begins: the worker, and the module that holds the table of jobs, which whoever made the pool named.
import { workerData } from 'node:worker_threads';
import { loadCode } from './thread-code.mjs';

// Standard output belongs to answers: what a library prints goes to standard error.
console.log = console.error;
const code = loadCode(new URL('./worker.ts', import.meta.url).href, workerData.jobs);

/** Runs one task; see `worker.ts`. */
export default async (task) => {
  const { runTask, JOBS } = await code;
  return runTask(JOBS, task);
};

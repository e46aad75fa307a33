// Where a worker thread begins. A thread does not inherit the reading of TypeScript from its parent on every version of Node, so it is
// set up here, in JavaScript, before the worker itself is loaded.
import { register } from 'tsx/esm/api';

register();
// Standard output belongs to answers: what a library prints goes to standard error.
console.log = console.error;
const worker = import('./worker.ts');

/** Runs one task; see `worker.ts`. */
export default async (task) => (await worker).runTask(task);

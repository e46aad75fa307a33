import type { MessagePort } from 'node:worker_threads';

/** Jobs by name, as a worker sees them. */
export type JobTable = Readonly<
  Record<string, (input: never, report: (step: string, message: string) => void) => unknown>
>;

/** What a worker is given to do. */
export type WorkerTask = { readonly name: string; readonly input: unknown; readonly port: MessagePort };

/** What a worker tells while it works: that it has begun, then one message a step. */
export type WorkerMessage = { readonly step: string; readonly message: string };
/** The step that a worker tells first, when it takes a job up. */
export const BEGUN = 'begun';

/** How a job ended: an input at fault is a value, since an error loses its code on the way between threads. */
export type WorkerAnswer =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly code: string; readonly message: string; readonly status: number };

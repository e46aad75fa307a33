import { move, transferableSymbol, valueSymbol } from 'piscina';
import { InputError } from '../errors.ts';
import { BEGUN, type JobTable, type WorkerAnswer, type WorkerTask } from './worker-task.ts';

/** A file made by a job is handed over with its memory when it owns it whole; anything else is copied. */
const handedOver = (value: unknown): ArrayBuffer[] =>
  value instanceof Uint8Array &&
  value.buffer instanceof ArrayBuffer &&
  value.byteLength === value.buffer.byteLength
    ? [value.buffer]
    : [];

/** An error of which message and stack survive the way between threads, which those of Node's own loader do not. */
const plainError = (error: unknown): Error => {
  const { message, stack } = (error ?? {}) as { message?: unknown; stack?: string };
  return Object.assign(new Error(String(message ?? error)), stack === undefined ? {} : { stack });
};

const answer = async (jobs: JobTable, { name, input, port }: WorkerTask): Promise<WorkerAnswer> => {
  const job = jobs[name];
  if (!job) throw new RangeError(`Expected the name of a job but received ${name}`);
  const report = (step: string, message: string): void => port.postMessage({ step, message });
  report(BEGUN, '');
  try {
    return { ok: true, value: await job(input as never, report) };
  } catch (error) {
    if (!(error instanceof InputError)) throw plainError(error);
    return { ok: false, code: error.code, message: error.message, status: error.status };
  }
};

/** Runs one job of `jobs` in this thread. A fault of the input is an answer; any other error is the program's own and rejects. */
export const runTask = async (jobs: JobTable, task: WorkerTask): Promise<unknown> => {
  try {
    const given = await answer(jobs, task);
    const files = given.ok ? handedOver(given.value) : [];
    return move({ [valueSymbol]: given, [transferableSymbol]: files });
  } finally {
    task.port.close();
  }
};

import { InputError } from '../../errors.ts';
import type { Job } from '../deps.ts';
import type { Channels } from './channels.ts';

/** Runs jobs, a limited number at once, and tells their channels how they end. */
export type RunJob = <T>(key: string | undefined, work: (job: Job) => Promise<T>) => Promise<T>;

const cancelled = (): InputError =>
  new InputError('cancelled', 'The reading was called off; nothing was kept.', 409);

/** A runner that sends the next job away (503) while `most` are running or waiting for a worker. */
export const openRunner = (channels: Channels, most: number): RunJob => {
  let running = 0;
  return async (key, work) => {
    if (running >= most)
      throw new InputError(
        'busy',
        `${most} pictures are being read already; wait a moment and try again.`,
        503,
      );
    running += 1;
    const job = channels.begin(key);
    try {
      const result = await work(job);
      if (job.signal.aborted) throw cancelled();
      job.end({ step: 'done', message: 'Done.' });
      return result;
    } catch (error) {
      const off = job.signal.aborted;
      const message = error instanceof InputError ? error.message : 'The reading failed.';
      job.end(off ? { step: 'cancelled', message: 'Called off.' } : { step: 'failed', message });
      throw off ? cancelled() : error;
    } finally {
      running -= 1;
    }
  };
};

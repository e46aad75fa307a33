import { availableParallelism } from 'node:os';
import { MessageChannel, type MessagePort, receiveMessageOnPort } from 'node:worker_threads';
import Piscina from 'piscina';
import { InputError } from '../errors.ts';
import type { JOBS } from './jobs.ts';
import { BEGUN, type WorkerAnswer, type WorkerMessage } from './worker-task.ts';

type Table = typeof JOBS;
/** The name of a job. */
export type JobName = keyof Table;
/** What a job is given. */
export type JobInput<N extends JobName> = Parameters<Table[N]>[0];
/** What a job answers. */
export type JobOutput<N extends JobName> = Awaited<ReturnType<Table[N]>>;

/** How a job may be watched and called off. */
export type JobWatch = {
  /** Calls the job off, also while it waits. */
  readonly signal?: AbortSignal | undefined;
  /** Hears each step with a sentence for people. */
  readonly report?: ((message: WorkerMessage) => void) | undefined;
  /** Milliseconds that the job may work, waiting not counted. */
  readonly timeLimit?: number;
};

/** Worker threads for all that needs a photo's pixels. */
export interface Pool {
  /**
   * Runs job `name`. Rejects with an `InputError`: the job's own when the input is at fault; `cancelled` (409), `too-slow` (503) or
   * `broke-off` (500) when it was called off, took too long or its thread died. None of these touches any other job.
   */
  run<N extends JobName>(name: N, input: JobInput<N>, watch?: JobWatch): Promise<JobOutput<N>>;
  /** Number of threads alive. */
  threads(): number;
  /** Ends all threads; jobs under way are called off. */
  close(): Promise<void>;
}

/** How a pool is made. */
export type PoolOptions = {
  /** Most threads at once. */
  readonly threads?: number;
  /** Milliseconds that a job may work. */
  readonly timeLimit?: number;
  /** Milliseconds after which an idle thread is let go; one is kept, so that the next picture does not wait for it. */
  readonly idle?: number;
  /** Most memory of a thread's own objects in MB; pixels are not counted. */
  readonly memory?: number;
  /** Address of the module that exports the table of jobs as `JOBS`. */
  readonly jobs?: string;
};

/** A reading of a large picture takes seconds; one that has not ended after a minute never will. */
const TIME_LIMIT = 60_000;
const IDLE = 120_000;
const MEMORY = 1024;
/** 12 MP readings take up to 400 MB a thread: more threads than this would press a small machine. */
const MOST_THREADS = 4;

const cancelled = (): InputError =>
  new InputError('cancelled', 'The reading was called off; nothing was kept.', 409);

const tooSlow = (limit: number): InputError =>
  new InputError(
    'too-slow',
    `The picture was not done after ${Math.round(limit / 1000)} s and was given up: try again, or send it with fewer pixels.`,
    503,
  );

const brokeOff = (cause: unknown): InputError =>
  Object.assign(
    new InputError('broke-off', 'The reading broke off by a fault of the program: try again.', 500),
    {
      cause,
    },
  );

/** The clock of one job: it starts when a worker takes the job up, and calls it off when its time is over. */
const openClock = (limit: number) => {
  const controller = new AbortController();
  let timer: NodeJS.Timeout | undefined;
  return {
    signal: controller.signal,
    start: () => {
      timer ??= setTimeout(() => controller.abort(), limit);
    },
    stop: () => clearTimeout(timer),
  };
};

/** Hears what a worker tells; returns how to end that. Steps come by another way than the answer: what waits there when the answer is in is heard first. */
const listen = (port: MessagePort, begun: () => void, report: JobWatch['report']): (() => void) => {
  const hear = (message: WorkerMessage): void => {
    if (message.step === BEGUN) begun();
    else report?.(message);
  };
  port.on('message', hear);
  return () => {
    for (let waiting = receiveMessageOnPort(port); waiting; waiting = receiveMessageOnPort(port))
      hear(waiting.message);
    port.close();
  };
};

/** Whether the thread, not the job, failed: piscina's `worker exited`, or Node's error when a thread outgrows its memory. */
const threadDied = (error: unknown): boolean => {
  const { message, code } = error as { message?: string; code?: string };
  return code === 'ERR_WORKER_OUT_OF_MEMORY' || /^worker exited/.test(message ?? '');
};

/** Whether the pool was closed meanwhile: piscina's errors for a job under way and for a waiting one. */
const threadEnded = (error: unknown): boolean =>
  error instanceof Error && (error.name === 'AbortError' || error.message === 'Terminating worker thread');

type Running = { readonly name: string; readonly input: unknown; readonly watch: JobWatch };

const runIn = async (piscina: Piscina, { name, input, watch }: Running, limit: number): Promise<unknown> => {
  if (watch.signal?.aborted) throw cancelled();
  const { port1, port2 } = new MessageChannel();
  const clock = openClock(limit);
  const hangUp = listen(port1, clock.start, watch.report);
  const signal = watch.signal ? AbortSignal.any([watch.signal, clock.signal]) : clock.signal;
  try {
    const task = { name, input, port: port2 };
    const answer: WorkerAnswer = await piscina.run(task, { signal, transferList: [port2] });
    if (answer.ok) return answer.value;
    throw new InputError(answer.code, answer.message, answer.status);
  } catch (error) {
    if (watch.signal?.aborted) throw cancelled();
    if (clock.signal.aborted) throw tooSlow(limit);
    throw threadDied(error) ? brokeOff(error) : threadEnded(error) ? cancelled() : error;
  } finally {
    hangUp();
    clock.stop();
  }
};

/** Opens a pool of worker threads. The photo's bytes are copied to the thread, so that the caller keeps its own. */
export const openPool = (options: PoolOptions = {}): Pool => {
  const { timeLimit = TIME_LIMIT, idle = IDLE } = options;
  const piscina = new Piscina({
    filename: new URL('./worker-entry.mjs', import.meta.url).href,
    workerData: { jobs: options.jobs ?? new URL('./jobs.ts', import.meta.url).href },
    // The parent's own flags would set TypeScript up a second time.
    execArgv: [],
    // One thread always stays: it is also what takes up waiting jobs after another died.
    minThreads: 1,
    maxThreads: options.threads ?? Math.min(availableParallelism(), MOST_THREADS),
    idleTimeout: idle,
    resourceLimits: { maxOldGenerationSizeMb: options.memory ?? MEMORY },
    atomics: 'disabled',
  });
  // A thread that dies without a job harms nobody: the next job gets a new one.
  piscina.on('error', () => undefined);
  const run = (name: string, input: unknown, watch: JobWatch = {}): Promise<unknown> =>
    runIn(piscina, { name, input, watch }, watch.timeLimit ?? timeLimit);
  return { run: run as Pool['run'], threads: () => piscina.threads.length, close: () => piscina.destroy() };
};

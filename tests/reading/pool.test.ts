import { afterEach, describe, expect, it, vi } from 'vitest';
import { InputError } from '../../server/errors.ts';
import { openPool, type Pool, type PoolOptions } from '../../server/reading/pool.ts';
import type { WorkerMessage } from '../../server/reading/worker-task.ts';

const jobs = new URL('./pool-jobs.ts', import.meta.url).href;

type AnyPool = {
  run(name: string, input: unknown, watch?: Parameters<Pool['run']>[2]): Promise<unknown>;
  threads(): number;
  close(): Promise<void>;
};

let pool: AnyPool;
const open = (options: PoolOptions = {}): AnyPool => {
  pool = openPool({ jobs, threads: 1, ...options }) as unknown as AnyPool;
  return pool;
};
afterEach(() => pool.close());

const failure = (job: Promise<unknown>): Promise<unknown> =>
  job.then(
    () => undefined,
    (error: unknown) => error,
  );

const expectNextWorks = async (): Promise<void> =>
  expect(await pool.run('echo', 'still here')).toBe('still here');

describe('a job in a worker thread', () => {
  it('answers with what it was given', async () => {
    expect(await open().run('echo', { points: { corner1: [1, 2] } })).toEqual({
      points: { corner1: [1, 2] },
    });
  });

  it('leaves the bytes with the caller', async () => {
    const photo = new Uint8Array([1, 2, 3]);
    expect(await open().run('echo', photo)).toEqual(new Uint8Array([1, 2, 3]));
    expect(photo).toEqual(new Uint8Array([1, 2, 3]));
  });

  it('hands a file over whole', async () => {
    const file = (await open().run('file', 3_000_000)) as Uint8Array;
    expect(Buffer.from(file).equals(Buffer.alloc(3_000_000, 7))).toBe(true);
  });

  it('tells its steps in order', async () => {
    const heard: WorkerMessage[] = [];
    const report = (message: WorkerMessage) => heard.push(message);
    expect(await open().run('steps', ['solve', 'trace'], { report })).toBe(2);
    expect(heard).toEqual([
      { step: 'solve', message: 'Doing solve.' },
      { step: 'trace', message: 'Doing trace.' },
    ]);
  });

  it('keeps code, sentence and status of a fault of the input', async () => {
    const error = await failure(open().run('refuse', null));
    expect(error).toBeInstanceOf(InputError);
    expect(error).toMatchObject({
      code: 'marks-mirrored',
      message: 'The corners are in mirrored order.',
      status: 422,
    });
  });

  it('passes on a fault of the program as it is', async () => {
    const error = await failure(open().run('fail', null));
    expect(error).not.toBeInstanceOf(InputError);
    expect(error).toMatchObject({ message: 'a fault of the program' });
    await expectNextWorks();
  });
});

describe('what goes wrong with one job', () => {
  // The only thread of the pool is struck each time, so that the next job shows that a new one takes its place.
  it.each(['exit', 'exhaust'])('costs that job alone when it ends its thread (%s)', async (name) => {
    open({ memory: 64 });
    const failed = failure(pool.run(name, null));
    const waiting = pool.run('echo', 'waited');
    expect(await failed).toMatchObject({ code: 'broke-off', status: 500 });
    expect(await waiting).toBe('waited');
    await expectNextWorks();
  });

  it('costs that job alone when it throws where nobody waits', async () => {
    const error = await failure(open().run('throwLater', null));
    expect(error).toMatchObject({ message: 'thrown where nobody waits' });
    await expectNextWorks();
  });

  it('costs that job alone when it never ends, and a job that waits behind it runs', async () => {
    open({ timeLimit: 200 });
    const hanging = failure(pool.run('hang', null));
    const waiting = pool.run('echo', 'waited');
    expect(await hanging).toMatchObject({ code: 'too-slow', status: 503 });
    expect(await waiting).toBe('waited');
    await expectNextWorks();
  });

  it('is ended by calling it off, in the midst of its work', async () => {
    const controller = new AbortController();
    const report = () => controller.abort();
    const error = await failure(open().run('hang', null, { signal: controller.signal, report }));
    expect(error).toMatchObject({ code: 'cancelled', status: 409 });
    await expectNextWorks();
  });

  it('is ended by calling it off while it waits or before it was sent', async () => {
    const controller = new AbortController();
    open();
    const before = pool.run('sleep', 100);
    const waiting = failure(pool.run('echo', 'never', { signal: controller.signal }));
    controller.abort();
    expect(await waiting).toMatchObject({ code: 'cancelled' });
    expect(await failure(pool.run('echo', 'never', { signal: controller.signal }))).toMatchObject({
      code: 'cancelled',
    });
    expect(await before).toBe('slept');
  });

  it('ends with the pool', async () => {
    let begun = (): void => undefined;
    const running = new Promise<void>((resolve) => {
      begun = resolve;
    });
    const error = failure(open().run('hang', null, { report: () => begun() }));
    await running;
    await pool.close();
    expect(await error).toMatchObject({ code: 'cancelled' });
  });
});

describe('threads', () => {
  it('does not count waiting against the time limit', async () => {
    open({ timeLimit: 800 });
    // Three jobs of 300 ms one after another: the last is done after 900 ms, most of which it waits.
    const jobsInARow = [300, 300, 300].map((milliseconds) => pool.run('sleep', milliseconds));
    expect(await Promise.all(jobsInARow)).toEqual(['slept', 'slept', 'slept']);
  });

  it('work side by side: one that hangs holds up no other', async () => {
    open({ threads: 2, timeLimit: 1_500 });
    let ended = false;
    const hanging = failure(pool.run('hang', null)).then((error) => {
      ended = true;
      return error;
    });
    await expectNextWorks();
    expect(ended).toBe(false);
    expect(await hanging).toMatchObject({ code: 'too-slow' });
  });

  it('are let go when idle, all but one', async () => {
    open({ threads: 2, idle: 100 });
    const working = Promise.all([pool.run('sleep', 500), pool.run('sleep', 500)]);
    await vi.waitFor(() => expect(pool.threads()).toBe(2), { timeout: 20_000, interval: 5 });
    await working;
    await vi.waitFor(() => expect(pool.threads()).toBe(1), { timeout: 20_000, interval: 50 });
    await expectNextWorks();
  });
});

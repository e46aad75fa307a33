import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads';
import type { Raster } from '../units/raster.ts';
import type { FirstLook } from '../vision/balls/first-look.ts';
import { type LookAhead, lookHere } from './look-ahead.ts';
import type { LookAnswer, LookPost, LookTask } from './look-task.ts';

/** A second thread that takes first looks. */
export type LookBeside = {
  /**
   * Takes a look in the second thread while the caller goes on; the answer is the same. Waiting for it lets no other work of the caller's thread in. Until the
   * thread is loaded, for small pictures, and when the thread fails, the caller takes the look itself.
   */
  readonly look: LookAhead;
  /** Resolves when the thread is loaded. */
  readonly ready: Promise<void>;
  close(): Promise<unknown>;
};

/** In a picture of fewer px a look takes hardly more time than handing the picture over. */
const LEAST_PIXELS = 2e6;
/** A look that is not there after so long, ms, never will be. */
const PATIENCE = 10_000;

/** The answer to look `number`, or nothing when the thread failed over it. Answers to looks that nobody waited for are passed over. */
const waitFor = (
  number: number,
  port: MessagePort,
  done: LookPost['done'],
  patience: number,
): LookAnswer | null => {
  for (let last = Atomics.load(done, 0); last < number; last = Atomics.load(done, 0))
    if (Atomics.wait(done, 0, last, patience) === 'timed-out') return null;
  for (let received = receiveMessageOnPort(port); received; received = receiveMessageOnPort(port))
    if (received.message.number === number) return received.message;
  return null;
};

/** Opens a thread for first looks. It does not keep the process alive. After `patience` ms it is given up. */
export const openLookBeside = (patience = PATIENCE): LookBeside => {
  const { port1, port2 } = new MessageChannel();
  const done = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const worker = new Worker(new URL('./look-entry.mjs', import.meta.url), {
    workerData: { port: port2, done } satisfies LookPost,
    transferList: [port2],
    // The parent's own flags would set TypeScript up a second time.
    execArgv: [],
  });
  worker.unref();
  let alive = false;
  for (const end of ['error', 'exit'] as const)
    worker.on(end, () => {
      alive = false;
    });
  const ready = new Promise<void>((resolve) => {
    worker.once('message', () => {
      alive = true;
      resolve();
    });
  });
  let number = 0;
  let room = new Uint8Array(new SharedArrayBuffer(0));
  const shared = ({ width, height, data }: Raster): Raster => {
    if (room.length < data.length) room = new Uint8Array(new SharedArrayBuffer(data.length));
    room.set(data);
    return { width, height, data: room };
  };
  const look: LookAhead = (raster, camera, court) => {
    const here = lookHere(raster, camera, court);
    if (!alive || raster.width * raster.height < LEAST_PIXELS) return here;
    const own = ++number;
    port1.postMessage({ number: own, raster: shared(raster), camera, court } satisfies LookTask);
    return (): FirstLook | null => {
      const answer = waitFor(own, port1, done, patience);
      if (answer?.ok) return answer.look;
      alive &&= answer !== null;
      return here();
    };
  };
  return { look, ready, close: () => worker.terminate() };
};

let looks = 0;
let opened: LookBeside | null = null;

/**
 * Looks in this thread's own second thread, which ends with this one. It is opened after the first look: a command that reads one picture would only wait for it.
 */
export const lookBeside = (): LookAhead => {
  if (looks++ === 0) return lookHere;
  opened ??= openLookBeside();
  return opened.look;
};

import { availableParallelism } from 'node:os';
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads';
import type { DecodeHalves } from '../photo/decode-halves.ts';
import type { PixelRoom, Raster } from '../units/raster.ts';
import { type FirstLook, fitSieved, lookOf } from '../vision/balls/first-look.ts';
import type { ShareFits } from '../vision/balls/fit-work.ts';
import { openDecodeBeside } from './decode-beside.ts';
import { type LookAhead, lookHere } from './look-ahead.ts';
import {
  COUNTERS,
  type Counters,
  GIVEN_UP,
  type LookAnswer,
  type LookPost,
  type LookTask,
} from './look-task.ts';

/** A task without its number. */
type Unnumbered = LookTask extends infer T ? (T extends LookTask ? Omit<T, 'number'> : never) : never;

/** A second thread that takes first looks and a share of the fits. */
export type LookBeside = {
  /**
   * Takes a look in the second thread while the caller goes on; the answer is the same. Waiting for it lets no other work of the caller's thread in. Until the
   * thread is loaded, for small pictures, and when the thread fails, the caller does the work itself.
   */
  readonly look: LookAhead;
  /** Decodes photos, in a third thread, into memory that both see: such a picture is not copied for the second one. */
  readonly decode: DecodeHalves;
  /** Resolves when the threads are loaded. */
  readonly ready: Promise<void>;
  close(): Promise<unknown>;
};

/** In a picture of fewer px a look takes hardly more time than handing the picture over. */
const LEAST_PIXELS = 2e6;
/** Work that is not there after so long, ms, never will be. */
const PATIENCE = 10_000;

/** Gives the answers to tasks in the order in which the second thread posts them, and waits for each. */
const answersFrom = (port: MessagePort, counters: Counters, patience: number) => {
  let taken = 0;
  const next = (): LookAnswer | null => {
    while (Atomics.load(counters, COUNTERS.posted) <= taken)
      if (Atomics.wait(counters, COUNTERS.posted, taken, patience) === 'timed-out') return null;
    taken++;
    return receiveMessageOnPort(port)?.message ?? null;
  };
  /** The next answer to task `number`, or null when the thread fails over it. Answers that nobody waited for are passed over. */
  return (number: number): LookAnswer | null => {
    let answer = next();
    while (answer !== null && answer.number < number) answer = next();
    return answer;
  };
};

/** Memory that threads share: one piece of it, used again and again. */
const sharedRoom = (): PixelRoom => {
  let room = new Uint8Array(new SharedArrayBuffer(0));
  return (bytes) => {
    if (room.length < bytes) room = new Uint8Array(new SharedArrayBuffer(bytes));
    return room.subarray(0, bytes);
  };
};

/** `raster` in memory that threads share. */
const inShared = (room: PixelRoom, raster: Raster): Raster => {
  if (raster.data.buffer instanceof SharedArrayBuffer) return raster;
  const data = room(raster.data.length);
  data.set(raster.data);
  return { ...raster, data };
};

/** Opens a second thread. It does not keep the process alive. After `patience` ms it is given up. */
export const openLookBeside = (patience = PATIENCE): LookBeside => {
  const { port1, port2 } = new MessageChannel();
  const counters: Counters = new Int32Array(
    new SharedArrayBuffer(Object.keys(COUNTERS).length * Int32Array.BYTES_PER_ELEMENT),
  );
  const worker = new Worker(new URL('./look-entry.mjs', import.meta.url), {
    workerData: { port: port2, counters } satisfies LookPost,
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
  const answerTo = answersFrom(port1, counters, patience);
  const room = sharedRoom();
  const decoder = openDecodeBeside(room);
  const tellRows = (rows: number): void => {
    Atomics.store(counters, COUNTERS.rows, rows);
    Atomics.notify(counters, COUNTERS.rows);
  };
  let number = 0;
  let pictures = 0;
  const begin = (task: Unnumbered): (() => LookAnswer | null) => {
    const own = ++number;
    port1.postMessage({ ...task, number: own } satisfies LookTask);
    return () => {
      const answer = answerTo(own);
      alive &&= answer !== null;
      return answer;
    };
  };
  const nextRank = (): number => Atomics.add(counters, COUNTERS.rank, 1);
  const look: LookAhead = (raster, camera, court, rows = raster.height) => {
    const here = lookHere(raster, camera, court);
    if (!alive || raster.width * raster.height < LEAST_PIXELS) return here;
    tellRows(rows);
    const answer = begin({ kind: 'look', raster: inShared(room, raster), camera, court });
    const picture = ++pictures;
    const end = (): FirstLook | null => {
      const first = answer();
      if (first?.kind !== 'sieved') return here.end();
      const { sieved } = first;
      if (sieved === null) return null;
      const taken = fitSieved(raster, court, sieved, nextRank);
      const second = answer();
      return second?.kind === 'first' ? lookOf(sieved, [...taken, ...second.firsts]) : here.end();
    };
    const share: ShareFits = (work) => {
      // The thread holds the picture of the last look alone.
      if (!alive || picture !== pictures) return null;
      Atomics.store(counters, COUNTERS.rank, 0);
      const fits = begin({ kind: 'fits', work });
      const rest = () => {
        const answer = fits();
        return answer?.kind === 'fits' ? answer.made : [];
      };
      return { next: nextRank, rest };
    };
    return { complete: () => tellRows(raster.height), giveUp: () => tellRows(GIVEN_UP), end, share };
  };
  return {
    look,
    decode: decoder.decode,
    ready: Promise.all([ready, decoder.ready]).then(() => {}),
    close: () => Promise.all([worker.terminate(), decoder.close()]),
  };
};

let looks = 0;
let opened: LookBeside | null = null;

/**
 * Looks with this thread's own second thread, which ends with this one. It is opened after the first look: a command that reads one picture would only wait for it. On one
 * core there is nothing to be gained.
 */
export const lookBeside = (): { readonly look: LookAhead; readonly decode: DecodeHalves | null } => {
  if (looks++ === 0 || availableParallelism() === 1) return { look: lookHere, decode: null };
  opened ??= openLookBeside();
  return opened;
};

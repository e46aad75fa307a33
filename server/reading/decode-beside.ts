import { Worker } from 'node:worker_threads';
import { InputError } from '../errors.ts';
import { type DecodeHalves, decodeHalves } from '../photo/decode-halves.ts';
import type { PixelRoom, Raster } from '../units/raster.ts';
import type { DecodeAnswer, DecodeTask } from './decode-task.ts';

/** A thread that decodes photos. */
export type DecodeBeside = {
  /** Decodes into memory of the room. Until the thread is loaded, and when it fails, the caller does so itself. */
  readonly decode: DecodeHalves;
  /** Resolves when the thread is loaded. */
  readonly ready: Promise<void>;
  close(): Promise<unknown>;
};

/**
 * Opens a thread that decodes photos into memory of `room`, which threads must share. It does not keep the process alive. Decoders hand over their pixels in memory that is freed only when garbage is
 * collected: a thread with nothing else in it does so in no time, one that reads photos is held up by it.
 */
export const openDecodeBeside = (room: PixelRoom): DecodeBeside => {
  const worker = new Worker(new URL('./decode-entry.mjs', import.meta.url), { execArgv: [] });
  worker.unref();
  let alive = false;
  /** What waits for an answer, by task and part. */
  const waiting = new Map<string, (answer: DecodeAnswer | null) => void>();
  const answerTo = (number: number, part: DecodeAnswer['part']): Promise<DecodeAnswer | null> =>
    new Promise((resolve) => {
      waiting.set(`${number} ${part}`, resolve);
    });
  const giveUp = (): void => {
    alive = false;
    for (const resolve of waiting.values()) resolve(null);
    waiting.clear();
  };
  worker.on('error', giveUp);
  worker.on('exit', giveUp);
  const hear = (answer: DecodeAnswer): void => {
    const key = `${answer.number} ${answer.part}`;
    waiting.get(key)?.(answer);
    waiting.delete(key);
  };
  const ready = new Promise<void>((resolve) => {
    worker.once('message', () => {
      alive = true;
      worker.on('message', hear);
      resolve();
    });
  });
  let number = 0;
  const decode: DecodeHalves = (bytes, known) => {
    const raster: Raster = { ...known, data: room(3 * known.width * known.height) };
    if (!alive) return decodeHalves(bytes, raster);
    const own = ++number;
    const upper = answerTo(own, 'upper');
    const whole = answerTo(own, 'whole');
    worker.postMessage({ number: own, bytes, raster } satisfies DecodeTask);
    return {
      upper: upper.then((answer) =>
        answer?.part === 'upper' && answer.rows > 0 ? { raster, rows: answer.rows } : null,
      ),
      whole: whole.then((answer) => {
        if (answer?.part !== 'whole') return decodeHalves(bytes, raster).whole;
        if (answer.fault === null) return raster;
        const { code, message, status } = answer.fault;
        throw new InputError(code, message, status);
      }),
    };
  };
  return { decode, ready, close: () => worker.terminate() };
};

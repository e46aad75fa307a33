import { parentPort } from 'node:worker_threads';
import { InputError } from '../errors.ts';
import { decodeHalves } from '../photo/decode-halves.ts';
import type { DecodeAnswer, DecodeTask, Fault } from './decode-task.ts';

const port = parentPort!;
const post = (answer: DecodeAnswer): void => port.postMessage(answer);

/** A fault of the photo; any other error ends the thread, and the caller decodes by itself. */
const faultOf = (error: unknown): Fault => {
  if (!(error instanceof InputError)) throw error;
  const { code, message, status } = error;
  return { code, message, status };
};

port.on('message', async ({ number, bytes, raster }: DecodeTask) => {
  const { upper, whole } = decodeHalves(bytes, raster);
  const answered = upper.then((part) => post({ number, part: 'upper', rows: part?.rows ?? 0 }));
  const fault = await whole.then(() => null, faultOf);
  await answered;
  post({ number, part: 'whole', fault });
});
port.postMessage('ready');

import { parentPort, workerData } from 'node:worker_threads';
import { lookHere } from './look-ahead.ts';
import type { LookAnswer, LookPost, LookTask } from './look-task.ts';

const { port, done } = workerData as LookPost;

const answerTo = ({ number, raster, camera, court }: LookTask): LookAnswer => {
  try {
    return { number, ok: true, look: lookHere(raster, camera, court)() };
  } catch {
    // The caller takes the look itself and meets the same error, with its own words.
    return { number, ok: false };
  }
};

port.on('message', (task: LookTask) => {
  port.postMessage(answerTo(task));
  Atomics.store(done, 0, task.number);
  Atomics.notify(done, 0);
});
parentPort?.postMessage('ready');

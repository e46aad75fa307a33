import { parentPort, workerData } from 'node:worker_threads';
import type { Raster } from '../units/raster.ts';
import { fitSieved, LOOK_AHEAD, sieveLawn } from '../vision/balls/first-look.ts';
import { doFits } from '../vision/balls/fit-work.ts';
import { COUNTERS, GIVEN_UP, type LookAnswer, type LookPost, type LookTask } from './look-task.ts';

const { port, counters } = workerData as LookPost;

/** The picture of the last look. */
let picture: Raster | null = null;

const post = (answer: LookAnswer): void => {
  port.postMessage(answer);
  Atomics.add(counters, COUNTERS.posted, 1);
  Atomics.notify(counters, COUNTERS.posted);
};

/** The rows of a picture come within so long, ms, or never. */
const PATIENCE = 10_000;

/** Waits until the first `rows` rows of the picture are there. */
const untilRows = (rows: number): void => {
  for (
    let there = Atomics.load(counters, COUNTERS.rows);
    there < rows;
    there = Atomics.load(counters, COUNTERS.rows)
  )
    if (there === GIVEN_UP || Atomics.wait(counters, COUNTERS.rows, there, PATIENCE) === 'timed-out')
      throw new Error(`Expected ${rows} rows of the picture but only ${there} came`);
};

const nextRank = (): number => Atomics.add(counters, COUNTERS.rank, 1);

const carryOut = (task: LookTask): void => {
  const { number } = task;
  if (task.kind === 'fits') {
    if (picture === null) throw new Error('Expected a look before fits');
    post({ number, kind: 'fits', made: doFits(picture, task.work, nextRank) });
    return;
  }
  const { raster, camera, court } = task;
  picture = raster;
  const sieved = sieveLawn(raster, camera, court, LOOK_AHEAD, untilRows);
  Atomics.store(counters, COUNTERS.rank, 0);
  post({ number, kind: 'sieved', sieved });
  if (sieved !== null) post({ number, kind: 'first', firsts: fitSieved(raster, court, sieved, nextRank) });
};

port.on('message', (task: LookTask) => {
  try {
    carryOut(task);
  } catch {
    // The caller does the work itself and meets the same error, with its own words.
    post({ number: task.number, kind: 'failed' });
  }
});
parentPort?.postMessage('ready');

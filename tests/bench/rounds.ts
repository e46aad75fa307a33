import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { Times } from './measure.ts';
import type { Picture } from './picture.ts';
import { openPool, type Pool } from './sward.ts';

/** Durations of each thing, by name. */
export type Rounds = ReadonlyMap<string, Times>;

/** The reference: the same file to raw pixels by sharp alone, no more and no less. */
export const REFERENCE = "sharp's full decode";
/** All that a reading takes, from the file's bytes to the answer. */
export const READING = 'reading, warm';

/** What each step of a reading is called in the table; its time lasts until the next step begins. */
const STEPS: Readonly<Record<string, string>> = {
  open: '  read header',
  solve: '  decode, and solve camera from marks meanwhile',
  trace: '  trace lines and refine',
  find: '  find balls',
  locate: '  place balls and call',
};
const GIVE = '  hand over to a thread';

type Mark = { readonly name: string; readonly at: number };

const readOnce = async ({ bytes, marks }: Picture, pool: Pool): Promise<Mark[]> => {
  const begun: Mark[] = [{ name: GIVE, at: performance.now() }];
  const report = ({ step }: { readonly step: string }): void => {
    begun.push({ name: STEPS[step] ?? `  ${step}`, at: performance.now() });
  };
  await pool.run('read', { photo: bytes, marks }, { report });
  begun.push({ name: 'end', at: performance.now() });
  return begun;
};

const decodeOnce = async (decoder: Worker, { bytes }: Picture): Promise<number> => {
  decoder.postMessage(bytes);
  return (await once(decoder, 'message'))[0];
};

/** Runs reference and reading in turn, `warmUp` rounds unmeasured and then `count` measured. */
export const runRounds = async (picture: Picture, warmUp: number, count: number): Promise<Rounds> => {
  const times = new Map<string, number[]>();
  const note = (name: string, duration: number): void => {
    times.set(name, [...(times.get(name) ?? []), duration]);
  };
  const decoder = new Worker(new URL('./decode-entry.mjs', import.meta.url), { execArgv: [] });
  // As the server has it, with one thread that takes readings.
  const pool = openPool({ threads: 1 });
  for (let round = 0; round < warmUp + count; round++) {
    const reference = await decodeOnce(decoder, picture);
    const begun = await readOnce(picture, pool);
    if (round < warmUp) continue;
    note(REFERENCE, reference);
    note(READING, begun.at(-1)!.at - begun[0]!.at);
    begun.slice(1).forEach(({ at }, index) => {
      note(begun[index]!.name, at - begun[index]!.at);
    });
  }
  await Promise.all([pool.close(), decoder.terminate()]);
  return times;
};

import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { Times } from './measure.ts';
import type { Picture } from './picture.ts';
import { beginPhoto, type LookBeside, openLookBeside, readComing } from './sward.ts';

/** Durations of each thing, by name. */
export type Rounds = ReadonlyMap<string, Times>;

/** The reference: the same file to raw pixels by sharp alone, no more and no less. */
export const REFERENCE = "sharp's full decode";
/** All that a reading takes, from the file's bytes to the answer. */
export const READING = 'reading, warm';

/** What each step of a reading is called in the table; its time lasts until the next step begins. */
const STEPS: Readonly<Record<string, string>> = {
  solve: '  decode, and solve camera from marks meanwhile',
  trace: '  trace lines and refine',
  find: '  find balls',
  locate: '  place balls and call',
};
const OPEN = '  read header';

type Mark = { readonly name: string; readonly at: number };

const readOnce = async ({ bytes, marks }: Picture, { look, room }: LookBeside): Promise<Mark[]> => {
  const begun: Mark[] = [{ name: OPEN, at: performance.now() }];
  const note = (step: string): void => {
    begun.push({ name: STEPS[step] ?? `  ${step}`, at: performance.now() });
  };
  await readComing(await beginPhoto(bytes, undefined, room), marks, note, look);
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
  // As the program's own worker threads have it.
  const beside = openLookBeside();
  await beside.ready;
  for (let round = 0; round < warmUp + count; round++) {
    const reference = await decodeOnce(decoder, picture);
    const begun = await readOnce(picture, beside);
    if (round < warmUp) continue;
    note(REFERENCE, reference);
    note(READING, begun.at(-1)!.at - begun[0]!.at);
    begun.slice(1).forEach(({ at }, index) => {
      note(begun[index]!.name, at - begun[index]!.at);
    });
  }
  await Promise.all([beside.close(), decoder.terminate()]);
  return times;
};

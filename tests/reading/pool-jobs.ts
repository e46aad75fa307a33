import { InputError } from '../../server/errors.ts';

type Report = (step: string, message: string) => void;

const held: Uint8Array[] = [];

const busy = (): never => {
  for (;;) held.length = 0;
};

/** Jobs that misbehave in every way a thread can. */
export const JOBS = {
  echo: (input: unknown) => input,
  steps: (steps: string[], report: Report) => {
    for (const step of steps) report(step, `Doing ${step}.`);
    return steps.length;
  },
  sleep: (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds, 'slept')),
  hang: (_: unknown, report: Report) => {
    report('hang', 'Going round for ever.');
    busy();
  },
  exit: () => process.exit(3),
  throwLater: () =>
    new Promise(() => {
      setTimeout(() => {
        throw new Error('thrown where nobody waits');
      }, 1);
    }),
  fail: () => {
    throw new TypeError('a fault of the program');
  },
  refuse: () => {
    throw new InputError('marks-mirrored', 'The corners are in mirrored order.', 422);
  },
  exhaust: () => {
    const lists: number[][] = [];
    for (;;) lists.push(new Array<number>(1e6).fill(1.5));
  },
  file: (bytes: number) => new Uint8Array(bytes).fill(7),
};

import type { Marks } from '../contract/marks.ts';
import type { JobOutput } from '../reading/pool.ts';
import { givenTo, type Output } from './command.ts';
import { readNamed, readNamedText } from './files.ts';

/** Commands that answer from a photo and marks. */
export type PhotoCommand = 'read' | 'sight' | 'check';

const work = async <N extends PhotoCommand>(
  name: N,
  photo: Uint8Array,
  marks: Marks,
): Promise<JobOutput<N>> => {
  const { openPool } = await import('../reading/pool.ts');
  const pool = openPool({ threads: 1 });
  try {
    return await pool.run(name, { photo, marks } as never);
  } finally {
    await pool.close();
  }
};

/** Reads the named photo and marks, does job `name` on them and puts out the answer: as JSON, or as `say` words it. */
export const answerFromPhoto = async <N extends PhotoCommand>(
  name: N,
  usage: string,
  words: readonly string[],
  output: Output,
  say: (answer: JobOutput<N>, marks: Marks) => readonly string[],
): Promise<void> => {
  const given = givenTo(usage, words, true);
  // The marks are looked at before the photo: their faults are found at once.
  const { parseMarksText } = await import('../contract/parse.ts');
  const marks = parseMarksText(await readNamedText(given.marks!, 'marks file'));
  const answer = await work(name, await readNamed(given.file, 'photo'), marks);
  output(given.json ? JSON.stringify(answer) : say(answer, marks).join('\n'));
};

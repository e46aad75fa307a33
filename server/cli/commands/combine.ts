import { parseMarksText } from '../../contract/parse.ts';
import type { Reading } from '../../contract/reading.ts';
import type { Sighting } from '../../contract/sight.ts';
import { InputError } from '../../errors.ts';
import { combineReadings, type PictureAnswer } from '../../reading/combine-readings.ts';
import type { Command } from '../command.ts';
import { readNamed, readNamedText } from '../files.ts';
import { sayCombination } from '../say/say-combination.ts';

const usage = 'combine read|sight PHOTO --marks FILE … [--json]';

const KINDS = ['read', 'sight'] as const;
type Kind = (typeof KINDS)[number];

/** One picture of the command line. */
type Named = { readonly kind: Kind; readonly photo: string; readonly marks: string };

const misuse = (found: string): InputError =>
  new InputError('usage', `${found}: the command is sward ${usage}, two pictures or more.`, 400);

/** Groups of four words: kind, photo, --marks, file. */
const picturesIn = (words: readonly string[]): Named[] => {
  const named: Named[] = [];
  for (let at = 0; at < words.length; at += 4) {
    const [kind, photo, option, marks] = words.slice(at, at + 4);
    if (!KINDS.includes(kind as Kind)) throw misuse(`Found "${kind}" where read or sight is needed`);
    if (photo === undefined || option !== '--marks' || marks === undefined)
      throw misuse(`Picture ${named.length + 1} needs a photo, --marks and a file`);
    named.push({ kind: kind as Kind, photo, marks });
  }
  if (named.length < 2) throw misuse(`Found ${named.length} picture and two are needed`);
  return named;
};

/** Reads each picture in turn; all marks are looked at first, so that their faults are found at once. */
const answersOf = async (named: readonly Named[]): Promise<PictureAnswer[]> => {
  const { openPool } = await import('../../reading/pool.ts');
  const marks = await Promise.all(
    named.map(async (one) => parseMarksText(await readNamedText(one.marks, 'marks file'))),
  );
  const pool = openPool({ threads: Math.min(2, named.length) });
  try {
    return await Promise.all(
      named.map(async ({ kind, photo: path }, i): Promise<PictureAnswer> => {
        const input = { photo: await readNamed(path, 'photo'), marks: marks[i]! };
        const head = { name: path, marks: marks[i]! };
        const answer = await pool.run(kind, input);
        return kind === 'read'
          ? { ...head, kind: 'lawn', answer: answer as Reading }
          : { ...head, kind: 'sighting', answer: answer as Sighting };
      }),
    );
  } finally {
    await pool.close();
  }
};

/** Combines several pictures of balls that have not moved into one answer. */
export const command: Command = {
  usage,
  summary: 'one answer from several pictures of balls that have not moved',
  run: async (words, output) => {
    const json = words.includes('--json');
    const named = picturesIn(words.filter((word) => word !== '--json'));
    const combination = combineReadings(await answersOf(named));
    output(json ? JSON.stringify(combination) : sayCombination(combination).join('\n'));
  },
};

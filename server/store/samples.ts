import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseMarks } from '../contract/parse.ts';
import type { Sample } from '../contract/photo.ts';

type Listed = Pick<Sample, 'name' | 'title' | 'kind'>;

/** Sample pictures that the page offers, out of the register of fixtures. */
const LISTED: readonly Listed[] = [
  { name: 'd1-terrace', title: 'From the terrace: hoop 1 was scored', kind: 'lawn' },
  { name: 'd2-balcony', title: 'From the clubhouse balcony', kind: 'lawn' },
  { name: 'd5-secondary', title: 'The second colours', kind: 'lawn' },
  { name: 'd6-partial', title: 'A corner out of the picture: hoops and peg help', kind: 'lawn' },
  { name: 'd7-sighting', title: 'Along the halfway line', kind: 'sighting' },
  { name: 'd4-mast', title: 'From the mast: is the court set right?', kind: 'check' },
];

/** The sample pictures in `folder`: each a JPEG with its marks beside it. A picture that is not there is not offered. */
export const openSamples = (folder: string) => {
  const sampleOf = async (listed: Listed): Promise<Sample[]> => {
    const text = await readFile(join(folder, `${listed.name}.marks.json`), 'utf8').catch(() => null);
    if (text === null) return [];
    return [{ ...listed, photo: `/api/samples/${listed.name}/photo`, marks: parseMarks(JSON.parse(text)) }];
  };
  return {
    list: async (): Promise<readonly Sample[]> => (await Promise.all(LISTED.map(sampleOf))).flat(),
    photo: async (name: string): Promise<Uint8Array | null> =>
      LISTED.some((listed) => listed.name === name) ? readFile(join(folder, `${name}.jpg`)) : null,
  };
};

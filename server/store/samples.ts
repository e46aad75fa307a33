import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseMarks } from '../contract/parse.ts';
import type { Sample } from '../contract/photo.ts';

/** A sample picture: where it lies among the fixtures, what it is called, what it is for. */
type Listed = Pick<Sample, 'name' | 'title' | 'kind'> & { readonly folder: 'photos' | 'rendered' };

/** Sample pictures that the page offers, out of the register of fixtures; the first of each kind is the one to begin with. */
const LISTED: readonly Listed[] = [
  { folder: 'photos', name: 'd1-terrace', title: 'From the terrace: hoop 1 was scored', kind: 'lawn' },
  { folder: 'photos', name: 'd2-balcony', title: 'From the clubhouse balcony', kind: 'lawn' },
  { folder: 'rendered', name: 'roof-low-sun', title: 'From a roof, the sun low', kind: 'lawn' },
  { folder: 'photos', name: 'd5-secondary', title: 'The second colours', kind: 'lawn' },
  { folder: 'rendered', name: 'clubhouse-noon', title: 'From the clubhouse at noon', kind: 'lawn' },
  { folder: 'rendered', name: 'wide-balcony', title: 'A wide lens on the balcony', kind: 'lawn' },
  { folder: 'rendered', name: 'gallery-overcast', title: 'Eight balls under a grey sky', kind: 'lawn' },
  { folder: 'rendered', name: 'portrait-corner2', title: 'The phone upright, behind corner 2', kind: 'lawn' },
  {
    folder: 'photos',
    name: 'd6-partial',
    title: 'A corner out of the picture: hoops and peg help',
    kind: 'lawn',
  },
  { folder: 'photos', name: 'd7-sighting', title: 'Along the halfway line', kind: 'sighting' },
  { folder: 'rendered', name: 'sight-east', title: 'Another sample, from the east mark', kind: 'sighting' },
  {
    folder: 'rendered',
    name: 'sight-south14',
    title: 'Another sample, from the south mark',
    kind: 'sighting',
  },
  { folder: 'photos', name: 'd4-mast', title: 'From the mast: is the court set right?', kind: 'check' },
  {
    folder: 'rendered',
    name: 'check-terrace-south',
    title: 'Another sample court, from the terrace',
    kind: 'check',
  },
];

/** The sample pictures in the folders of `fixtures`: each a JPEG with its marks beside it. A picture that is not there is not offered. */
export const openSamples = (fixtures: string) => {
  const sampleOf = async ({ folder, ...listed }: Listed): Promise<Sample[]> => {
    const path = join(fixtures, folder, `${listed.name}.marks.json`);
    const text = await readFile(path, 'utf8').catch(() => null);
    if (text === null) return [];
    return [{ ...listed, photo: `/api/samples/${listed.name}/photo`, marks: parseMarks(JSON.parse(text)) }];
  };
  return {
    list: async (): Promise<readonly Sample[]> => (await Promise.all(LISTED.map(sampleOf))).flat(),
    photo: async (name: string): Promise<Uint8Array | null> => {
      const listed = LISTED.find((one) => one.name === name);
      return listed ? readFile(join(fixtures, listed.folder, `${name}.jpg`)) : null;
    },
  };
};

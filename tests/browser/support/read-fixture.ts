import { readFile } from 'node:fs/promises';
import { photoFile } from './walk.ts';

const PATHS = { lawn: '/api/readings', sighting: '/api/sightings', check: '/api/checks' } as const;

/** Has a fixture photo read with its own marks through the API; resolves with the record's id. */
export const readFixture = async (
  address: string,
  name: string,
  kind: keyof typeof PATHS,
): Promise<string> => {
  const form = new FormData();
  form.set('photo', new Blob([await readFile(photoFile(`${name}.jpg`))]), `${name}.jpg`);
  form.set('marks', await readFile(photoFile(`${name}.marks.json`), 'utf8'));
  const response = await fetch(`${address}${PATHS[kind]}`, { method: 'POST', body: form });
  if (!response.ok)
    throw new Error(`Expected ${name} to be read but received ${response.status}: ${await response.text()}`);
  return ((await response.json()) as { id: string }).id;
};

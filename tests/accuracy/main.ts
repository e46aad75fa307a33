/**
 * Reads every lawn picture with truth and prints how the answers compare; then the seeded simulation. `--only NAME` keeps one picture, `--no-simulation` leaves the second part out,
 * `--folder FOLDER` reads the pictures of that folder alone and nothing else.
 */
import { readFileSync } from 'node:fs';
import { parseMarks } from '../../server/contract/parse.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { readLawn } from '../../server/reading/read-lawn.ts';
import { printEvidence } from './evidence-report.ts';
import { type Fixture, loadFixtures } from './fixtures.ts';
import { type PictureScore, scorePicture } from './measure.ts';
import { pictureRow, READING_HEADER, totalRow } from './report.ts';
import { printSimulation } from './simulation-report.ts';

const read = async (fixture: Fixture): Promise<PictureScore> => {
  const photo = await openPhoto(readFileSync(fixture.photo));
  return scorePicture(fixture, readLawn(photo, parseMarks(fixture.marks)));
};

const optionOf = (option: string): string | undefined =>
  process.argv.includes(option) ? process.argv[process.argv.indexOf(option) + 1] : undefined;
const only = optionOf('--only');
const folder = optionOf('--folder');
const fixtures = loadFixtures(folder === undefined ? undefined : [folder]).filter(
  ({ name, truth }) => truth.kind === 'lawn' && (only === undefined || name.includes(only)),
);
if (fixtures.length === 0) {
  console.error(
    `Found no lawn picture with truth${folder ? ` in ${folder}` : ''}${only ? ` whose name has ${only} in it` : ''}. Name a folder or a picture that has some.`,
  );
  process.exit(2);
}
const scores: PictureScore[] = [];
console.log(READING_HEADER);
for (const fixture of fixtures) {
  const score = await read(fixture);
  scores.push(score);
  console.log(pictureRow(score));
}
console.log(totalRow(scores));
if (only === undefined && folder === undefined) await printEvidence();
if (folder === undefined && !process.argv.includes('--no-simulation')) printSimulation();

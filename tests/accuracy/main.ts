import { readFileSync } from 'node:fs';
import { parseMarks } from '../../server/contract/parse.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { readLawn } from '../../server/reading/read-lawn.ts';
import { printEvidence } from './evidence-report.ts';
import { type Fixture, loadFixtures } from './fixtures.ts';
import { type PictureScore, scorePicture } from './measure.ts';
import { pictureRow, READING_HEADER, totalRow } from './report.ts';
import { printSimulation } from './simulation-report.ts';

/** Reads every lawn picture with truth and prints how the answers compare; then the seeded simulation. `--only NAME` keeps one picture, `--no-simulation` leaves the second part out. */
const read = async (fixture: Fixture): Promise<PictureScore> => {
  const photo = await openPhoto(readFileSync(fixture.photo));
  return scorePicture(fixture, readLawn(photo, parseMarks(fixture.marks)));
};

const only = process.argv.includes('--only') ? process.argv[process.argv.indexOf('--only') + 1] : undefined;
const fixtures = loadFixtures().filter(
  ({ name, truth }) => truth.kind === 'lawn' && (only === undefined || name.includes(only)),
);
const scores: PictureScore[] = [];
console.log(READING_HEADER);
for (const fixture of fixtures) {
  const score = await read(fixture);
  scores.push(score);
  console.log(pictureRow(score));
}
console.log(totalRow(scores));
if (only === undefined) await printEvidence();
if (!process.argv.includes('--no-simulation')) printSimulation();

import { type Checked, checkFixture } from './evidence-check.ts';
import { type SightingScore, sightFixture } from './evidence-sighting.ts';
import { loadFixtures } from './fixtures.ts';
import { quantile } from './measure.ts';

const mm = (value: number): string => (Number.isNaN(value) ? '–' : (value * 1000).toFixed(1));
const ratio = (values: readonly number[]): string =>
  values.length ? Math.sqrt(values.reduce((sum, z) => sum + z * z, 0) / values.length).toFixed(2) : '–';

const SIGHT_HEADER = [
  '| sighting | found / near the line | median error mm | largest mm | error ÷ stated (rms) | firm | wrong firm |',
  '|---|---|---|---|---|---|---|',
].join('\n');

const sightRow = (name: string, scores: readonly SightingScore[]): string => {
  const balls = scores.flatMap((score) => score.balls);
  const errors = balls.map(({ error }) => Math.abs(error));
  const wrong =
    balls.filter((ball) => ball.wrong).length + scores.reduce((sum, one) => sum + one.falseFirm, 0);
  const cells = [
    name,
    `${balls.length} / ${scores.reduce((sum, { asked }) => sum + asked, 0)}`,
    mm(quantile(errors, 0.5)),
    mm(quantile(errors, 1)),
    ratio(balls.map(({ error, sd }) => error / sd)),
    balls.filter(({ firm }) => firm).length,
    wrong,
  ];
  return `| ${cells.join(' | ')} |`;
};

const CHECK_HEADER = [
  '| court check | seen / standing | missing called seen | median error mm | largest mm | error ÷ stated (rms) | called in, really out | called out, really in |',
  '|---|---|---|---|---|---|---|---|',
].join('\n');

const checkRow = (name: string, checked: readonly Checked[], tolerance: number): string => {
  const seen = checked.filter(({ errors }) => errors !== null);
  const errors = seen.map((one) => Math.hypot(...one.errors!));
  const standing = checked.filter(({ truth, inFrame }) => truth !== null && inFrame);
  const cells = [
    name,
    `${seen.length} / ${standing.length}`,
    checked.filter(({ truth, sds }) => truth === null && sds.length > 0).length,
    mm(quantile(errors, 0.5)),
    mm(quantile(errors, 1)),
    ratio(seen.flatMap((one) => one.errors!.map((error, i) => error / one.sds[i]!))),
    seen.filter(({ truth, within }) => within === true && truth! > tolerance).length,
    seen.filter(({ truth, within }) => within === false && truth! <= tolerance).length,
  ];
  return `| ${cells.join(' | ')} |`;
};

/** Prints how sightings and court checks on the pictures with known truth compare with it, as Markdown tables. */
export const printEvidence = async (): Promise<void> => {
  const fixtures = loadFixtures();
  const scores: SightingScore[] = [];
  console.log(SIGHT_HEADER);
  for (const fixture of fixtures.filter(({ truth }) => truth.kind === 'sighting')) {
    const score = await sightFixture(fixture);
    scores.push(score);
    console.log(sightRow(score.name, [score]));
  }
  console.log(sightRow('**all**', scores));
  const all: Checked[] = [];
  console.log(`\n${CHECK_HEADER}`);
  for (const fixture of fixtures.filter(({ truth }) => truth.kind !== 'sighting')) {
    const { check, checked } = await checkFixture(fixture);
    all.push(...checked);
    console.log(checkRow(fixture.name, checked, check.tolerance));
  }
  console.log(checkRow('**all**', all, 0.15));
};

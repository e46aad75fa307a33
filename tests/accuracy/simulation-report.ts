import { simulateSightings } from './sighting-simulation.ts';
import { simulate } from './simulation.ts';
import { REGIONS, type SimulationSummary, summarise } from './simulation-summary.ts';

/** Pictures simulated: four balls each, so more than 5,000 balls. */
const PICTURES = 1400;
const SIGHTINGS = 3000;
const SEED = 20;

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const bound = (metres: number): string => (Number.isFinite(metres) ? `${metres * 1000}` : '∞');

const coverageRow = (
  name: string,
  summary: { coverage: readonly number[]; ratio: number; balls: number },
): string =>
  `| ${name} | ${summary.balls} | ${summary.coverage.map(percent).join(' | ')} | ${summary.ratio.toFixed(2)} |`;

const printMargins = ({ margins }: SimulationSummary): void => {
  console.log('\n| true margin mm | balls | firm calls | wrong firm calls |\n|---|---|---|---|');
  for (const { from, to, calls, firm, wrong } of margins)
    console.log(`| ${bound(from)} – ${bound(to)} | ${calls} | ${firm} | ${wrong} |`);
};

/** Two-sided quantiles of the normal distribution for REGIONS (NIST/SEMATECH e-Handbook 1.3.6.7.1). */
const NORMAL = [0.6745, 1.6449, 1.96, 2.5758] as const;

const summariseSightings = () => {
  const trials = simulateSightings(SIGHTINGS, SEED);
  const inside = (z: number) => trials.filter(({ error, sd }) => Math.abs(error) <= z * sd).length;
  const firm = trials.filter(({ beyond, sd }) => Math.abs(beyond) >= 2.3263 * sd);
  return {
    balls: trials.length,
    coverage: NORMAL.map((z) => inside(z) / trials.length),
    ratio: Math.sqrt(trials.reduce((sum, { error, sd }) => sum + (error / sd) ** 2, 0) / trials.length),
    firm: firm.length,
    wrong: firm.filter(({ beyond, truth }) => beyond > 0 !== truth > 0).length,
  };
};

/** Runs the seeded simulations and prints how often stated regions hold and firm calls are wrong. */
export const printSimulation = (): void => {
  const lawn = summarise(simulate(PICTURES, SEED));
  const sightings = summariseSightings();
  console.log(`\nSimulated from seed ${SEED}: marks → trace → solve → locate → call.\n`);
  console.log(
    `| simulated | balls | ${REGIONS.map((p) => `inside ${100 * p} % region`).join(' | ')} | error ÷ stated (rms) |`,
  );
  console.log('|---|---|---|---|---|---|---|');
  console.log(coverageRow('lawn-wide pictures', lawn));
  console.log(coverageRow('pictures along the line', sightings));
  printMargins(lawn);
  console.log(
    `\nWrong firm calls at certainty 0.99: ${lawn.wrong} of ${lawn.firm} lawn-wide, ${sightings.wrong} of ${sightings.firm} along the line. Pictures refused: ${JSON.stringify(lawn.faults)}.`,
  );
};

import { simulate } from './simulation.ts';
import { REGIONS, type SimulationSummary, summarise } from './simulation-summary.ts';

/** Simulated pictures of the full run; two balls are read in each. */
export const FULL_PICTURES = 5000;
/** Seed of the full run. */
export const FULL_SEED = 2021;

const percent = (part: number, whole: number, digits = 1): string =>
  whole === 0 ? '–' : `${((100 * part) / whole).toFixed(digits)} %`;

const mm = (metres: number): string => (Number.isFinite(metres) ? (metres * 1000).toFixed(0) : '∞');

/** The summary as Markdown: coverage of the stated regions, then calls by true margin. */
export const simulationTables = (summary: SimulationSummary): string => {
  const faults = Object.entries(summary.faults).map(([code, count]) => `${code} ${count}`);
  return [
    `${summary.pictures} simulated pictures, ${summary.balls} balls read; refused: ${faults.join(', ') || 'none'}`,
    '',
    `| stated region | ${REGIONS.map((p) => `${p * 100} %`).join(' | ')} | error ÷ stated (rms) |`,
    '|---|---|---|---|---|---|',
    `| holds | ${summary.coverage.map((share) => percent(share, 1)).join(' | ')} | ${summary.ratio.toFixed(2)} |`,
    '',
    '| true margin, mm | calls | firm | wrong firm | wrong of firm |',
    '|---|---|---|---|---|',
    ...summary.margins.map(
      ({ from, to, calls, firm, wrong }) =>
        `| ${mm(from)}–${mm(to)} | ${calls} | ${percent(firm, calls, 0)} | ${wrong} | ${percent(wrong, firm, 2)} |`,
    ),
    `| all | ${summary.balls} | ${percent(summary.firm, summary.balls, 0)} | ${summary.wrong} | ${percent(summary.wrong, summary.firm, 2)} |`,
  ].join('\n');
};

/** Runs the full simulation and prints its tables. */
export const printSimulation = (): void => {
  console.log(`\n${simulationTables(summarise(simulate(FULL_PICTURES, FULL_SEED)))}`);
};

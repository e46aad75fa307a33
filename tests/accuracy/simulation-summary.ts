import { chiSquareQuantile } from '../../server/units/statistics.ts';
import type { BallTrial, PictureTrial } from './simulation.ts';

/** Probabilities of the regions whose coverage is counted. */
export const REGIONS = [0.5, 0.9, 0.95, 0.99] as const;
/** Margins (m) that part the calls: from hopeless to plain. */
const MARGINS = [0, 0.01, 0.02, 0.05, 0.1, 0.2, Number.POSITIVE_INFINITY] as const;

/** Calls whose true margin lies between two bounds. */
export type MarginRow = {
  readonly from: number;
  readonly to: number;
  readonly calls: number;
  readonly firm: number;
  readonly wrong: number;
};

/** What the simulation shows. */
export type SimulationSummary = {
  readonly pictures: number;
  readonly balls: number;
  readonly faults: Readonly<Record<string, number>>;
  /** Share of errors inside the stated region of each probability in REGIONS. */
  readonly coverage: readonly number[];
  /** Root mean square of error ÷ stated standard deviation, per direction. */
  readonly ratio: number;
  readonly firm: number;
  readonly wrong: number;
  readonly margins: readonly MarginRow[];
};

/** Share of `balls` inside the stated region of probability `p`. */
export const coverageAt = (balls: readonly BallTrial[], p: number): number => {
  const bound = chiSquareQuantile(p, 2);
  return balls.filter(({ square }) => square <= bound).length / balls.length;
};

const marginRow = (balls: readonly BallTrial[], from: number, to: number): MarginRow => {
  const inside = balls.filter(({ margin }) => Math.abs(margin) >= from && Math.abs(margin) < to);
  return {
    from,
    to,
    calls: inside.length,
    firm: inside.filter(({ firm }) => firm).length,
    wrong: inside.filter(({ wrong }) => wrong).length,
  };
};

/** Counts what the trials show. */
export const summarise = (trials: readonly PictureTrial[]): SimulationSummary => {
  const balls = trials.flatMap((trial) => trial.balls);
  const faults: Record<string, number> = {};
  for (const { fault } of trials) if (fault) faults[fault] = (faults[fault] ?? 0) + 1;
  return {
    pictures: trials.length,
    balls: balls.length,
    faults,
    coverage: REGIONS.map((p) => coverageAt(balls, p)),
    ratio: Math.sqrt(balls.reduce((sum, ball) => sum + ball.square / 2, 0) / balls.length),
    firm: balls.filter(({ firm }) => firm).length,
    wrong: balls.filter(({ wrong }) => wrong).length,
    margins: MARGINS.slice(0, -1).map((from, i) => marginRow(balls, from, MARGINS[i + 1]!)),
  };
};

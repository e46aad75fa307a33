import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import { weighAssignments } from './assign-colours.ts';
import { likeliestRatio, lnBallDensities } from './colour-model.ts';
import { COVERED } from './covering.ts';
import { ballDensities, type LookWitness, lookOf } from './dye-density.ts';
import type { JudgedBall } from './judge-ball.ts';

/**
 * Chance that a ball of an asked colour, and of another, is on the lawn in view: on a lawn with one game, and on one that a second game shares, whose balls are there together. How
 * often lawns are shared is common practice, no source.
 */
const LAWNS = [
  { share: 0.85, asked: 0.9, others: 0.004 },
  { share: 0.15, asked: 0.9, others: 0.6 },
] as const;
/** Rounds in which colours and the picture's look are worked out from each other. */
const ROUNDS = 2;
/** Chance of a colour below which a candidate is no witness. */
const LEAST_WITNESS = 0.2;

const N = BALL_COLOURS.length;

/**
 * ln odds of an outline below which a candidate is no witness, nor is one before which something upright stands: beside people most candidates are parts of them, and a few of these can agree on a look that
 * makes balls of them. In a picture of three people who hid all balls a shoulder was a yellow one (0.99), a belt a blue one.
 */
const WITNESS_OUTLINE = 7;
const isWitness = ({ clear, evidence }: JudgedBall): boolean =>
  clear >= COVERED && evidence.round + evidence.size >= WITNESS_OUTLINE;

/** What candidate `i` says of the picture's look, as each colour that it may be. */
const witnessesOf = (candidate: JudgedBall, chances: Float64Array, i: number): LookWitness[] => {
  if (!isWitness(candidate)) return [];
  return BALL_COLOURS.flatMap((_, colour) => {
    const weight = chances[i * N + colour]!;
    if (weight < LEAST_WITNESS) return [];
    const density = ANY_PICTURE[colour]!;
    return [{ colour, weight, ...likeliestRatio(candidate.ratios, candidate.view.radius, density) }];
  });
};

const ANY_PICTURE = ballDensities(lookOf([]));

/** ln odds of every candidate by colour, in a picture whose look the other candidates tell. */
const oddsByOthers = (candidates: readonly JudgedBall[], chances: Float64Array): Float64Array => {
  const witnesses = candidates.map((candidate, i) => witnessesOf(candidate, chances, i));
  const odds = new Float64Array(candidates.length * N);
  candidates.forEach(({ ratios, view, lnOdds }, i) => {
    const densities = ballDensities(lookOf([...witnesses.slice(0, i), ...witnesses.slice(i + 1)].flat()));
    const before = lnBallDensities(ratios, view.radius);
    const after = lnBallDensities(ratios, view.radius, densities);
    for (let c = 0; c < N; c++) odds[i * N + c] = lnOdds[c]! - before[c]! + after[c]!;
  });
  return odds;
};

/** Chances by `odds`, averaged over the kinds of lawn by how well each explains the picture. */
const chancesOnLawns = (odds: Float64Array, colours: readonly BallColour[]): Float64Array => {
  const lawns = LAWNS.map(({ share, asked, others }) => {
    const present = BALL_COLOURS.map((colour) => (colours.includes(colour) ? asked : others));
    const { chances, lnEvidence } = weighAssignments(odds, N, present);
    return { chances, weight: Math.log(share) + lnEvidence };
  });
  const most = Math.max(...lawns.map(({ weight }) => weight));
  const total = lawns.reduce((sum, { weight }) => sum + Math.exp(weight - most), 0);
  const mean = new Float64Array(odds.length);
  for (const { chances, weight } of lawns) {
    const share = Math.exp(weight - most) / total;
    for (let i = 0; i < mean.length; i++) mean[i] = mean[i]! + share * chances[i]!;
  }
  return mean;
};

/**
 * Chances of every candidate (rows) to be the ball of each of BALL_COLOURS, when balls of `colours` are asked for. Balls of one picture share its light, its
 * lawn and its tone curve: what the others show of them narrows what each may look like.
 */
export const chancesOf = (
  candidates: readonly JudgedBall[],
  colours: readonly BallColour[],
): Float64Array => {
  const odds = new Float64Array(candidates.length * N);
  candidates.forEach(({ lnOdds }, i) => {
    odds.set(lnOdds, i * N);
  });
  let chances = chancesOnLawns(odds, colours);
  for (let round = 0; round < ROUNDS; round++)
    chances = chancesOnLawns(oddsByOthers(candidates, chances), colours);
  return chances;
};

/** A candidate under the colour that is given to it, with the chance that it is that ball. */
export type NamedCandidate = {
  readonly ball: JudgedBall;
  readonly colour: BallColour;
  readonly chance: number;
};

/** For each of the asked `colours`, in their order, the candidate that is most likely that ball; a colour whose best chance is not above `least` is left out. */
export const namedBalls = (
  candidates: readonly JudgedBall[],
  colours: readonly BallColour[],
  least: number,
): NamedCandidate[] => {
  const chances = chancesOf(candidates, colours);
  return colours.flatMap((colour) => {
    const c = BALL_COLOURS.indexOf(colour);
    let best = -1;
    for (let i = 0; i < candidates.length; i++)
      if (best < 0 || chances[i * N + c]! > chances[best * N + c]!) best = i;
    const chance = best < 0 ? 0 : chances[best * N + c]!;
    return chance > least ? [{ ball: candidates[best]!, colour, chance }] : [];
  });
};

/** The candidates that no colour was given to. */
export const unnamedBy = (
  named: readonly NamedCandidate[],
  candidates: readonly JudgedBall[],
): JudgedBall[] => candidates.filter((candidate) => named.every(({ ball }) => ball !== candidate));

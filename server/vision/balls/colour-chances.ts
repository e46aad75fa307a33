import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import { colourChances } from './assign-colours.ts';
import { likeliestRatio, lnBallDensities } from './colour-model.ts';
import { ballDensities, type LookWitness, lookOf } from './dye-density.ts';
import type { JudgedBall } from './judge-ball.ts';

/** Chance that a ball of an asked colour, or of another, is on the lawn in view. */
const PRESENT = 0.9;
const PRESENT_UNASKED = 0.1;
/** Rounds in which colours and the picture's look are worked out from each other. */
const ROUNDS = 2;
/** Chance of a colour below which a candidate is no witness. */
const LEAST_WITNESS = 0.2;

const N = BALL_COLOURS.length;

/** What candidate `i` says of the picture's look, as each colour that it may be. */
const witnessesOf = (candidate: JudgedBall, chances: Float64Array, i: number): LookWitness[] =>
  BALL_COLOURS.flatMap((_, colour) => {
    const weight = chances[i * N + colour]!;
    if (weight < LEAST_WITNESS) return [];
    const density = ANY_PICTURE[colour]!;
    return [{ colour, weight, ratio: likeliestRatio(candidate.ratios, candidate.view.radius, density) }];
  });

const ANY_PICTURE = ballDensities(lookOf([]));

/** ln odds of every candidate by colour, in a picture whose look the other candidates tell. */
const oddsByOthers = (candidates: readonly JudgedBall[], chances: Float64Array): Float64Array => {
  const witnesses = candidates.map((candidate, i) => witnessesOf(candidate, chances, i));
  const odds = new Float64Array(candidates.length * N);
  candidates.forEach(({ ratios, view, lnOdds }, i) => {
    const densities = ballDensities(lookOf(witnesses.filter((_, j) => j !== i).flat()));
    const before = lnBallDensities(ratios, view.radius);
    const after = lnBallDensities(ratios, view.radius, densities);
    for (let c = 0; c < N; c++) odds[i * N + c] = lnOdds[c]! - before[c]! + after[c]!;
  });
  return odds;
};

/**
 * Chances of every candidate (rows) to be the ball of each of BALL_COLOURS, when balls of `colours` are asked for. Balls of one picture share its light, its
 * lawn and its tone curve: what the others show of them narrows what each may look like.
 */
export const chancesOf = (
  candidates: readonly JudgedBall[],
  colours: readonly BallColour[],
): Float64Array => {
  const present = BALL_COLOURS.map((colour) => (colours.includes(colour) ? PRESENT : PRESENT_UNASKED));
  const odds = new Float64Array(candidates.length * N);
  candidates.forEach(({ lnOdds }, i) => {
    odds.set(lnOdds, i * N);
  });
  let chances = colourChances(odds, N, present);
  for (let round = 0; round < ROUNDS; round++)
    chances = colourChances(oddsByOthers(candidates, chances), N, present);
  return chances;
};

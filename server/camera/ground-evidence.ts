import type { Relief } from './ground-knots.ts';
import { addHeightPrior } from './ground-prior.ts';
import { cholesky, choleskySolve, logDeterminant, type NormalEquations } from './normal-equations.ts';
import { observationEquations, type RefineFit, type RefineTask } from './refine-task.ts';

/** Standard deviations of the ground's height that are weighed against each other, as factors of the stated one. */
const FACTORS = [0.25, 0.35, 0.5, 0.7, 1, 1.4, 2, 2.8] as const;
/** How far off a club's statement about its lawn may be: standard deviation of the logarithm of the factor. A judgement, no source. */
const STATEMENT_SD = 0.4;
/** No lawn is known to be flatter than this, metres: half a blade. A judgement, no source. */
export const FLATTEST = 0.001;

/** An opinion about the ground: how far it stays alike, and its height's standard deviation as a factor of the stated one. */
type Opinion = { readonly relief: Relief; readonly factor: number };

/** `observations` with the heights' prior at `factor` times the unit standard deviation. */
const withPrior = (
  ground: Float64Array,
  observations: NormalEquations,
  { relief, factor }: Opinion,
): NormalEquations => {
  const equations = {
    ...observations,
    matrix: observations.matrix.slice(),
    right: observations.right.slice(),
  };
  addHeightPrior(ground, relief, factor, equations);
  return equations;
};

/**
 * Minus twice the logarithm of the evidence for an opinion, up to a constant that all share (Laplace's approximation; everything is linear to a
 * fraction of a pixel here): cost at the minimum, which lies rightᵀN⁻¹right below the present one, plus ln det N, minus that of the heights'
 * prior, plus the club's statement as a log-normal prior.
 */
const surprise = (equations: NormalEquations, heights: number, { relief, factor }: Opinion): number => {
  const { matrix, size, right, cost } = equations;
  const l = cholesky(matrix, size);
  if (!l) return Number.POSITIVE_INFINITY;
  const step = choleskySolve(l, size, right);
  let drop = 0;
  for (let i = 0; i < step.length; i++) drop += step[i]! * right[i]!;
  const statement = (Math.log(factor) / STATEMENT_SD) ** 2;
  const prior = 2 * heights * Math.log(factor) + relief.logDeterminant;
  return cost - drop + logDeterminant(l, size) + prior + statement;
};

/** What the traced lines say of the ground: the standard deviation of its height, m, and how far it stays alike. */
export type LearnedGround = { readonly height: number; readonly relief: Relief };

/**
 * The ground from how straight the traced lines run, with the stated height as a first opinion: the mean square over a range of values, each weighed
 * by its evidence, and the relief with most of it. Lines that say nothing give back about the stated value. A lawn stated to be flat stays flat.
 */
export const learnedGround = (task: RefineTask, fit: RefineFit): LearnedGround => {
  const stated = task.sd.height;
  if (stated <= 0) return { height: stated, relief: task.relief };
  const { ground, camera } = fit.state;
  const observations = observationEquations(task, fit, fit.state, camera.radial[0]);
  const { places, reliefs } = task.knots;
  const opinions = reliefs.flatMap((relief) => FACTORS.map((factor) => ({ relief, factor })));
  const surprises = opinions.map((opinion) =>
    surprise(withPrior(ground, observations, opinion), places.length, opinion),
  );
  const least = Math.min(...surprises);
  const weights = surprises.map((value) => Math.exp((least - value) / 2));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const square = opinions.reduce((sum, { factor }, i) => sum + weights[i]! * factor ** 2, 0) / total;
  const height = Math.max(Math.min(stated, FLATTEST), stated * Math.sqrt(square));
  return { height, relief: opinions[surprises.indexOf(least)]!.relief };
};

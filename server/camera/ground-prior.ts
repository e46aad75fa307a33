import { SIDES } from '../lawn/court.ts';
import type { Relief } from './ground-knots.ts';
import { HEIGHTS, SHIFTS } from './line-observations.ts';
import type { NormalEquations } from './normal-equations.ts';

/** Adds the prior of the sides' shifts, independent with unit variance (they are scaled by their standard deviation). */
export const addShiftPrior = (ground: Float64Array, equations: NormalEquations): void => {
  const { size, matrix, right } = equations;
  for (let k = 0; k < SIDES.length; k++) {
    matrix[(SHIFTS + k) * (size + 1)]! += 1;
    right[SHIFTS + k]! -= ground[k]!;
    equations.cost += ground[k]! ** 2;
  }
};

/** Adds the prior of the knots' heights: standard deviation `sd` in the heights' unit, correlated as the ground is. */
export const addHeightPrior = (
  ground: Float64Array,
  relief: Relief,
  sd: number,
  equations: NormalEquations,
): void => {
  const { size, matrix, right } = equations;
  const count = ground.length - SIDES.length;
  for (let i = 0; i < count; i++) {
    let pull = 0;
    for (let j = 0; j < count; j++) {
      const p = relief.precision[i * count + j]! / (sd * sd);
      pull += p * ground[SIDES.length + j]!;
      if (j <= i) matrix[(HEIGHTS + i) * size + HEIGHTS + j]! += p;
    }
    right[HEIGHTS + i]! -= pull;
    equations.cost += pull * ground[SIDES.length + i]!;
  }
};

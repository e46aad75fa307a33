import { describe, expect, it } from 'vitest';
import { addLensPriors, k1TailCost, lensPriors, PHYSICAL_LENS } from '../../server/camera/lens-priors.ts';
import { emptyEquations } from '../../server/camera/normal-equations.ts';
import { CAMERA_PARAMETERS } from '../../server/camera/types.ts';
import { cameraAt } from './cameras.ts';

const at = (z: number): number => PHYSICAL_LENS.k1 + z * PHYSICAL_LENS.k1Sd;

/**
 * The prior on k1 is a Student t with three degrees of freedom. By hand: the weight of a normal prior with the same gradient is 4 ÷ (3 + z²), and minus
 * twice the logarithm of its density is 4 ln(1 + z² ÷ 3); from five standard deviations on the weight stays 4 ÷ 28.
 */
describe('the prior on the first radial term', () => {
  it.each([
    { z: 0.5, weight: 1 },
    { z: 1, weight: 1 },
    { z: 3, weight: 4 / 12 },
    { z: -3, weight: 4 / 12 },
    { z: 5, weight: 4 / 28 },
    { z: 10, weight: 4 / 28 },
    { z: 26, weight: 4 / 28 },
  ])('weighs $weight of a normal one at $z standard deviations', ({ z, weight }) => {
    const equations = emptyEquations(CAMERA_PARAMETERS);
    // With k1 = 0 the tie between k1 and k2 adds nothing to the weight of k1.
    const camera = cameraAt([12.8, -8, 6], [12.8, 14, 0], { radial: [0, 0] });
    addLensPriors(camera, lensPriors(4032, 3024), at(z), equations);
    expect(equations.matrix[7 * CAMERA_PARAMETERS + 7]! * PHYSICAL_LENS.k1Sd ** 2).toBeCloseTo(weight, 10);
  });

  it.each([
    { z: 0, cost: 0 },
    // 4 ln 4 − 9 · 4 ÷ 12
    { z: 3, cost: 2.5452 },
    { z: -3, cost: 2.5452 },
    // 4 ln(28 ÷ 3) − 25 · 4 ÷ 28
    { z: 5, cost: 5.3627 },
    // The weighed square alone, 100 · 4 ÷ 28 = 14.29, is more than 4 ln(103 ÷ 3) = 14.14.
    { z: 10, cost: 0 },
  ])('costs $cost more than its weighed square at $z standard deviations', ({ z, cost }) => {
    expect(k1TailCost(at(z))).toBeCloseTo(cost, 3);
  });
});

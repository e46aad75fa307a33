import type { Raster } from '../units/raster.ts';
import type { JudgedBall } from '../vision/balls/judge-ball.ts';
import { type CellNoise, typicalNoise } from '../vision/balls/noise-model.ts';
import { offLawnAt } from '../vision/balls/off-lawn.ts';

/** Heights above the outline's middle, radii, between which a leg is looked for, and the step: below lies the ball's own edge. */
const HEIGHTS = { from: 1.75, to: 4, step: 0.25 } as const;
/** How far aside of the middle is looked, radii, and the step. A leg may slant. */
const ASIDE = 2;
const PACE = 0.25;
/** Width of a leg at least, radii: 69 mm, wider than the peg (38 mm) and a hoop's upright (16 mm), narrower than a trouser leg. */
const LEG_WIDTH = 1.5;
/** Contrast, in standard deviations of one px, from which it differs from lawn: one px of lawn in a hundred does (χ² with 3 degrees of freedom), a row of six hardly ever. */
const DIFFERS = 3.3;
/** Share of the heights at which a leg must be seen. */
const MOSTLY = 0.8;

/** Whether the px at (`u`, `v`) radii (down, aside) from the outline's middle differs from the lawn beside the ball. */
const differs = (
  raster: Raster,
  { view, fit }: JudgedBall,
  noise: CellNoise,
  u: number,
  v: number,
): boolean => {
  const x = fit.x + u * view.ax + v * view.bx;
  const y = fit.y + u * view.ay + v * view.by;
  return offLawnAt(raster, fit, noise, x, y) > DIFFERS;
};

/** Whether a stretch as wide as a leg over the middle differs from lawn, `up` radii above it. */
const legInRow = (differsAt: (aside: number) => boolean): boolean => {
  let width = 0;
  let overMiddle = false;
  for (let aside = -ASIDE; aside <= ASIDE; aside += PACE) {
    if (!differsAt(aside)) {
      width = 0;
      overMiddle = false;
      continue;
    }
    width += PACE;
    overMiddle ||= aside === 0;
    if (overMiddle && width >= LEG_WIDTH) return true;
  }
  return false;
};

/** Whether something as wide as a leg stands on a candidate's place. */
const underLeg = (raster: Raster, candidate: JudgedBall, noise: CellNoise): boolean => {
  let rows = 0;
  let covered = 0;
  for (let up = HEIGHTS.from; up <= HEIGHTS.to; up += HEIGHTS.step) {
    rows++;
    if (legInRow((aside) => differs(raster, candidate, noise, -up, aside))) covered++;
  }
  return covered >= MOSTLY * rows;
};

/**
 * The candidates on which no person's leg stands. What a leg stands on is a shoe, or a ball at somebody's foot which a picture cannot tell from one: it is left to be tapped.
 */
export const withoutShoes = (raster: Raster, candidates: readonly JudgedBall[]): JudgedBall[] => {
  const noise = typicalNoise(candidates.map(({ fit }) => fit.noise));
  return candidates.filter((candidate) => !underLeg(raster, candidate, noise));
};

import type { BallView } from './ball-view.ts';
import type { FitWorkspace } from './fit-workspace.ts';
import type { LawnColour } from './lawn-colour.ts';
import { linearRgb } from './light.ts';
import { cellVariances } from './noise-model.ts';
import { ballValue, lawnValue, type OutlineFit } from './outline-fit.ts';
import type { Patch } from './patch.ts';

/** How much a fitted outline looks like a ball's, as logarithms of odds against anything else, and how much of it is seen. */
export type OutlineEvidence = {
  /** From the directions in which the picture changes from ball to lawn at the outline. */
  readonly round: number;
  /** From the size the picture itself would choose. */
  readonly size: number;
  /** From what lies around: lawn, or something else. */
  readonly ground: number;
  /** Share of the outline that is seen, 0 to 1. */
  readonly visible: number;
};

/** Directions of the outline that are judged. */
const DIRECTIONS = 12;
/** How far a ball may differ inside and the lawn outside from the model, in shares of the contrast. */
const MODEL_SD = 0.25;
/** Things that are not balls lie anywhere about half way. */
const OTHER_MEAN = 0.5;
const OTHER_SD = 0.6;
/** Chance that a ball's outline is hidden in one direction. */
const HIDDEN = 0.1;
/** Neighbouring directions share texture, so only part of their evidence counts. */
const SHARED = 0.5;
/** Spread of the size a ball's picture chooses, in px and in radii; and that of other things, in radii. */
const SIZE_PX = 0.1;
const SIZE_SD = 0.1;
const OTHER_SIZE_SD = 0.6;
/** Spread of lawn colour (ln) besides what the lawn itself shows: shade takes the blue light of the sky. */
const SHADE_COLOUR_SD = 0.15;
/** Odds never fall below this for what lies around: a person or a line may stand beside a true ball. */
const LEAST_GROUND = -3;

const innerSum = new Float64Array(DIRECTIONS);
const innerInfo = new Float64Array(DIRECTIONS);
const outerSum = new Float64Array(DIRECTIONS);
const outerInfo = new Float64Array(DIRECTIONS);
const variances = new Float64Array(4);

const lnNormal = (x: number, mean: number, variance: number): number =>
  -0.5 * ((x - mean) ** 2 / variance + Math.log(2 * Math.PI * variance));

/** Adds up, by direction, how far the cells inside and outside lie from lawn (0) to ball (1), and what that is known from. */
const gatherDirections = (patch: Patch, view: BallView, fit: OutlineFit, space: FitWorkspace): void => {
  for (const a of [innerSum, innerInfo, outerSum, outerInfo]) a.fill(0);
  const beyond = 1.1 + (0.5 * patch.cell) / view.radius;
  const farthest = 1.7 + patch.cell / view.radius;
  for (let i = 0; i < patch.count; i++) {
    const rho = space.rho[i]!;
    const inside = rho > 0.35 && rho < 0.97;
    if (!inside && (rho < beyond || rho > farthest)) continue;
    cellVariances(patch, space, i, fit, fit.colourBlur, variances);
    let sum = 0;
    let info = 0;
    for (let c = 0; c < 3; c++) {
      const variance = variances[c === 0 ? 0 : 1]!;
      const lawn = lawnValue(fit, space, i, c);
      const step = ballValue(fit, space, i, c) - lawn;
      sum += ((patch.values[3 * i + c]! - lawn) * step) / variance;
      info += (step * step) / variance;
    }
    const turn = Math.atan2(space.side[i]!, space.down[i]!) / (2 * Math.PI);
    const k = Math.min(DIRECTIONS - 1, Math.floor((turn + 0.5) * DIRECTIONS));
    const [sums, infos] = inside ? [innerSum, innerInfo] : [outerSum, outerInfo];
    sums[k] = sums[k]! + sum;
    infos[k] = infos[k]! + info;
  }
};

/** Log odds that the outline is seen in direction `k`, and the chance of it; 0 and null where nothing can be told. */
const judgeDirection = (k: number): readonly [number, number | null] => {
  if (innerInfo[k] === 0 || outerInfo[k] === 0) return [0, null];
  const t = innerSum[k]! / innerInfo[k]!;
  const o = outerSum[k]! / outerInfo[k]!;
  const ti = 1 / innerInfo[k]!;
  const oi = 1 / outerInfo[k]!;
  const seen = lnNormal(t, 1, ti + MODEL_SD ** 2) + lnNormal(o, 0, oi + MODEL_SD ** 2);
  const other = lnNormal(t, OTHER_MEAN, ti + OTHER_SD ** 2) + lnNormal(o, OTHER_MEAN, oi + OTHER_SD ** 2);
  const odds = Math.exp(Math.min(50, seen - other));
  return [Math.log((1 - HIDDEN) * odds + HIDDEN), ((1 - HIDDEN) * odds) / ((1 - HIDDEN) * odds + HIDDEN)];
};

const sizeOdds = (fit: OutlineFit, radius: number): number => {
  const own = fit.radiusSd ** 2;
  const ball = own + SIZE_PX ** 2 + (SIZE_SD * radius) ** 2;
  const other = own + (OTHER_SIZE_SD * radius) ** 2;
  return lnNormal(fit.radiusOffset, 0, ball) - lnNormal(fit.radiusOffset, 0, other);
};

const groundOdds = (fit: OutlineFit, lawn: LawnColour): number => {
  const [r, g, b] = linearRgb(fit.lawn[0]!, fit.lawn[1]!, fit.lawn[2]!);
  const red = Math.log((r + 1e-3) / (g + 1e-3)) - lawn.redness;
  const blue = Math.log((b + 1e-3) / (g + 1e-3)) - lawn.blueness;
  const off =
    red ** 2 / (lawn.rednessSd ** 2 + SHADE_COLOUR_SD ** 2) +
    blue ** 2 / (lawn.bluenessSd ** 2 + SHADE_COLOUR_SD ** 2);
  return Math.max(LEAST_GROUND, Math.min(0, 2 - off / 2));
};

/** The evidence of `fit`, whose last step the workspace still holds. */
export const outlineEvidence = (
  patch: Patch,
  view: BallView,
  fit: OutlineFit,
  lawn: LawnColour,
  space: FitWorkspace,
): OutlineEvidence => {
  gatherDirections(patch, view, fit, space);
  let round = 0;
  let seen = 0;
  let judged = 0;
  for (let k = 0; k < DIRECTIONS; k++) {
    const [odds, chance] = judgeDirection(k);
    round += SHARED * odds;
    if (chance === null) continue;
    seen += chance;
    judged++;
  }
  return {
    round,
    size: sizeOdds(fit, view.radius),
    ground: groundOdds(fit, lawn),
    // A direction cut off by the picture's edge is not seen.
    visible: judged === 0 ? 0 : seen / DIRECTIONS,
  };
};

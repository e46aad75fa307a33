import type { BallView } from './ball-view.ts';
import type { FitWorkspace } from './fit-workspace.ts';
import type { LawnColour } from './lawn-colour.ts';
import { linearRgb } from './light.ts';
import { ballValue, lawnValue, modelValue, type OutlineFit } from './outline-shape.ts';
import type { Patch } from './patch.ts';
import type { PictureBlur } from './picture-blur.ts';
import type { Sun } from './shading.ts';
import { shadowOdds } from './shadow-depth.ts';

/** How much a fitted outline looks like a ball's, as logarithms of odds against anything else, and how much of it is seen. */
export type OutlineEvidence = {
  /** From the directions in which the picture changes from ball to lawn at the outline. */
  readonly round: number;
  /** From the size the picture itself would choose. */
  readonly size: number;
  /** From what lies around: lawn, or something else. */
  readonly ground: number;
  /** From its cast shadow, which is as deep as those of the picture's balls, or is not there. */
  readonly shadow: number;
  /** ln of how likely its blur is in this picture, 0 at the likeliest. */
  readonly blur: number;
  /** Share of the ball's cells that are as bright as a picture can be. */
  readonly clipped: number;
  /** Share of the outline that is seen, 0 to 1. */
  readonly visible: number;
  /** Share of the cells in each of twelve directions before which nothing else stands, from that of the outline's highest point on, towards its side axis. */
  readonly open: readonly number[];
};

/** Directions of the outline that are judged. */
const DIRECTIONS = 12;
/** Cells between these radii are judged. */
const FROM = 0.3;
const TO = 1.6;
/** Spread of a cell about the fitted model in shares of the contrast, noise aside: for a ball (tone curve, blades, sharpening), and for other things. */
const BALL_SD = 0.14;
const OTHER_SD = 0.45;
/** Share of cells that something small upsets on a true ball: a blade, gloss, a hoop's wire. */
const UPSET = 0.05;
/** So many neighbouring cells show the same texture and count as one; colour is blurred over more. */
const SHARED = 3;
const COLOUR_SHARED = 8;
/** Variance (shares of the contrast, squared) at which a cell is too faint to count more than half: errors of the noise itself would add up. */
const FAINT = 0.08;
/** Most that one direction can say for a ball: its cells share the model's errors. */
const MOST = 2.5;
/** Chance that a ball's outline is hidden in one direction, and that what hides it has the ball's own colour on both sides. */
const HIDDEN = 0.2;
const SAME_COLOUR = 0.02;
/** Mean shares of contrast inside and outside that mean the thing reaches on in its own colour, and their spread. */
const MODEL_SD = 0.25;
/** The same for anything at all, which lies about half way. */
const ANY_SD = 0.6;
/** So many cells of a mean count as one. */
const MEAN_SHARED = 2;
/** Spread of the size a ball's picture chooses, in px and in radii; and that of other things, in radii. */
const SIZE_PX = 0.1;
const SIZE_SD = 0.1;
const OTHER_SIZE_SD = 0.6;
/** Spread of lawn colour (ln) besides what the lawn itself shows: shade takes the blue light of the sky. */
const SHADE_COLOUR_SD = 0.15;
/** ln of red over green and of blue over green that bare earth has more than lawn: dry soil reflects red, green, blue about as 3 : 2.5 : 1.8, lawn as 2 : 4 : 1. A judgement, no source. */
const EARTH = [0.5, 0.3] as const;
/** Odds never fall below this for what lies around: a person or a line may stand beside a true ball. */
const LEAST_GROUND = -5;

const cellOdds = new Float64Array(DIRECTIONS);
const innerSum = new Float64Array(DIRECTIONS);
const innerInfo = new Float64Array(DIRECTIONS);
const outerSum = new Float64Array(DIRECTIONS);
const outerInfo = new Float64Array(DIRECTIONS);
const trusted = new Float64Array(DIRECTIONS);
const untrusted = new Float64Array(DIRECTIONS);

const lnNormal = (x: number, mean: number, variance: number): number =>
  -0.5 * ((x - mean) ** 2 / variance + Math.log(2 * Math.PI * variance));

/** Log odds of a cell whose residual is `e` shares of the contrast, known to `variance`: a ball's against another thing's. */
const oddsOfCell = (e: number, variance: number): number => {
  const ball = Math.exp(lnNormal(e, 0, variance + BALL_SD ** 2));
  const other = Math.exp(lnNormal(e, 0, variance + OTHER_SD ** 2));
  const told = variance / FAINT;
  return Math.log(((1 - UPSET) * ball) / (other + 1e-12) + UPSET) / (1 + told * told);
};

/** Adds up, by direction, the cells' odds, and how far inside and outside lie from lawn (0) to ball (1). */
const gatherDirections = (patch: Patch, seen: Float64Array, fit: OutlineFit, space: FitWorkspace): void => {
  for (const a of [cellOdds, innerSum, innerInfo, outerSum, outerInfo, trusted, untrusted]) a.fill(0);
  const luma = fit.noise.luma ** 2;
  const colour = COLOUR_SHARED * fit.noise.colour ** 2;
  for (let i = 0; i < patch.count; i++) {
    const rho = space.rho[i]!;
    if (rho < FROM || rho > TO) continue;
    const turn = Math.atan2(space.side[i]!, space.down[i]!) / (2 * Math.PI);
    const k = Math.min(DIRECTIONS - 1, Math.floor((turn + 0.5) * DIRECTIONS));
    const counts = seen[i] === 0 ? untrusted : trusted;
    counts[k] = counts[k]! + 1;
    if (patch.trust[i] === 0) continue;
    let sum = 0;
    let info = 0;
    for (let c = 0; c < 3; c++) {
      const variance = c === 0 ? luma : colour;
      const step = ballValue(fit, space, i, c) - lawnValue(fit, space, i, c);
      sum += ((patch.values[3 * i + c]! - modelValue(fit, space, i, c)) * step) / variance;
      info += (step * step) / variance;
    }
    if (info < 1e-9) continue;
    cellOdds[k] = cellOdds[k]! + oddsOfCell(sum / info, 1 / info) / SHARED;
    if (rho > 0.95 && rho < 1.15) continue;
    const [sums, infos] = rho < 1 ? [innerSum, innerInfo] : [outerSum, outerInfo];
    sums[k] = sums[k]! + sum;
    infos[k] = infos[k]! + info;
  }
};

/** ln of how likely direction `k` looks as it does inside and outside the outline, if its means were `inner` and `outer` shares of the contrast, give or take `sd`. */
const lnPair = (k: number, inner: number, outer: number, sd: number): number => {
  const ti = MEAN_SHARED / innerInfo[k]!;
  const oi = MEAN_SHARED / outerInfo[k]!;
  const t = 1 + innerSum[k]! / innerInfo[k]!;
  const o = outerSum[k]! / outerInfo[k]!;
  return lnNormal(t, inner, ti + sd * sd) + lnNormal(o, outer, oi + sd * sd);
};
const unseen = (k: number): boolean => innerInfo[k] === 0 || outerInfo[k] === 0;

/** Chance, 0 to 1, that direction `k` shows a thing that reaches on in its own colour rather than anything else. */
const reachesOn = (k: number): number =>
  unseen(k) ? 0 : 1 / (1 + Math.exp(lnPair(k, 0.5, 0.5, ANY_SD) - lnPair(k, 1, 1, MODEL_SD)));

/** ln odds against a ball's edge in direction `k` from the means alone, 0 where they agree with one: single cells may each be too faint to tell. */
const meanOdds = (k: number): number =>
  unseen(k) ? 0 : Math.min(0, lnPair(k, 1, 0, MODEL_SD) - lnPair(k, 0.5, 0.5, ANY_SD));

/**
 * Log odds that a ball shows direction `k` as it is, and the chance that its outline is seen there: a ball shows its outline, or something
 * hides it, hardly ever of its own colour.
 */
const judgeDirection = (k: number): readonly [number, number] => {
  const seen = (1 - HIDDEN) * Math.exp(Math.min(MOST, cellOdds[k]!) + meanOdds(k));
  const hidden = HIDDEN * (1 - reachesOn(k) + SAME_COLOUR);
  return [Math.log(seen + hidden), seen / (seen + hidden)];
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
  // Worn ground is lawn mixed with earth, common at hoops and corners.
  const [earthRed, earthBlue] = EARTH;
  const along = (red * earthRed + blue * earthBlue) / (earthRed * earthRed + earthBlue * earthBlue);
  const worn = Math.max(0, Math.min(1, along));
  const off =
    (red - worn * earthRed) ** 2 / (lawn.rednessSd ** 2 + SHADE_COLOUR_SD ** 2) +
    (blue - worn * earthBlue) ** 2 / (lawn.bluenessSd ** 2 + SHADE_COLOUR_SD ** 2);
  return Math.max(LEAST_GROUND, Math.min(0, 1.5 - off / 2));
};

const blurLikelihood = (fit: OutlineFit, { luma, lnLumaSd }: PictureBlur): number => {
  const off = Math.log(fit.blur / luma) / lnLumaSd;
  return -(off * off) / 2;
};

/** Luma from which a cell may be clipped, grey levels, and the part of the ball, in radii, whose cells are asked. */
const CLIPPED = 238;
const WELL_INSIDE = 0.9;

const clippedShare = ({ values, count }: Patch, { rho }: FitWorkspace): number => {
  let inside = 0;
  let clipped = 0;
  for (let i = 0; i < count; i++) {
    if (rho[i]! > WELL_INSIDE) continue;
    inside++;
    if (values[3 * i]! > CLIPPED) clipped++;
  }
  return inside === 0 ? 0 : clipped / inside;
};

/** What is known of the picture. */
type Known = { readonly lawn: LawnColour; readonly sun: Sun | null; readonly blur: PictureBlur };

/** The evidence of `fit`, whose last step the workspace still holds. `seen` is 0 for the cells of `patch` before which something else stands; others may be distrusted too. */
export const outlineEvidence = (
  patch: Patch,
  seen: Float64Array,
  view: BallView,
  fit: OutlineFit,
  known: Known,
  space: FitWorkspace,
): OutlineEvidence => {
  const { lawn, sun } = known;
  gatherDirections(patch, seen, fit, space);
  const open: number[] = [];
  let round = 0;
  let share = 0;
  for (let k = 0; k < DIRECTIONS; k++) {
    const [odds, chance] = judgeDirection(k);
    round += odds;
    const cells = trusted[k]! + untrusted[k]!;
    open.push(cells === 0 ? 1 : trusted[k]! / cells);
    share += (open[k]! * chance) / DIRECTIONS;
  }
  return {
    round,
    size: sizeOdds(fit, view.radius),
    ground: groundOdds(fit, lawn),
    shadow: sun === null ? 0 : shadowOdds(fit.shadow, sun.shadow),
    blur: blurLikelihood(fit, known.blur),
    clipped: clippedShare(patch, space),
    visible: share,
    open,
  };
};

import { blueOf, greenOf, lumaOf, redOf, writeYcc } from '../ycc.ts';
import type { FitWorkspace } from './fit-workspace.ts';
import { greyLevel, linear } from './light.ts';
import { blurs, type OutlineFit, type Shape } from './outline-shape.ts';
import type { Patch } from './patch.ts';
import { BALL_COLUMNS, COLUMNS } from './shading.ts';
import { stepOf, tableOf } from './table.ts';

/** Cells of which ball or lawn has less than this share are not shared. */
const SHARED = 0.005;
/** Most that a channel can show, grey levels. */
const WHITE = 255;
/** Steps of light from black to white. */
const STEPS = 4096;
/** Light by grey level, and grey level by steps of light (IEC 61966-2-1). */
const LIGHT = tableOf(WHITE, (share) => linear(WHITE * share));
const LEVEL = tableOf(STEPS, greyLevel);

const shown = (level: number): number => Math.max(0, Math.min(WHITE, level));

/**
 * What one cell is asked for: red, green and blue of the lawn and of ball minus lawn; the shares of luma and of colour that the ball covers, and how much weaker colour is; the bends by each share.
 * Kept in arrays, since numbers handed from one function to another would be allocated each time, and this is asked for every cell of every step.
 */
const lawnRgb = new Float64Array(3);
const stepRgb = new Float64Array(3);
const shares = new Float64Array(3);
const byLuma = new Float64Array(3);
const byColour = new Float64Array(3);

/** Works out the bends of channel `c`: what it shows beyond even mixtures where the shares of the light are from lawn and ball. */
const setBend = (c: number): void => {
  const v = shown(lawnRgb[c]!);
  const b = shown(lawnRgb[c]! + stepRgb[c]!);
  const dark = stepOf(LIGHT, v);
  const more = stepOf(LIGHT, b) - dark;
  const w = shares[0]!;
  const wc = shares[1]!;
  byLuma[c] = stepOf(LEVEL, STEPS * (dark + w * more)) - v - w * (b - v);
  byColour[c] = stepOf(LEVEL, STEPS * (dark + wc * more)) - v - wc * (b - v);
};

/** Y, Cb, Cr from some place on, grey levels. */
type Triples = Float64Array;

/** `toneBend` for the shares that are set. */
const bendCell = (lawn: Triples, step: Triples, k: number, out: Triples): void => {
  setRgb(lawn, k, lawnRgb);
  setRgb(step, k, stepRgb);
  for (let c = 0; c < 3; c++) setBend(c);
  writeYcc(byColour[0]!, byColour[1]!, byColour[2]!, out, k);
  out[k] = lumaOf(byLuma[0]!, byLuma[1]!, byLuma[2]!);
  out[k + 1] = shares[2]! * out[k + 1]!;
  out[k + 2] = shares[2]! * out[k + 2]!;
};

const setRgb = (ycc: Triples, k: number, rgb: Float64Array): void => {
  const y = ycc[k]!;
  const cb = ycc[k + 1]!;
  const cr = ycc[k + 2]!;
  rgb[0] = redOf(y, cr);
  rgb[1] = greenOf(y, cb, cr);
  rgb[2] = blueOf(y, cb);
};

/**
 * What the tone curve adds to a cell that ball and lawn share, beyond an even mixture of the two: Y, Cb, Cr in grey levels, into `out` from `k` on, where `lawn` and `step` (ball minus lawn) have
 * theirs. A lens blurs light, and the tone curve bends it afterwards, channel by channel (IEC 61966-2-1): the brighter of the two seems to reach over the other. The ball covers `w` of the cell
 * in luma and `wc` in colour, which is blurred further after the tone curve: what is added is spread over more cells, and weaker by `spread`.
 */
export const toneBend = (
  lawn: Triples,
  step: Triples,
  k: number,
  w: number,
  wc: number,
  spread: number,
  out: Triples,
): void => {
  shares[0] = w;
  shares[1] = wc;
  shares[2] = spread;
  bendCell(lawn, step, k, out);
};

const lawnHere = new Float64Array(3);
const stepHere = new Float64Array(3);

/** What a fitted ball adds to the lawn at a place whose columns are in `base`: Y, Cb, Cr of the lawn there, of ball minus lawn, and of the bend. */
export type Added = {
  readonly lawn: Float64Array;
  readonly step: Float64Array;
  readonly bend: Float64Array;
};
const added: Added = { lawn: lawnHere, step: stepHere, bend: new Float64Array(3) };

/** `Added` of a ball where it covers `w` in luma and `wc` in colour. The answer is written over by the next call. */
export const addedAt = (
  { coefficients, blur, colourBlur }: OutlineFit,
  base: Float64Array,
  w: number,
  wc: number,
): Added => {
  for (let c = 0; c < 3; c++) {
    let [ball, lawn] = [0, 0];
    for (let k = 0; k < BALL_COLUMNS; k++) ball += base[k]! * coefficients[c * COLUMNS + k]!;
    for (let k = BALL_COLUMNS; k < COLUMNS; k++) lawn += base[k]! * coefficients[c * COLUMNS + k]!;
    lawnHere[c] = lawn;
    stepHere[c] = ball - lawn;
  }
  toneBend(lawnHere, stepHere, 0, w, wc, blur / Math.hypot(blur, colourBlur), added.bend);
  return added;
};

/** Works out the workspace's `bend` for the outline `shape`, where ball and lawn show what they did in the step before. */
export const bendByTone = (patch: Patch, shape: Shape, space: FitWorkspace): void => {
  const { cover, coverColour, contrast, ground, bend } = space;
  const [blurY, blurC] = blurs(patch, shape);
  shares[2] = blurY / blurC;
  for (let i = 0; i < patch.count; i++) {
    const wc = coverColour[i]!;
    if (wc > SHARED && wc < 1 - SHARED) {
      shares[0] = cover[i]!;
      shares[1] = wc;
      bendCell(ground, contrast, 3 * i, bend);
    } else {
      bend[3 * i] = 0;
      bend[3 * i + 1] = 0;
      bend[3 * i + 2] = 0;
    }
  }
};

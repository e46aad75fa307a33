import { lumaOf } from '../ycc.ts';
import type { FitWorkspace } from './fit-workspace.ts';
import { greyLevel, linear } from './light.ts';
import { blurs, type Shape } from './outline-shape.ts';
import type { Patch } from './patch.ts';
import { tableOf, valueAt } from './table.ts';

/** Cells of which ball or lawn has less than this share are not shared. */
const SHARED = 0.005;
/** Most that a channel can show, grey levels. */
const WHITE = 255;
/** Light by the share of white that a channel shows, and the grey level by the light (IEC 61966-2-1). */
const LIGHT = tableOf(WHITE, (share) => linear(WHITE * share));
const LEVEL = tableOf(4096, greyLevel);

/** What a channel of the picture shows beyond the even mixture where the share `w` of the light is from `lawn + step` and the rest from `lawn`, grey levels. */
const bendOf = (lawn: number, step: number, w: number): number => {
  const v = Math.max(0, Math.min(WHITE, lawn));
  const b = Math.max(0, Math.min(WHITE, lawn + step));
  const light = (1 - w) * valueAt(LIGHT, v / WHITE) + w * valueAt(LIGHT, b / WHITE);
  return valueAt(LEVEL, light) - v - w * (b - v);
};

const bends = new Float64Array(3);

/** Bends of red, green and blue where the share `w` of the light is from lawn + step, into `bends`; returns that of luma. */
const setBends = (lawn: Triple, step: Triple, k: number, w: number): number => {
  const [y, cb, cr] = [lawn[k]!, lawn[k + 1]!, lawn[k + 2]!];
  const [dy, db, dr] = [step[k]!, step[k + 1]!, step[k + 2]!];
  const red = bendOf(y + 1.402 * cr, dy + 1.402 * dr, w);
  const green = bendOf(y - 0.34414 * cb - 0.71414 * cr, dy - 0.34414 * db - 0.71414 * dr, w);
  const blue = bendOf(y + 1.772 * cb, dy + 1.772 * db, w);
  bends[0] = red;
  bends[1] = blue;
  return lumaOf(red, green, blue);
};

/** Y, Cb, Cr from some place on, grey levels. */
type Triple = ArrayLike<number>;

/**
 * What the tone curve adds to a cell that ball and lawn share, beyond an even mixture of the two: Y, Cb, Cr in grey levels, into `out` from `k` on, where `lawn` and `step` (ball minus lawn) have
 * theirs. A lens blurs light, and the tone curve bends it afterwards, channel by channel (IEC 61966-2-1): the brighter of the two seems to reach over the other. The ball covers `w` of the cell
 * in luma and `wc` in colour, which is blurred further after the tone curve: what is added is spread over more cells, and weaker by `spread`.
 */
export const toneBend = (
  lawn: Triple,
  step: Triple,
  k: number,
  w: number,
  wc: number,
  spread: number,
  out: Float64Array,
): void => {
  out[k] = setBends(lawn, step, k, w);
  const luma = setBends(lawn, step, k, wc);
  out[k + 1] = (spread * (bends[1]! - luma)) / 1.772;
  out[k + 2] = (spread * (bends[0]! - luma)) / 1.402;
};

/** Works out the workspace's `bend` for the outline `shape`, where ball and lawn show what they did in the step before. */
export const bendByTone = (patch: Patch, shape: Shape, space: FitWorkspace): void => {
  const { cover, coverColour, contrast, ground, bend } = space;
  const [blurY, blurC] = blurs(patch, shape);
  for (let i = 0; i < patch.count; i++) {
    const wc = coverColour[i]!;
    if (wc > SHARED && wc < 1 - SHARED) toneBend(ground, contrast, 3 * i, cover[i]!, wc, blurY / blurC, bend);
    else bend.fill(0, 3 * i, 3 * i + 3);
  }
};

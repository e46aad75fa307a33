import { inverseDiagonal, solveSmall } from '../small-solve.ts';
import type { BandBlock } from './band-blocks.ts';
import { PAINT_WIDTH_PRIOR, STRING_PRIOR } from './paint.ts';

/** The paint of a court as the picture shows it. */
export type PaintEstimate = {
  /** Width in metres with its standard deviation. */
  readonly width: number;
  readonly sd: number;
  /** Px by which every band looks wider than it is: the picture's tone curve and sharpening. */
  readonly extra: number;
  /** Metres of height over which paint is seen on the blades: a grazing view widens the band by so much times the rise. */
  readonly depth: number;
  /** Whether any stretch was wide enough in the picture to measure the width. */
  readonly measured: boolean;
  /** Whether it is a string, whose middle is the boundary. */
  readonly string: boolean;
};

/** Prior of `extra`: what a phone's tone curve, sharpening and compression add to a band's width is half of the blur at most. */
const EXTRA_SD = 0.3;
/** Prior of `depth`: lawns for this game are mown at 4 to 8 mm (common practice, no source), and half of that may show paint. */
const DEPTH_PRIOR = { mean: 0.002, sd: 0.003 } as const;
/**
 * White line paint is this many times as much brighter than grass as grass is bright (paint reflects 0.5 to 0.8, grass 0.1 to 0.25): so the
 * light that a band adds tells its width, however far away, to a factor of two or so; worn paint seems narrower.
 */
const WHITENESS = 2.5;
/** How far that width is from the true one, standard deviation of its logarithm: paint may also be worn, a string is not. */
const BY_LIGHT_SD = { more: 0.5, worn: 0.9, string: 0.5 } as const;
/** A stretch whose band is expected narrower than this (px) shows no width under any blur, only light. */
const RESOLVED = 0.8;
/** What the model of a band leaves of a stretch's width, px. */
const MODEL_SD = 0.1;
/** The width counts as measured when the stretches together fix it to this share of the prior. */
const MEASURED_SHARE = 0.35;

/**
 * Paint width from all stretches of all sides (`open`: fitted with their widths free; `usual`: held near the usual width): width in px = width · across + extra + depth · rise, by least squares with priors. Whether it is paint or
 * string is told by the light that the line adds.
 */
export const estimatePaint = (usual: readonly BandBlock[], open: readonly BandBlock[]): PaintEstimate => {
  const blocks = open.filter((b) => PAINT_WIDTH_PRIOR.mean * b.across > RESOLVED);
  const string = isString(medianByLight(usual), blocks);
  const prior = string ? STRING_PRIOR : PAINT_WIDTH_PRIOR;
  const matrix = new Float64Array(9);
  const right = new Float64Array(3);
  const add = (a: readonly number[], value: number, sd: number): void => {
    for (let i = 0; i < 3; i++) {
      right[i] = right[i]! + (a[i]! * value) / sd ** 2;
      for (let j = 0; j <= i; j++) matrix[3 * i + j] = matrix[3 * i + j]! + (a[i]! * a[j]!) / sd ** 2;
    }
  };
  add([1, 0, 0], prior.mean, prior.sd);
  add([0, 1, 0], 0, EXTRA_SD);
  add([0, 0, 1], DEPTH_PRIOR.mean, DEPTH_PRIOR.sd);
  for (const b of blocks) add([b.across, 1, b.rise], b.width, Math.hypot(b.widthSd, MODEL_SD));
  if (!solveSmall(matrix, right, 3)) throw new Error('Expected finite widths of bands but received NaN');
  // `solveSmall` leaves the factor in `matrix`.
  const sd = Math.sqrt(inverseDiagonal(matrix, 3, 0));
  return {
    width: Math.max(0.001, right[0]!),
    sd,
    extra: right[1]!,
    depth: Math.max(0, right[2]!),
    measured: !string && sd < MEASURED_SHARE * PAINT_WIDTH_PRIOR.sd,
    string,
  };
};

/** Width of white (m) that would add the light of this stretch. */
export const widthByLight = (b: BandBlock): number =>
  (b.contrast * b.width) / (WHITENESS * Math.max(1e-3, b.grass)) / b.across;

/** Median of the widths by light; 0 without stretches. */
export const medianByLight = (blocks: readonly BandBlock[]): number => {
  const widths = blocks.map(widthByLight).sort((a, b) => a - b);
  return widths[widths.length >> 1] ?? 0;
};

/** Whether the lines are strings: the likelier of the two by the light they add and, where the picture is fine enough, by their width. */
const isString = (light: number, blocks: readonly BandBlock[]): boolean => {
  if (light === 0) return false;
  const byLight = Math.log(Math.max(1e-4, light));
  const fromString = byLight - Math.log(STRING_PRIOR.mean);
  const fromPaint = byLight - Math.log(PAINT_WIDTH_PRIOR.mean);
  const asString = (fromString / BY_LIGHT_SD.string) ** 2 + misfit(blocks, STRING_PRIOR);
  const asPaint =
    (fromPaint / (fromPaint < 0 ? BY_LIGHT_SD.worn : BY_LIGHT_SD.more)) ** 2 +
    misfit(blocks, PAINT_WIDTH_PRIOR);
  return asString < asPaint;
};

/** A stretch more than three standard deviations off is taken for spoilt. */
const SPOILT = 9;

/** Mean squared distance of the stretches' widths from those of such a line, in standard deviations; the mean, because what the stretches get wrong they share. */
const misfit = (
  blocks: readonly BandBlock[],
  line: { readonly mean: number; readonly sd: number },
): number => {
  const terms = blocks.map((b) => {
    const expected = line.mean * b.across + DEPTH_PRIOR.mean * b.rise;
    const sd = Math.hypot(b.widthSd, EXTRA_SD, line.sd * b.across);
    return Math.min(SPOILT, ((b.width - expected) / sd) ** 2);
  });
  return terms.length ? terms.reduce((sum, term) => sum + term, 0) / terms.length : 0;
};

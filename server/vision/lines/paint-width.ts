import type { BandBlock } from './band-blocks.ts';
import { PAINT_WIDTH_PRIOR, STRING_BELOW, STRING_PRIOR } from './paint.ts';
import { inverseDiagonal, solveSmall } from './solve-small.ts';

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

/** Prior of `extra`: blur in linear light is symmetric, what a phone's tone curve adds is a fraction of the blur. */
const EXTRA_SD = 0.15;
/** Prior of `depth`: lawns for this game are mown at 4 to 8 mm (common practice, no source), and half of that may show paint. */
const DEPTH_PRIOR = { mean: 0.002, sd: 0.003 } as const;
/**
 * White line paint is this many times as much brighter than grass as grass is bright (paint reflects 0.5 to 0.8, grass 0.1 to 0.25): so the
 * light that a band adds tells its width, however far away, to a factor of two or so; worn paint seems narrower.
 */
const WHITENESS = 2.5;
/** A line that adds less light than this width (m) of white would is a string: the geometric mean of a string's and a painted line's width. */
const STRING_BY_LIGHT = Math.sqrt(STRING_PRIOR.mean * PAINT_WIDTH_PRIOR.mean);
/** What the model of a band leaves of a stretch's width, px. */
const MODEL_SD = 0.1;
/** The width counts as measured when the stretches together fix it to this share of the prior. */
const MEASURED_SHARE = 0.5;

/**
 * Paint width from all stretches of all sides: width in px = width · across + extra + depth · rise, by least squares with priors. Whether it is paint or
 * string is told by the light that the line adds.
 */
export const estimatePaint = (blocks: readonly BandBlock[]): PaintEstimate => {
  const string = isString(blocks);
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

/** Whether the lines are strings: most stretches add too little light for paint, and those near enough to show a width show none. */
const isString = (blocks: readonly BandBlock[]): boolean => {
  if (blocks.length === 0) return false;
  const thin = blocks.filter((b) => widthByLight(b) < STRING_BY_LIGHT).length;
  const wide = blocks.some(
    (b) => b.width - 3 * Math.hypot(b.widthSd, MODEL_SD) > STRING_BELOW * b.across + EXTRA_SD,
  );
  return thin > blocks.length / 2 && !wide;
};

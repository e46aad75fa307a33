import { lawnCovariance } from './lawn-covariance.ts';
import type { SummedBand } from './reduce-band.ts';
import { type Symmetric3, squared } from './symmetric3.ts';

/**
 * Contrast of a ball-sized box against its surroundings, at the cells of a band. The difference of the means is divided by the mean
 * of the surroundings, so that a ball in shade counts as much as one in the sun (for any tone curve that is a power of the light), and is
 * judged against the covariance which the lawn itself shows at that size.
 */
export type ContrastMap = {
  /** Squared Mahalanobis contrast of each cell (columns × rows); 0 where it was not computed. */
  readonly scores: Float32Array;
  readonly columns: number;
  readonly rows: number;
  /** The cells that score enough, the first `count` of `high`. */
  readonly high: Int32Array;
  readonly count: number;
};

/** Arrays that one band after the other uses again. */
export type ContrastSpace = { scores: Float32Array; near: Int32Array; high: Int32Array };

/** Side of the inner box over the diameter: the square that gathers the most contrast of a disc per noise is about three quarters of it. */
const INNER = 0.75;
/** Side of the surroundings over the diameter: twelve times the inner box's area, so their own noise adds less than a tenth. */
const OUTER = 2.6;
/** Least mean level of the surroundings, in sixteenths of a grey level, so that deep shade does not divide by nothing. */
const FLOOR = 8 * 16;
/** Sides in cells of both boxes for a ball of `diameter` cells; both odd or both even, so that they share their centre. */
export const boxSides = (diameter: number): readonly [number, number] => {
  const inner = Math.max(2, Math.round(INNER * diameter));
  return [inner, inner + 2 * Math.max(1, Math.round((OUTER * diameter - inner) / 2))];
};

/** Where the boxes of one block's cells lie in the running sums, relative to the cell, and their areas' inverses. */
type Boxes = {
  readonly reach: number;
  readonly beyond: number;
  readonly offsets: Int32Array;
  readonly innerArea: number;
  readonly ringArea: number;
};

const boxesOf = (inner: number, outer: number, stride: number): Boxes => {
  const low = inner >> 1;
  const reach = low + ((outer - inner) >> 1);
  const corners = (start: number, side: number): number[] => [
    3 * start + stride * start,
    3 * (start + side) + stride * start,
    3 * start + stride * (start + side),
    3 * (start + side) + stride * (start + side),
  ];
  return {
    reach,
    beyond: outer - reach,
    offsets: Int32Array.from([...corners(-low, inner), ...corners(-reach, outer)]),
    innerArea: 1 / (inner * inner),
    ringArea: 1 / (outer * outer - inner * inner),
  };
};

/** Predicted diameters in cells, one for each block of `block` × `block` cells, row by row. */
export type BlockDiameters = {
  readonly block: number;
  readonly across: number;
  readonly values: Float32Array;
};

/** What a band is scored with: the boxes of its blocks, and the row spans. */
type Plan = {
  readonly band: SummedBand;
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly block: number;
  readonly across: number;
  readonly boxes: readonly Boxes[];
};

const planOf = (
  band: SummedBand,
  from: Int32Array,
  to: Int32Array,
  { block, across, values }: BlockDiameters,
): Plan => {
  const stride = (band.columns + 1) * 3;
  const known = new Map<number, Boxes>();
  const boxes: Boxes[] = [];
  for (const diameter of values) {
    const [inner, outer] = boxSides(diameter);
    const own = known.get(1e4 * inner + outer) ?? boxesOf(inner, outer, stride);
    known.set(1e4 * inner + outer, own);
    boxes.push(own);
  }
  return { band, from, to, block, across, boxes };
};

/**
 * Writes the relative contrasts (red, green, blue) of the cells `first`, `first` + `pace` … below `end` of row `j` into `out` from `at` on; returns where
 * they end. The boxes of all these cells lie inside the band.
 */
const contrastRun = (
  { columns, sums }: SummedBand,
  { offsets, innerArea, ringArea }: Boxes,
  j: number,
  first: number,
  end: number,
  pace: number,
  out: Float32Array,
  at: number,
): number => {
  const [a0, a1, a2, a3] = [offsets[0]!, offsets[1]!, offsets[2]!, offsets[3]!];
  const [b0, b1, b2, b3] = [offsets[4]!, offsets[5]!, offsets[6]!, offsets[7]!];
  const row = 3 * j * (columns + 1);
  let o = at;
  for (let i = first; i < end; i += pace)
    for (let p = row + 3 * i, stop = p + 3; p < stop; p++) {
      const box = sums[p + a3]! - sums[p + a2]! - sums[p + a1]! + sums[p + a0]!;
      const all = sums[p + b3]! - sums[p + b2]! - sums[p + b1]! + sums[p + b0]!;
      const ring = (all - box) * ringArea;
      out[o++] = (box * innerArea - ring) / Math.max(ring, FLOOR);
    }
  return o;
};

/** Runs of one row: the first cell and the one after the last of each. */
const runFirst = new Int32Array(512);
const runEnd = new Int32Array(512);
const runBoxes: Boxes[] = [];

/** Divides the cells of row `j`, `pace` apart, that have their boxes inside the band into runs that share their boxes; returns how many. */
const divideRow = ({ band, from, to, block, across, boxes }: Plan, j: number, pace: number): number => {
  let runs = 0;
  const blockRow = Math.floor(j / block) * across;
  const end = to[j]!;
  let i = Math.ceil(from[j]! / pace) * pace;
  while (i < end) {
    let k = Math.floor(i / block);
    const own = boxes[blockRow + k]!;
    while ((k + 1) * block < end && boxes[blockRow + k + 1] === own) k++;
    const next = Math.min(end, (k + 1) * block);
    const first = Math.max(i, Math.ceil(own.reach / pace) * pace);
    const last = Math.min(next, band.columns - own.beyond + 1);
    if (j >= own.reach && j + own.beyond <= band.rows && first < last) {
      runBoxes[runs] = own;
      runFirst[runs] = first;
      runEnd[runs++] = last;
    }
    i = Math.ceil(next / pace) * pace;
  }
  return runs;
};

/** Contrasts that are sampled for a band's covariance: enough to know it to 3 %. */
const SAMPLES = 2500;

/** The lawn's inverse covariance in this band; null without a cell. */
const bandCovariance = (plan: Plan): Symmetric3 | null => {
  const { rows, columns } = plan.band;
  const pace = Math.max(3, Math.ceil(Math.sqrt((rows * columns) / SAMPLES)));
  const samples = new Float32Array(3 * Math.ceil(rows / pace) * Math.ceil(columns / pace));
  let count = 0;
  for (let j = 1; j < rows; j += pace)
    for (let k = 0, runs = divideRow(plan, j, pace); k < runs; k++)
      count = contrastRun(plan.band, runBoxes[k]!, j, runFirst[k]!, runEnd[k]!, pace, samples, count);
  return count === 0 ? null : lawnCovariance(samples, count / 3);
};

/** Every PACE-th cell of every PACE-th row is scored first, then all neighbours of those that reach this share of the least score that is asked: a place between four cells scores at least this share in the best of them. */
const PACE = 2;
const COARSE_SHARE = 0.45;

/** An empty space for `contrastMap`. */
export const makeContrastSpace = (): ContrastSpace => ({
  scores: new Float32Array(0),
  near: new Int32Array(0),
  high: new Int32Array(0),
});

const clearSpace = (space: ContrastSpace, cells: number): void => {
  if (space.scores.length >= cells) space.scores.fill(0, 0, cells);
  else {
    space.scores = new Float32Array(cells);
    space.near = new Int32Array(cells);
    space.high = new Int32Array(cells);
  }
};

/**
 * The contrast map of `band`: for row j the cells from `from[j]` to `to[j]` (not included). Cells that score less than `least`, and have no
 * neighbour that scores near it, may be left 0. The map lies in `space` and lasts until that is used again.
 */
export const contrastMap = (
  band: SummedBand,
  from: Int32Array,
  to: Int32Array,
  diameters: BlockDiameters,
  least: number,
  space: ContrastSpace,
): ContrastMap => {
  const { columns, rows } = band;
  clearSpace(space, columns * rows);
  const { scores, near, high } = space;
  const plan = planOf(band, from, to, diameters);
  const inverse = bandCovariance(plan);
  if (inverse === null) return { scores, columns, rows, high, count: 0 };
  const run = new Float32Array(3 * columns);
  let nears = 0;
  let count = 0;
  for (let j = 0; j < rows; j += PACE)
    for (let k = 0, runs = divideRow(plan, j, PACE); k < runs; k++) {
      contrastRun(band, runBoxes[k]!, j, runFirst[k]!, runEnd[k]!, PACE, run, 0);
      for (let i = runFirst[k]!, o = 0; i < runEnd[k]!; i += PACE, o += 3) {
        const score = squared(inverse, run[o]!, run[o + 1]!, run[o + 2]!);
        scores[j * columns + i] = score;
        if (score >= COARSE_SHARE * least) near[nears++] = j * columns + i;
        if (score >= least) high[count++] = j * columns + i;
      }
    }
  for (let k = 0; k < nears; k++) count = scoreAround(plan, inverse, near[k]!, least, space, count);
  return { scores, columns, rows, high, count };
};

const one = new Float32Array(3);

/** Scores the neighbours of `cell` that have not been; returns how many cells are high then. */
const scoreAround = (
  { band, from, to, block, across, boxes }: Plan,
  inverse: Symmetric3,
  cell: number,
  least: number,
  { scores, high }: ContrastSpace,
  count: number,
): number => {
  const { columns, rows } = band;
  const column = cell % columns;
  const row = (cell - column) / columns;
  let highs = count;
  for (let j = Math.max(0, row - 1); j <= Math.min(rows - 1, row + 1); j++)
    for (let i = Math.max(from[j]!, column - 1); i <= Math.min(to[j]! - 1, column + 1); i++) {
      if (scores[j * columns + i] !== 0) continue;
      const own = boxes[Math.floor(j / block) * across + Math.floor(i / block)]!;
      if (i < own.reach || j < own.reach || i + own.beyond > columns || j + own.beyond > rows) continue;
      contrastRun(band, own, j, i, i + 1, 1, one, 0);
      const score = squared(inverse, one[0]!, one[1]!, one[2]!);
      scores[j * columns + i] = score;
      if (score >= least) high[highs++] = j * columns + i;
    }
  return highs;
};

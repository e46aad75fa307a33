import type { SummedBand } from './reduce-band.ts';

/**
 * Contrast of a ball-sized box against its surroundings, at every cell of a band. The difference of the means is divided by the mean
 * of the surroundings, so that a ball in shade counts as much as one in the sun (for any tone curve that is a power of the light), and is
 * judged against the covariance which the lawn itself shows at that size.
 */
export type ContrastMap = {
  /** Squared Mahalanobis contrast of each cell (columns × rows); 0 where it was not computed. */
  readonly scores: Float32Array;
  readonly columns: number;
  readonly rows: number;
};

/** Side of the inner box over the diameter: the square that gathers the most contrast of a disc per noise is about three quarters of it. */
const INNER = 0.75;
/** Side of the surroundings over the diameter: twelve times the inner box's area, so their own noise adds less than a tenth. */
const OUTER = 2.6;
/** Least mean level of the surroundings, in sixteenths of a grey level, so that deep shade does not divide by nothing. */
const FLOOR = 8 * 16;
/** 97 % point of χ² with 3 degrees of freedom (NIST/SEMATECH e-Handbook, 1.3.6.7.4, interpolated) and the share of the covariance left inside it. */
const TRIM = 8.95;
const TRIM_SHRINK = 0.915;
const TRIM_ROUNDS = 5;

/** Sides in cells of both boxes for a ball of `diameter` cells; both odd or both even, so that they share their centre. */
export const boxSides = (diameter: number): readonly [number, number] => {
  const inner = Math.max(2, Math.round(INNER * diameter));
  return [inner, inner + 2 * Math.max(1, Math.round((OUTER * diameter - inner) / 2))];
};

const contrast = new Float64Array(3);

/** Puts the relative contrast of the box centred on cell corner or middle (i, j) into `contrast`; false when the surroundings leave the band. */
const contrastAt = (band: SummedBand, i: number, j: number, inner: number, outer: number): boolean => {
  const low = inner >> 1;
  const reach = low + ((outer - inner) >> 1);
  const x0 = i - reach;
  const y0 = j - reach;
  const x1 = x0 + outer;
  const y1 = y0 + outer;
  if (x0 < 0 || y0 < 0 || x1 > band.columns || y1 > band.rows) return false;
  const stride = (band.columns + 1) * 3;
  const { sums } = band;
  const u0 = (i - low) * 3;
  const u1 = u0 + inner * 3;
  const v0 = (j - low) * stride;
  const v1 = v0 + inner * stride;
  const p0 = y0 * stride + x0 * 3;
  const p1 = y0 * stride + x1 * 3;
  const p2 = y1 * stride + x0 * 3;
  const p3 = y1 * stride + x1 * 3;
  const innerArea = 1 / (inner * inner);
  const ringArea = 1 / (outer * outer - inner * inner);
  for (let c = 0; c < 3; c++) {
    const box =
      (sums[v1 + u1 + c] as number) -
      (sums[v1 + u0 + c] as number) -
      (sums[v0 + u1 + c] as number) +
      (sums[v0 + u0 + c] as number);
    const all =
      (sums[p3 + c] as number) -
      (sums[p2 + c] as number) -
      (sums[p1 + c] as number) +
      (sums[p0 + c] as number);
    const ring = (all - box) * ringArea;
    contrast[c] = (box * innerArea - ring) / Math.max(ring, FLOOR);
  }
  return true;
};

/** Rows of the inverse covariance: xx, xy, xz, yy, yz, zz. */
type Inverse3 = Float64Array<ArrayBuffer>;

const invert = (m: Float64Array): Inverse3 => {
  const [a, b, c, d, e, f] = m as unknown as [number, number, number, number, number, number];
  const det = a * (d * f - e * e) - b * (b * f - c * e) + c * (b * e - c * d);
  return Float64Array.of(
    (d * f - e * e) / det,
    (c * e - b * f) / det,
    (b * e - c * d) / det,
    (a * f - c * c) / det,
    (b * c - a * e) / det,
    (a * d - b * b) / det,
  );
};

const squared = (n: Inverse3, x: number, y: number, z: number): number =>
  x * x * (n[0] as number) +
  y * y * (n[3] as number) +
  z * z * (n[5] as number) +
  2 * (x * y * (n[1] as number) + x * z * (n[2] as number) + y * z * (n[4] as number));

/** Covariance of the `count` contrasts in `samples` that belong to the lawn, found by trimming; returned inverted. */
const lawnCovariance = (samples: Float32Array, count: number): Inverse3 => {
  let inverse = Float64Array.of(1e-9, 0, 0, 1e-9, 0, 1e-9);
  // The first round starts from the medians' spread, which half of all samples cannot move.
  for (let c = 0; c < 3; c++) {
    const sizes = new Float32Array(count);
    for (let i = 0; i < count; i++) sizes[i] = Math.abs(samples[3 * i + c] as number);
    sizes.sort();
    const sd = 1.4826 * (sizes[count >> 1] ?? 1) + 1e-4;
    inverse[[0, 3, 5][c] as number] = 1 / (sd * sd);
  }
  const m = new Float64Array(6);
  for (let round = 0; round < TRIM_ROUNDS; round++) {
    m.fill(0);
    let kept = 0;
    for (let i = 0; i < 3 * count; i += 3) {
      const x = samples[i] as number;
      const y = samples[i + 1] as number;
      const z = samples[i + 2] as number;
      if (squared(inverse, x, y, z) > TRIM) continue;
      kept++;
      m[0] = (m[0] as number) + x * x;
      m[1] = (m[1] as number) + x * y;
      m[2] = (m[2] as number) + x * z;
      m[3] = (m[3] as number) + y * y;
      m[4] = (m[4] as number) + y * z;
      m[5] = (m[5] as number) + z * z;
    }
    if (kept < 30) break;
    for (let k = 0; k < 6; k++) m[k] = (m[k] as number) / (kept * TRIM_SHRINK);
    // One grey level of rounding keeps the inverse finite on a lawn without texture.
    for (const k of [0, 3, 5]) m[k] = (m[k] as number) + 1e-6;
    inverse = invert(m);
  }
  return inverse;
};

/**
 * The contrast map of `band`: for row j the cells from `from[j]` to `to[j]` (not included); `diameters` is the ball's diameter in cells
 * at each of the band's column blocks of `block` cells, row by row of `block` rows.
 */
export const contrastMap = (
  band: SummedBand,
  from: Int32Array,
  to: Int32Array,
  diameterOf: (column: number, row: number) => number,
  block: number,
): ContrastMap => {
  const { columns, rows } = band;
  const scores = new Float32Array(columns * rows);
  const samples = new Float32Array(3 * Math.ceil((columns * rows) / 9 + columns + rows));
  let count = 0;
  const sides = blockSides(band, diameterOf, block);
  const across = Math.ceil(columns / block);
  for (let j = 1; j < rows; j += 3) {
    for (let i = from[j] as number; i < (to[j] as number); i += 3) {
      const b = 2 * (((j / block) | 0) * across + ((i / block) | 0));
      if (!contrastAt(band, i, j, sides[b] as number, sides[b + 1] as number)) continue;
      samples[count++] = contrast[0] as number;
      samples[count++] = contrast[1] as number;
      samples[count++] = contrast[2] as number;
    }
  }
  if (count === 0) return { scores, columns, rows };
  const inverse = lawnCovariance(samples, count / 3);
  for (let j = 0; j < rows; j++)
    scoreRow(band, j, from[j] as number, to[j] as number, sides, across, block, inverse, scores);
  return { scores, columns, rows };
};

const blockSides = (
  band: SummedBand,
  diameterOf: (column: number, row: number) => number,
  block: number,
): Uint16Array => {
  const across = Math.ceil(band.columns / block);
  const down = Math.ceil(band.rows / block);
  const sides = new Uint16Array(2 * across * down);
  for (let j = 0; j < down; j++)
    for (let i = 0; i < across; i++)
      sides.set(boxSides(diameterOf((i + 0.5) * block, (j + 0.5) * block)), 2 * (j * across + i));
  return sides;
};

const scoreRow = (
  band: SummedBand,
  j: number,
  from: number,
  to: number,
  sides: Uint16Array,
  across: number,
  block: number,
  inverse: Inverse3,
  scores: Float32Array,
): void => {
  const blockRow = ((j / block) | 0) * across;
  for (let i = from; i < to; i++) {
    const b = 2 * (blockRow + ((i / block) | 0));
    if (contrastAt(band, i, j, sides[b] as number, sides[b + 1] as number))
      scores[j * band.columns + i] = squared(
        inverse,
        contrast[0] as number,
        contrast[1] as number,
        contrast[2] as number,
      );
  }
};

import { type Court, outwardNormal, SIDES, sideEnds } from '../lawn/court.ts';
import { metres } from '../units/numbers.ts';
import { PROJECTION, PROJECTION_LENGTH, pointAtHeight, projectInto } from './camera-model.ts';
import type { GroundKnots } from './ground-knots.ts';
import type { NormalEquations } from './normal-equations.ts';
import { CAMERA_PARAMETERS, type Camera, type LineSample } from './types.ts';

/** Unknowns after the camera's nine: the four sides' shifts outwards, then the heights of the knots. */
export const SHIFTS = CAMERA_PARAMETERS;
export const HEIGHTS = SHIFTS + SIDES.length;

/** Standard deviations (m) by which the unknowns beside the camera are scaled: a side's shift from its place, a knot's height. */
export type GroundSd = { readonly shift: number; readonly height: number };

/** Samples as columns, with the place of the lawn each belongs to and its robust weight. */
export type SampleColumns = {
  readonly count: number;
  readonly samples: readonly LineSample[];
  readonly side: Uint8Array;
  readonly footX: Float64Array;
  readonly footY: Float64Array;
  /** The knots before and after the foot, and how far the foot is towards the later one. */
  readonly before: Uint16Array;
  readonly after: Uint16Array;
  readonly share: Float64Array;
  /** Robust weight over variance, 1/px². */
  readonly weight: Float64Array;
  /** Last residual in px: signed distance along the sample's normal from the sample to the edge. */
  readonly residual: Float64Array;
};

const sideOf = ({ side }: LineSample): number => SIDES.indexOf(side);
const weightOf = ({ sd }: LineSample): number => 1 / sd ** 2;

/** Columns for `samples`, without feet, with weight 1/sd². */
export const sampleColumns = (samples: readonly LineSample[]): SampleColumns => {
  const count = samples.length;
  return {
    count,
    samples,
    side: Uint8Array.from(samples, sideOf),
    footX: new Float64Array(count),
    footY: new Float64Array(count),
    before: new Uint16Array(count),
    after: new Uint16Array(count),
    share: new Float64Array(count),
    weight: Float64Array.from(samples, weightOf),
    residual: new Float64Array(count),
  };
};

/** The same columns with each sample's foot, the place of its boundary nearest to where `camera` sees the sample. A sample above the horizon gets the far end. */
export const placeFeet = (
  columns: SampleColumns,
  camera: Camera,
  court: Court,
  knots: GroundKnots,
): SampleColumns => {
  const placed = sampleColumns(columns.samples);
  for (let i = 0; i < columns.count; i++) {
    const sample = columns.samples[i]!;
    const [a, b] = sideEnds(court, sample.side);
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const at = pointAtHeight(camera, sample.image, metres(0)) ?? b;
    const along = ((at.x - a.x) * (b.x - a.x) + (at.y - a.y) * (b.y - a.y)) / length ** 2;
    const t = Math.min(1.02, Math.max(-0.02, along));
    placed.footX[i] = a.x + t * (b.x - a.x);
    placed.footY[i] = a.y + t * (b.y - a.y);
    const row = knots.along[sample.side];
    const position = Math.min(1, Math.max(0, t)) * (row.length - 1);
    const first = Math.min(row.length - 2, Math.floor(position));
    placed.before[i] = row[first]!;
    placed.after[i] = row[first + 1]!;
    placed.share[i] = position - first;
  }
  return placed;
};

/** Unit vectors along and out of each side, in the order of SIDES. */
const AXES = SIDES.map((side) => {
  const [x, y] = outwardNormal(side);
  return { outX: x, outY: y, alongX: Math.abs(y), alongY: Math.abs(x) };
});

/** The samples' residuals in units of `scatter` times their own standard deviations. */
export const standardized = ({ residual, samples }: SampleColumns, scatter = 1): Float64Array => {
  const values = new Float64Array(residual.length);
  for (let i = 0; i < values.length; i++) values[i] = residual[i]! / (scatter * samples[i]!.sd);
  return values;
};

/** An edge seen at less than this angle's sine to the sample's normal tells nothing across it. */
const GRAZING = 0.3;

const projection = new Float64Array(PROJECTION_LENGTH);
const row = new Float64Array(CAMERA_PARAMETERS + 3);
const index = Uint16Array.from({ length: CAMERA_PARAMETERS + 3 }, (_, i) => i);
/** Where the ground's unknowns begin in `row` and `index`. */
const SHIFT_AT = CAMERA_PARAMETERS;

/** Residual (px) of sample `i` with `row` and `index` filled; NaN when its foot is not seen or the edge grazes its normal. */
const measure = (
  camera: Camera,
  ground: Float64Array,
  columns: SampleColumns,
  i: number,
  sd: GroundSd,
): number => {
  if (!sampleRow(camera, columns, i, sd)) return Number.NaN;
  index[SHIFT_AT] = SHIFTS + columns.side[i]!;
  index[SHIFT_AT + 1] = HEIGHTS + columns.before[i]!;
  index[SHIFT_AT + 2] = HEIGHTS + columns.after[i]!;
  let value = levelValue(columns, i);
  for (let k = SHIFT_AT; k < row.length; k++) value += row[k]! * ground[index[k]! - SHIFTS]!;
  return value;
};

/** Writes every sample's residual into `columns.residual`. `ground` holds shifts then heights in units of their standard deviations. */
export const measureSamples = (
  camera: Camera,
  ground: Float64Array,
  columns: SampleColumns,
  sd: GroundSd,
): void => {
  for (let i = 0; i < columns.count; i++) columns.residual[i] = measure(camera, ground, columns, i, sd);
};

/**
 * Adds the samples to the normal equations over camera, shifts and heights (`ground` holds shifts then heights in units of their standard
 * deviations), and keeps their residuals. With q the image of the foot and t the edge's direction there, the edge cuts the sample's normal n
 * through m at the distance a = (q − m) × t / (n × t), and so does every derivative of q: moving the foot along the edge changes nothing
 * to first order.
 */
export const addSamples = (
  camera: Camera,
  ground: Float64Array,
  columns: SampleColumns,
  sd: GroundSd,
  equations: NormalEquations,
): void => {
  for (let i = 0; i < columns.count; i++) {
    const value = measure(camera, ground, columns, i, sd);
    columns.residual[i] = value;
    const weight = columns.weight[i]!;
    if (weight > 0 && !Number.isNaN(value)) addSparse(equations, -value, weight);
  }
};

/** The edge's direction in the picture (x, y) and the sine of its angle to the sample's normal, as `sampleRow` left them. */
const edge = new Float64Array(3);

/** Fills `row` for one sample; false when its foot is not seen or the edge runs along the sample's normal. */
const sampleRow = (camera: Camera, columns: SampleColumns, i: number, sd: GroundSd): boolean => {
  if (!projectInto(camera, columns.footX[i]!, columns.footY[i]!, 0, projection)) return false;
  const axes = AXES[columns.side[i]!]!;
  const { xByPoint, yByPoint, xBy, yBy } = PROJECTION;
  const alongX = projection[xByPoint]! * axes.alongX + projection[xByPoint + 1]! * axes.alongY;
  const alongY = projection[yByPoint]! * axes.alongX + projection[yByPoint + 1]! * axes.alongY;
  const length = Math.sqrt(alongX * alongX + alongY * alongY);
  const { normal } = columns.samples[i]!;
  const crossing = (normal[0] * alongY - normal[1] * alongX) / length;
  if (Math.abs(crossing) < GRAZING) return false;
  edge[0] = alongX / length;
  edge[1] = alongY / length;
  edge[2] = crossing;
  const fx = edge[1]! / crossing;
  const fy = -edge[0]! / crossing;
  for (let k = 0; k < CAMERA_PARAMETERS; k++) row[k] = fx * projection[xBy + k]! + fy * projection[yBy + k]!;
  const outX = projection[xByPoint]! * axes.outX + projection[xByPoint + 1]! * axes.outY;
  const outY = projection[yByPoint]! * axes.outX + projection[yByPoint + 1]! * axes.outY;
  row[9] = sd.shift * (fx * outX + fy * outY);
  const height = sd.height * (fx * projection[xByPoint + 2]! + fy * projection[yByPoint + 2]!);
  row[10] = height * (1 - columns.share[i]!);
  row[11] = height * columns.share[i]!;
  return true;
};

/** Distance along the normal from the sample to the edge on level, true ground. */
const levelValue = (columns: SampleColumns, i: number): number => {
  const { image } = columns.samples[i]!;
  return ((projection[0]! - image.x) * edge[1]! - (projection[1]! - image.y) * edge[0]!) / edge[2]!;
};

/**
 * Adds `row` at the unknowns `index` to the lower triangle. The camera's come first and are dense; the three of the ground follow, of which the later
 * knot may have the smaller index (corners are shared).
 */
const addSparse = (equations: NormalEquations, residual: number, weight: number): void => {
  const size = equations.size;
  const matrix = equations.matrix;
  const right = equations.right;
  for (let a = 0; a < row.length; a++) {
    const i = index[a]!;
    const scaled = weight * row[a]!;
    right[i]! += scaled * residual;
    const dense = Math.min(a + 1, SHIFT_AT);
    for (let b = 0; b < dense; b++) matrix[i * size + b]! += scaled * row[b]!;
    for (let b = SHIFT_AT; b <= a; b++) {
      const j = index[b]!;
      matrix[i >= j ? i * size + j : j * size + i]! += scaled * row[b]!;
    }
  }
  equations.cost += weight * residual * residual;
};

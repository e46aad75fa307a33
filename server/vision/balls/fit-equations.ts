import type { FitWorkspace } from './fit-workspace.ts';
import { SHAPE } from './fit-workspace.ts';
import { cellVariances } from './noise-model.ts';
import { blurs, type OutlineFit, type Shape } from './outline-shape.ts';
import type { Patch } from './patch.ts';
import { BALL_COLOUR_COLUMNS, BALL_COLUMNS, COLUMNS, LAWN_COLOUR_END, LOGISTIC } from './shading.ts';

const col = new Float64Array(COLUMNS);
const slope = new Float64Array(SHAPE);
const variances = new Float64Array(4);
/** Coverage this near to none or all is taken as none or all: the columns of the other part, and the slopes, vanish there. */
const FLAT = 0.01;
/** The columns in use for luma, and for colour. */
const LUMA_COLUMNS = Uint8Array.from({ length: COLUMNS }, (_, k) => k);
const COLOUR_COLUMNS = LUMA_COLUMNS.filter(
  (k) => k < BALL_COLOUR_COLUMNS || (k >= BALL_COLUMNS && k < LAWN_COLOUR_END),
);

/** Adds the cell whose base values start at `o` to columns `first`–`last` alone: it shows nothing but ball or nothing but lawn. */
const addFlat = (
  into: Float64Array | null,
  rhs: Float64Array,
  base: Float64Array,
  o: number,
  first: number,
  last: number,
  precision: number,
  value: number,
): void => {
  for (let a = first; a < last; a++) {
    const pa = precision * base[o + a]!;
    rhs[a] = rhs[a]! + pa * value;
    if (into === null) continue;
    const row = a * COLUMNS;
    for (let b = first; b <= a; b++) into[row + b] = into[row + b]! + pa * base[o + b]!;
  }
};

/** Adds a cell on the outline, whose columns are in `col` and slopes in `slope`. */
const addEdge = (
  into: Float64Array | null,
  rhs: Float64Array,
  space: FitWorkspace,
  used: Uint8Array,
  precision: number,
  value: number,
): void => {
  const [s0, s1, s2, s3, s4] = [slope[0]!, slope[1]!, slope[2]!, slope[3]!, slope[4]!];
  for (let i = 0; i < used.length; i++) {
    const a = used[i]!;
    const pa = precision * col[a]!;
    rhs[a] = rhs[a]! + pa * value;
    rhs[COLUMNS + a] = rhs[COLUMNS + a]! + pa * s0;
    rhs[2 * COLUMNS + a] = rhs[2 * COLUMNS + a]! + pa * s1;
    rhs[3 * COLUMNS + a] = rhs[3 * COLUMNS + a]! + pa * s2;
    rhs[4 * COLUMNS + a] = rhs[4 * COLUMNS + a]! + pa * s3;
    rhs[5 * COLUMNS + a] = rhs[5 * COLUMNS + a]! + pa * s4;
    if (into === null) continue;
    const row = a * COLUMNS;
    for (let j = 0; j <= i; j++) {
      const b = used[j]!;
      into[row + b] = into[row + b]! + pa * col[b]!;
    }
  }
  const { shape, shapeRhs } = space;
  for (let a = 0; a < SHAPE; a++) {
    const pa = precision * slope[a]!;
    shapeRhs[a] = shapeRhs[a]! + pa * value;
    for (let b = 0; b <= a; b++) shape[a * SHAPE + b] = shape[a * SHAPE + b]! + pa * slope[b]!;
  }
};
/** Puts the columns of a cell covered `w` into `col`. */
const setColumns = (base: Float64Array, o: number, w: number): void => {
  for (let k = 0; k < BALL_COLUMNS; k++) col[k] = w * base[o + k]!;
  for (let k = BALL_COLUMNS; k < COLUMNS; k++) col[k] = (1 - w) * base[o + k]!;
};

/** Slopes of one cell's value by the shape, for a step of height `contrast` between ball and lawn. */
const setSlopes = (
  space: FitWorkspace,
  i: number,
  w: number,
  blur: number,
  contrast: number,
  lumaPart: number,
  colourPart: number,
): void => {
  const p = ((contrast * LOGISTIC) / blur) * w * (1 - w);
  slope[0] = p * space.normalX[i]!;
  slope[1] = p * space.normalY[i]!;
  slope[2] = p;
  const byBlur = (p * space.distance[i]!) / (blur * blur);
  slope[3] = byBlur * lumaPart;
  slope[4] = byBlur * colourPart;
};

/** Normal equations of all cells of `patch`, for the outline `shape` and the appearance in `fit`, into the workspace. */
export const accumulate = (patch: Patch, shape: Shape, fit: OutlineFit, space: FitWorkspace): void => {
  for (const a of [space.luma, space.colour, ...space.rhs, space.shape, space.shapeRhs]) a.fill(0);
  const [blurY, blurC] = blurs(patch, shape);
  const { weight, precision, precisionColour } = space;
  for (let i = 0; i < patch.count; i++) {
    cellVariances(patch, space, i, fit, blurC, variances);
    precision[i] = weight[i]! / variances[0]!;
    precisionColour[i] = weight[i]! / variances[1]!;
  }
  const lumaPart = Math.exp(2 * shape.lnBlur);
  accumulateLuma(patch, blurY, lumaPart, space);
  accumulateColour(patch, blurC, lumaPart, Math.exp(2 * shape.lnColour), space);
};

const accumulateLuma = (patch: Patch, blur: number, lumaPart: number, space: FitWorkspace): void => {
  const { luma, rhs, cover, contrast, precision, base } = space;
  for (let i = 0; i < patch.count; i++) {
    const w = cover[i]!;
    const p = precision[i]!;
    const value = patch.values[3 * i]!;
    const o = i * COLUMNS;
    if (w < FLAT) addFlat(luma, rhs[0], base, o, BALL_COLUMNS, COLUMNS, p, value);
    else if (w > 1 - FLAT) addFlat(luma, rhs[0], base, o, 0, BALL_COLUMNS, p, value);
    else {
      setColumns(base, o, w);
      setSlopes(space, i, w, blur, contrast[3 * i]!, lumaPart, 0);
      addEdge(luma, rhs[0], space, LUMA_COLUMNS, p, value);
    }
  }
};

const accumulateColour = (
  patch: Patch,
  blur: number,
  lumaPart: number,
  colourPart: number,
  space: FitWorkspace,
): void => {
  const { colour, rhs, coverColour, contrast, precisionColour, base } = space;
  for (let i = 0; i < patch.count; i++) {
    const w = coverColour[i]!;
    const p = precisionColour[i]!;
    const cb = patch.values[3 * i + 1]!;
    const cr = patch.values[3 * i + 2]!;
    const o = i * COLUMNS;
    if (w < FLAT || w > 1 - FLAT) {
      const first = w < FLAT ? BALL_COLUMNS : 0;
      const last = w < FLAT ? LAWN_COLOUR_END : BALL_COLOUR_COLUMNS;
      addFlat(colour, rhs[1], base, o, first, last, p, cb);
      addFlat(null, rhs[2], base, o, first, last, p, cr);
      continue;
    }
    setColumns(base, o, w);
    setSlopes(space, i, w, blur, contrast[3 * i + 1]!, lumaPart, colourPart);
    addEdge(colour, rhs[1], space, COLOUR_COLUMNS, p, cb);
    setSlopes(space, i, w, blur, contrast[3 * i + 2]!, lumaPart, colourPart);
    addEdge(null, rhs[2], space, COLOUR_COLUMNS, p, cr);
  }
};

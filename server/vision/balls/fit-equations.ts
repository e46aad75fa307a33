import type { FitWorkspace } from './fit-workspace.ts';
import { MOST_ROWS, SHAPE } from './fit-workspace.ts';
import { cellVariances } from './noise-model.ts';
import { blurs, type OutlineFit, type Shape } from './outline-shape.ts';
import type { Patch } from './patch.ts';
import { rowProducts } from './row-products.ts';
import { BALL_COLUMNS, COLUMNS, LOGISTIC, USED_COLUMNS } from './shading.ts';

/** Rows of the design for the columns in `used`: the base values, times the share of the cell that ball or lawn has. */
const setColumns = (space: FitWorkspace, used: Uint8Array, cover: Float64Array, count: number): void => {
  const { base, design, capacity } = space;
  for (let a = 0; a < used.length; a++) {
    const k = used[a]!;
    const from = k * capacity;
    const to = a * capacity;
    if (k < BALL_COLUMNS) for (let i = 0; i < count; i++) design[to + i] = cover[i]! * base[from + i]!;
    else for (let i = 0; i < count; i++) design[to + i] = (1 - cover[i]!) * base[from + i]!;
  }
};

/** Rows from `row` on: slopes of the cells' values in channel `c` by the shape, for a step of the workspace's contrast; then the values. */
const setSlopes = (
  patch: Patch,
  space: FitWorkspace,
  row: number,
  c: number,
  cover: Float64Array,
  blur: number,
  lumaPart: number,
  colourPart: number,
): void => {
  const { design, capacity, contrast, bend, normalX, normalY, distance } = space;
  const [r0, r1, r2, r3, r4, r5] = [0, 1, 2, 3, 4, 5].map((k) => (row + k) * capacity) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const steep = LOGISTIC / blur;
  const square = 1 / (blur * blur);
  for (let i = 0; i < patch.count; i++) {
    const w = cover[i]!;
    const p = contrast[3 * i + c]! * steep * w * (1 - w);
    design[r0 + i] = p * normalX[i]!;
    design[r1 + i] = p * normalY[i]!;
    design[r2 + i] = p;
    const byBlur = p * distance[i]! * square;
    design[r3 + i] = byBlur * lumaPart;
    design[r4 + i] = byBlur * colourPart;
    design[r5 + i] = patch.values[3 * i + c]! - bend[3 * i + c]!;
  }
};

/** Robust weight over variance of every cell, into the workspace's scratch. */
const setPrecisions = ({ weight, scratch }: FitWorkspace, variance: Float64Array, count: number): void => {
  for (let i = 0; i < count; i++) scratch[i] = weight[i]! / variance[i]!;
};

/** Weighs the design's rows `from`–`rows` (not included) by the precisions in scratch, and multiplies them with all before them. */
const multiply = (space: FitWorkspace, from: number, rows: number, count: number): void => {
  const { design, weighted, scratch, capacity } = space;
  for (let r = from; r < rows; r++)
    for (let o = r * capacity, i = 0; i < count; i++, o++) weighted[o] = design[o]! * scratch[i]!;
  rowProducts(design, weighted, capacity, from, rows, count, space.products, MOST_ROWS);
};

/** Takes the products of the rows of channel `c` apart: into the columns' normal matrix (unless null), right-hand sides and the shape's own equations. */
const spread = (space: FitWorkspace, used: Uint8Array, c: 0 | 1 | 2, into: Float64Array | null): void => {
  const { products, shape, shapeRhs } = space;
  const rhs = space.rhs[c];
  const n = used.length;
  const values = (n + SHAPE) * MOST_ROWS;
  for (let a = 0; a < n; a++) {
    rhs[used[a]!] = products[values + a]!;
    for (let g = 0; g < SHAPE; g++) rhs[(g + 1) * COLUMNS + used[a]!] = products[(n + g) * MOST_ROWS + a]!;
    if (into === null) continue;
    for (let b = 0; b <= a; b++) into[used[a]! * COLUMNS + used[b]!] = products[a * MOST_ROWS + b]!;
  }
  for (let a = 0; a < SHAPE; a++) {
    shapeRhs[a] = shapeRhs[a]! + products[values + n + a]!;
    for (let b = 0; b <= a; b++)
      shape[a * SHAPE + b] = shape[a * SHAPE + b]! + products[(n + a) * MOST_ROWS + n + b]!;
  }
};

/** Normal equations of all cells of `patch`, for the outline `shape` and the appearance in `fit`, into the workspace. */
export const accumulate = (
  patch: Patch,
  shape: Shape,
  fit: OutlineFit,
  sunny: boolean,
  space: FitWorkspace,
): void => {
  for (const a of [space.luma, space.colour, ...space.rhs, space.shape, space.shapeRhs]) a.fill(0);
  const [blurY, blurC] = blurs(patch, shape);
  const lumaPart = Math.exp(2 * shape.lnBlur);
  const colourPart = Math.exp(2 * shape.lnColour);
  const { luma, colour } = sunny ? USED_COLUMNS.sunny : USED_COLUMNS.shaded;
  cellVariances(patch, space, fit, blurC);
  setColumns(space, luma, space.cover, patch.count);
  setSlopes(patch, space, luma.length, 0, space.cover, blurY, lumaPart, 0);
  setPrecisions(space, space.shared, patch.count);
  multiply(space, 0, luma.length + SHAPE + 1, patch.count);
  spread(space, luma, 0, space.luma);
  setColumns(space, colour, space.coverColour, patch.count);
  setPrecisions(space, space.sharedColour, patch.count);
  for (const c of [1, 2] as const) {
    setSlopes(patch, space, colour.length, c, space.coverColour, blurC, lumaPart, colourPart);
    // The columns are the same for both colours, so are their products.
    multiply(space, c === 1 ? 0 : colour.length, colour.length + SHAPE + 1, patch.count);
    spread(space, colour, c, c === 1 ? space.colour : null);
  }
};

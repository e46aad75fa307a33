import { COLUMNS } from './shading.ts';

/** Unknowns of the outline that all three channels share: place (x, y), radius, ln of the blur, ln of the colours' extra blur. */
export const SHAPE = 5;

/** Arrays that one fit after the other uses again, so that nothing is allocated for a candidate. */
export type FitWorkspace = {
  capacity: number;
  /** Base values, column by column: column k of cell i is at k · capacity + i. */
  base: Float64Array;
  /** Rows of the linearized model (columns covered or not, slopes by the shape, the picture's values), row by row as `base`; and the same weighted. */
  design: Float64Array;
  weighted: Float64Array;
  /** Share of the cell that the ball covers: in luma, in colour. */
  cover: Float64Array;
  coverColour: Float64Array;
  /** Signed distance to the outline (px, inside negative) and its direction. */
  distance: Float64Array;
  normalX: Float64Array;
  normalY: Float64Array;
  /** Error of an edge's model along the lowest arc, shares of the contrast, squared. */
  foot: Float64Array;
  /** Shares of sky and sun that the ball hides from the lawn, together. */
  dark: Float64Array;
  /** Variances of luma and of colour, single cell, and with shared noise counted in. */
  variance: Float64Array;
  varianceColour: Float64Array;
  shared: Float64Array;
  sharedColour: Float64Array;
  /** Robust weight and residuals (3 a cell). */
  weight: Float64Array;
  residual: Float64Array;
  /** What ball and lawn would each show in every cell: their difference, 3 a cell. */
  contrast: Float64Array;
  /** What the lawn alone would show in every cell, 3 a cell. */
  ground: Float64Array;
  /** What the tone curve adds to every cell that ball and lawn share, 3 a cell. */
  bend: Float64Array;
  /** Distance from the middle in radii, and the place in it (down, side). */
  rho: Float64Array;
  down: Float64Array;
  side: Float64Array;
  scratch: Float64Array;
  /** What ball and lawn would show in every cell in one channel. */
  ballOnly: Float64Array;
  lawnOnly: Float64Array;
  /** Products of the design's rows, MOST_ROWS each. */
  readonly products: Float64Array;
  /** Normal matrices of luma and colour, right-hand sides of the three channels with their couplings to the shape, the shape's own. */
  readonly luma: Float64Array;
  readonly colour: Float64Array;
  readonly rhs: readonly [Float64Array, Float64Array, Float64Array];
  readonly raw: Float64Array;
  readonly shape: Float64Array;
  readonly shapeRhs: Float64Array;
};

/** Rows of the design: all columns, the slopes, the values. */
export const MOST_ROWS = COLUMNS + SHAPE + 1;

const matrix = (): Float64Array => new Float64Array(COLUMNS * COLUMNS);
const columns = (): Float64Array => new Float64Array(COLUMNS * (1 + SHAPE));

/** An empty workspace. */
export const makeWorkspace = (): FitWorkspace => ({
  capacity: 0,
  ...cells(0),
  products: new Float64Array(MOST_ROWS * MOST_ROWS),
  luma: matrix(),
  colour: matrix(),
  rhs: [columns(), columns(), columns()],
  raw: columns(),
  shape: new Float64Array(SHAPE * SHAPE),
  shapeRhs: new Float64Array(SHAPE),
});

const cells = (n: number) => ({
  base: new Float64Array(n * COLUMNS),
  cover: new Float64Array(n),
  coverColour: new Float64Array(n),
  distance: new Float64Array(n),
  normalX: new Float64Array(n),
  normalY: new Float64Array(n),
  foot: new Float64Array(n),
  dark: new Float64Array(n),
  variance: new Float64Array(n),
  varianceColour: new Float64Array(n),
  shared: new Float64Array(n),
  sharedColour: new Float64Array(n),
  ballOnly: new Float64Array(n),
  lawnOnly: new Float64Array(n),
  design: new Float64Array(n * MOST_ROWS),
  weighted: new Float64Array(n * MOST_ROWS),
  weight: new Float64Array(n),
  residual: new Float64Array(3 * n),
  contrast: new Float64Array(3 * n),
  ground: new Float64Array(3 * n),
  bend: new Float64Array(3 * n),
  rho: new Float64Array(n),
  down: new Float64Array(n),
  side: new Float64Array(n),
  scratch: new Float64Array(n),
});

/** Makes room for `count` cells. */
export const reserve = (space: FitWorkspace, count: number): void => {
  if (space.capacity >= count) return;
  Object.assign(space, cells(Math.ceil(count * 1.3)));
  space.capacity = Math.ceil(count * 1.3);
};

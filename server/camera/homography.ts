import { Matrix, SingularValueDecomposition } from 'ml-matrix';

/** A pair of plane points in correspondence. */
export type PlanePair = {
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
};

/** Moves points to their centroid and scales their mean distance to √2 (R. Hartley, "In defense of the eight-point algorithm", 1997). */
const normalising = (
  points: readonly { readonly x: number; readonly y: number }[],
): [number, number, number] => {
  const n = points.length;
  const cx = points.reduce((sum, p) => sum + p.x, 0) / n;
  const cy = points.reduce((sum, p) => sum + p.y, 0) / n;
  const spread = points.reduce((sum, p) => sum + Math.hypot(p.x - cx, p.y - cy), 0) / n;
  return [cx, cy, Math.SQRT2 / spread];
};

/**
 * The plane homography H (3 × 3, row by row, to ~ H from) of four or more pairs, by the normalised direct linear transform: exact for
 * four, least algebraic error for more. Scaled to unit norm. Undefined (not refused here) when no four points have no three in line.
 */
export const homography = (pairs: readonly PlanePair[]): number[] => {
  const [ax, ay, as] = normalising(pairs.map((pair) => pair.from));
  const [bx, by, bs] = normalising(pairs.map((pair) => pair.to));
  const rows = pairs.flatMap(({ from, to }) => {
    const x = (from.x - ax) * as;
    const y = (from.y - ay) * as;
    const u = (to.x - bx) * bs;
    const v = (to.y - by) * bs;
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, -u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, -v],
    ];
  });
  // Four pairs give eight rows; a ninth of zeros lets the decomposition return the null vector.
  while (rows.length < 9) rows.push(new Array(9).fill(0));
  const svd = new SingularValueDecomposition(new Matrix(rows), { autoTranspose: false });
  const h = Matrix.from1DArray(3, 3, svd.rightSingularVectors.getColumn(8));
  const back = new Matrix([
    [1 / bs, 0, bx],
    [0, 1 / bs, by],
    [0, 0, 1],
  ]);
  const toUnit = new Matrix([
    [as, 0, -as * ax],
    [0, as, -as * ay],
    [0, 0, 1],
  ]);
  const full = back.mmul(h).mmul(toUnit).to1DArray();
  const norm = Math.hypot(...full);
  return full.map((value) => value / norm);
};

/** Image of a plane point under H. */
export const applyHomography = (
  h: readonly number[],
  p: { readonly x: number; readonly y: number },
): { x: number; y: number } => {
  const w = h[6]! * p.x + h[7]! * p.y + h[8]!;
  return { x: (h[0]! * p.x + h[1]! * p.y + h[2]!) / w, y: (h[3]! * p.x + h[4]! * p.y + h[5]!) / w };
};

/** The third homogeneous coordinate of a point's image: its sign tells the two sides of the vanishing line apart. */
export const homographyDepth = (
  h: readonly number[],
  p: { readonly x: number; readonly y: number },
): number => h[6]! * p.x + h[7]! * p.y + h[8]!;

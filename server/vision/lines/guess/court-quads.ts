import type { StraightLine } from './straight-lines.ts';
import type { Ridges } from './white-ridges.ts';

/** Four corners in px of the reduced picture, in order around the court, and the share of each side (first to second corner, …) with paint on it. */
export type Quad = {
  readonly corners: readonly (readonly [number, number])[];
  readonly cover: readonly number[];
};

/** A corner may lie outside the picture by its own size: from a low balcony the near corners often do. */
const OUTSIDE = 1;
/** A side shows paint on at least this share of its visible length, */
const LEAST_COVER = 0.3;
/** and the four together on this share at least. */
const MEAN_COVER = 0.5;
/** The court fills at least this share of the picture's area. */
const LEAST_AREA = 0.015;

/** Every convex quadrilateral that four of the lines make and that has paint along all its sides, the best covered first. */
export const courtQuads = (lines: readonly StraightLine[], ridges: Ridges): Quad[] => {
  const quads: Quad[] = [];
  const n = lines.length;
  for (let a = 0; a < n; a++)
    for (let b = a + 1; b < n; b++)
      for (let c = b + 1; c < n; c++)
        for (let d = c + 1; d < n; d++)
          for (const [p, q, r, s] of [
            [a, b, c, d],
            [a, c, b, d],
            [a, b, d, c],
          ] as const) {
            const quad = quadOf([lines[p]!, lines[q]!, lines[r]!, lines[s]!], ridges);
            if (quad) quads.push(quad);
          }
  const worth = ({ cover }: Quad): number => cover.reduce((sum, value) => sum + value, 0);
  return quads.sort((x, y) => worth(y) - worth(x));
};

/** The quadrilateral whose sides lie on the lines in this order around it. */
const quadOf = (around: readonly StraightLine[], ridges: Ridges): Quad | null => {
  const corners: [number, number][] = [];
  for (let i = 0; i < 4; i++) {
    const corner = crossing(around[i]!, around[(i + 1) % 4]!);
    if (!corner || !within(corner, ridges)) return null;
    corners.push(corner);
  }
  if (Math.abs(area(corners)) < LEAST_AREA * ridges.width * ridges.height || !convex(corners)) return null;
  // Corner i closes side i; the side from corner i to i + 1 lies on line i + 1.
  const cover = corners.map((corner, i) => coverage(corner, corners[(i + 1) % 4]!, ridges));
  const mean = cover.reduce((sum, value) => sum + value, 0) / 4;
  return Math.min(...cover) >= LEAST_COVER && mean >= MEAN_COVER ? { corners, cover } : null;
};

const crossing = (p: StraightLine, q: StraightLine): [number, number] | null => {
  const det = Math.cos(p.angle) * Math.sin(q.angle) - Math.sin(p.angle) * Math.cos(q.angle);
  // Lines less than three degrees apart cross anywhere.
  if (Math.abs(det) < 0.05) return null;
  return [
    (p.distance * Math.sin(q.angle) - q.distance * Math.sin(p.angle)) / det,
    (Math.cos(p.angle) * q.distance - Math.cos(q.angle) * p.distance) / det,
  ];
};

const within = ([x, y]: readonly [number, number], { width, height }: Ridges): boolean =>
  x > -OUTSIDE * width && x < (1 + OUTSIDE) * width && y > -OUTSIDE * height && y < (1 + OUTSIDE) * height;

const area = (c: readonly (readonly [number, number])[]): number =>
  c.reduce((sum, [x, y], i) => sum + (x * c[(i + 1) % 4]![1] - c[(i + 1) % 4]![0] * y) / 2, 0);

const convex = (c: readonly (readonly [number, number])[]): boolean => {
  const turn = (i: number): number => {
    const [a, b, d] = [c[i]!, c[(i + 1) % 4]!, c[(i + 2) % 4]!];
    return Math.sign((b[0] - a[0]) * (d[1] - b[1]) - (b[1] - a[1]) * (d[0] - b[0]));
  };
  return Math.abs(turn(0) + turn(1) + turn(2) + turn(3)) === 4;
};

/** Px about the straight side in which its ridge may run. */
const BESIDE = 3;
/** A side with less than this many px in the picture says nothing. */
const LEAST_VISIBLE = 25;

/** Share of the visible side with a ridge point beside it, less what grass alone would show. */
const coverage = (a: readonly [number, number], b: readonly [number, number], ridges: Ridges): number => {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [tx, ty] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  let seen = 0;
  let hits = 0;
  let stray = 0;
  for (let s = 0; s < length; s++) {
    const x = a[0] + s * tx;
    const y = a[1] + s * ty;
    if (x < BESIDE || y < BESIDE || x >= ridges.width - BESIDE || y >= ridges.height - BESIDE) continue;
    seen++;
    if (ridgeBeside(x, y, tx, ty, 0, ridges)) hits++;
    if (ridgeBeside(x, y, tx, ty, 3 * BESIDE, ridges) || ridgeBeside(x, y, tx, ty, -3 * BESIDE, ridges))
      stray++;
  }
  if (seen < LEAST_VISIBLE) return 0;
  const chance = stray / 2 / seen;
  return Math.max(0, (hits / seen - chance) / (1 - Math.min(0.9, chance)));
};

/** Whether a ridge point lies within `BESIDE` px of the place `offset` px beside (x, y). */
const ridgeBeside = (
  x: number,
  y: number,
  tx: number,
  ty: number,
  offset: number,
  { width, height, mask }: Ridges,
): boolean => {
  for (let e = -BESIDE; e <= BESIDE; e++) {
    const column = Math.floor(x - ty * (e + offset));
    const row = Math.floor(y + tx * (e + offset));
    if (column >= 0 && row >= 0 && column < width && row < height && mask[row * width + column]) return true;
  }
  return false;
};

import { type Court, SIDES, type Side, sideEnds } from '../lawn/court.ts';
import { type LawnPoint, lawnPoint } from '../units/points.ts';
import { cholesky, completeTriangle, inverseRows, logDeterminant } from './normal-equations.ts';

/**
 * Distances (m) over which the height of a lawn may stay alike: mown, rolled ground undulates over a few metres, or its foundations have settled over
 * half a side. The lines tell which. A judgement, no source.
 */
export const GROUND_CORRELATIONS = [3.5, 10] as const;
/** Knots stand this far apart (m): well under the correlation, so that straight interpolation between them loses little. */
const KNOT_SPACING = 2.5;
/** Added to the diagonal of the correlation matrix to keep its inverse well behaved. */
const NUGGET = 1e-4;

/** Correlation of the heights of two places `distance` metres apart on ground that stays alike over `length`: Matérn's with smoothness 3/2 (B. Matérn, "Spatial Variation", 1960). */
export const groundCorrelation = (distance: number, length: number): number => {
  const a = (Math.sqrt(3) * distance) / length;
  return (1 + a) * Math.exp(-a);
};

/** How the heights of the knots hang together, under one opinion of how far ground stays alike. */
export type Relief = {
  /** Inverse of the knots' correlation matrix, row by row. */
  readonly precision: Float64Array;
  /** Logarithm of the determinant of the correlation matrix. */
  readonly logDeterminant: number;
};

/**
 * Places along the four boundaries whose heights stand for the ground under the lines. Samples between two knots interpolate, so errors of
 * neighbouring samples that come from the same rise are not counted as independent.
 */
export type GroundKnots = {
  readonly places: readonly LawnPoint[];
  /** Indices of the knots of each side, from its west or south end; corners are shared. */
  readonly along: Readonly<Record<Side, readonly number[]>>;
  /** One for each of `GROUND_CORRELATIONS`. */
  readonly reliefs: readonly [Relief, ...Relief[]];
};

/** The knots of the court last asked for: a reading asks several times, and a club has one size of lawn. */
let last: { readonly court: Court; readonly knots: GroundKnots } | null = null;

/** The knots around `court`. */
export const groundKnots = (court: Court): GroundKnots => {
  if (last?.court.width !== court.width || last.court.length !== court.length)
    last = { court, knots: makeKnots(court) };
  return last.knots;
};

const makeKnots = (court: Court): GroundKnots => {
  const places: LawnPoint[] = [];
  const index = new Map<string, number>();
  const indexOf = (place: LawnPoint): number => {
    const key = `${place.x.toFixed(6)} ${place.y.toFixed(6)}`;
    const known = index.get(key);
    if (known !== undefined) return known;
    index.set(key, places.length);
    return places.push(place) - 1;
  };
  const along = Object.fromEntries(
    SIDES.map((side) => [side, sidePlaces(court, side).map(indexOf)]),
  ) as unknown as Record<Side, number[]>;
  const [first, ...others] = GROUND_CORRELATIONS;
  const reliefs = [reliefOf(places, first), ...others.map((length) => reliefOf(places, length))] as const;
  return { places, along, reliefs };
};

const sidePlaces = (court: Court, side: Side): LawnPoint[] => {
  const [a, b] = sideEnds(court, side);
  const spans = Math.max(1, Math.round(Math.hypot(b.x - a.x, b.y - a.y) / KNOT_SPACING));
  return Array.from({ length: spans + 1 }, (_, i) =>
    lawnPoint(a.x + ((b.x - a.x) * i) / spans, a.y + ((b.y - a.y) * i) / spans),
  );
};

const reliefOf = (places: readonly LawnPoint[], length: number): Relief => {
  const n = places.length;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      const distance = Math.hypot(places[i]!.x - places[j]!.x, places[i]!.y - places[j]!.y);
      matrix[i * n + j] = groundCorrelation(distance, length) + (i === j ? NUGGET : 0);
    }
  const l = cholesky(matrix, n);
  if (!l) throw new Error('Expected distinct knots but received coinciding ones');
  const inverse = inverseRows(l, n, n);
  completeTriangle(inverse, n);
  return { precision: inverse, logDeterminant: logDeterminant(l, n) };
};

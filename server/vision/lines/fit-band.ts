import { factor, inverseDiagonal, solveSmall } from '../small-solve.ts';
import { normalBelow, normalDensity } from './normal-tables.ts';

/** Points of one profile: distance across the line (px), light, number of pixels. */
export type ProfilePoints = {
  count: number;
  readonly place: Float64Array;
  readonly light: Float64Array;
  readonly weight: Float64Array;
};

/**
 * A band of paint seen through blur: light `inner` on the court's side, `paint` between the two edges, `outer` beyond, the edges
 * `width` px apart with `middle` halfway between them, all convolved with a Gaussian of standard deviation `blur` px.
 */
export type Band = {
  inner: number;
  paint: number;
  outer: number;
  middle: number;
  width: number;
  blur: number;
};

/** A fitted band with what the residuals say about it. */
export type BandFit = {
  readonly band: Band;
  /** Standard deviation of the middle, px, and of the paint's light above the mean of both sides. */
  readonly middleSd: number;
  readonly contrastSd: number;
  /** Standard deviation of the width and of the blur where they were free, else 0. */
  readonly widthSd: number;
  readonly blurSd: number;
  /** Standard deviation of one pixel about the model. */
  readonly noise: number;
};

/** Order of the unknowns in the equations; width and blur come last so that they can be held. */
const UNKNOWNS = 6;
const MIDDLE = 3;
const WIDTH = 4;
const BLUR = 5;

/** What width and blur are held to: mean and standard deviation in px. */
export type Hold = { readonly mean: number; readonly sd: number };

/** Room for the equations, kept between calls. */
const matrix = new Float64Array(UNKNOWNS * UNKNOWNS);
const right = new Float64Array(UNKNOWNS);
const row = new Float64Array(UNKNOWNS);
const LEAST_BLUR = 0.3;
const LEAST_WIDTH = 0.02;

/** Light over the grass about it. */
export const contrast = (band: Band): number => band.paint - (band.inner + band.outer) / 2;

/** Contrast of the light levels that fit `points` best when the band stands exactly as `band` says; NaN when they are not determined. */
export const contrastAt = (points: ProfilePoints, band: Band): number => {
  const levels = { ...band };
  return points.count > 3 && fitLevels(points, levels) ? contrast(levels) : Number.NaN;
};

/**
 * Least-squares fit of a band to `points`, starting from `start` (its light levels are found first). `free` says whether width and blur are
 * unknown too, each then held to its prior in units of the pixel noise. Null when the points do not determine it or the middle leaves
 * ±`reach` px about its start.
 */
export const fitBand = (
  points: ProfilePoints,
  start: Band,
  reach: number,
  free?: { readonly width: Hold; readonly blur: Hold },
): BandFit | null => {
  const n = free ? UNKNOWNS : MIDDLE + 1;
  if (points.count < n + 2) return null;
  const band = { ...start };
  if (!fitLevels(points, band)) return null;
  for (let step = 0, settled = false; ; step++) {
    const noise = assemble(points, band, n);
    if (free) hold(band, free, noise);
    const last = step === STEPS || settled;
    if (last) return factor(matrix, n) ? describe(band, noise, n) : null;
    if (!solveSmall(matrix, right, n)) return null;
    settled = advance(band, n) < SETTLED;
    if (Math.abs(band.middle - start.middle) > reach) return null;
  }
};

/** Steps shorter than this (px) are a fiftieth of what any edge is known to. */
const SETTLED = 2e-3;
/** Gauss–Newton steps at most; three are enough nearly always. */
const STEPS = 12;

/** Fills the normal equations of the first `n` unknowns at `band`; returns the standard deviation of one pixel about the band, `n` unknowns spent. */
const assemble = (points: ProfilePoints, band: Band, n: number): number => {
  matrix.fill(0);
  right.fill(0);
  const squares = n === UNKNOWNS ? addAll(points, band) : addHeld(points, band, n);
  // The bins' means scatter by the pixels' noise over the root of their number, so the weighted sum counts bins, not pixels.
  return Math.sqrt(squares / Math.max(1, points.count - n)) + 1e-6;
};

/** Adds the points to the equations of all unknowns; returns the weighted sum of squares. */
const addAll = (points: ProfilePoints, { inner, paint, outer, middle, width, blur }: Band): number => {
  const n = UNKNOWNS;
  let squares = 0;
  for (let i = 0; i < points.count; i++) {
    const a = (points.place[i]! - middle + width / 2) / blur;
    const b = a - width / blur;
    const belowA = normalBelow(a);
    const belowB = normalBelow(b);
    const riseA = (paint - inner) * normalDensity(a);
    const riseB = (outer - paint) * normalDensity(b);
    row[0] = 1 - belowA;
    row[1] = belowA - belowB;
    row[2] = belowB;
    row[MIDDLE] = -(riseA + riseB) / blur;
    row[WIDTH] = (riseA - riseB) / (2 * blur);
    row[BLUR] = -(riseA * a + riseB * b) / blur;
    const r = points.light[i]! - (inner * row[0]! + paint * row[1]! + outer * row[2]!);
    const w = points.weight[i]!;
    squares += w * r * r;
    for (let p = 0; p < n; p++) {
      const scaled = w * row[p]!;
      right[p] = right[p]! + scaled * r;
      for (let q = 0; q <= p; q++) matrix[p * n + q] = matrix[p * n + q]! + scaled * row[q]!;
    }
  }
  return squares;
};

/** The same where width and blur are held (`n` of three or four unknowns), which is nearly always: the sums are kept in variables. */
const addHeld = (points: ProfilePoints, band: Band, n: number): number => {
  const { inner, paint, outer, middle, width, blur } = band;
  const stepA = (paint - inner) / blur;
  const stepB = (outer - paint) / blur;
  let squares = 0;
  // Entries of the matrix and of the right-hand side by their unknowns: h inner, p paint, o outer, m middle.
  let [hh, ph, pp, oh, op, oo] = [0, 0, 0, 0, 0, 0];
  let [mh, mp, mo, mm] = [0, 0, 0, 0];
  let [rh, rp, ro, rm] = [0, 0, 0, 0];
  for (let i = 0; i < points.count; i++) {
    const a = (points.place[i]! - middle + width / 2) / blur;
    const b = a - width / blur;
    const below = normalBelow(a);
    const o = normalBelow(b);
    const p = below - o;
    const h = 1 - below;
    const m = n > MIDDLE ? -stepA * normalDensity(a) - stepB * normalDensity(b) : 0;
    const r = points.light[i]! - inner * h - paint * p - outer * o;
    const w = points.weight[i]!;
    const wh = w * h;
    const wp = w * p;
    const wo = w * o;
    const wm = w * m;
    squares += w * r * r;
    hh += wh * h;
    ph += wp * h;
    pp += wp * p;
    oh += wo * h;
    op += wo * p;
    oo += wo * o;
    mh += wm * h;
    mp += wm * p;
    mo += wm * o;
    mm += wm * m;
    rh += wh * r;
    rp += wp * r;
    ro += wo * r;
    rm += wm * r;
  }
  matrix[0] = hh;
  matrix[n] = ph;
  matrix[n + 1] = pp;
  matrix[2 * n] = oh;
  matrix[2 * n + 1] = op;
  matrix[2 * n + 2] = oo;
  if (n > MIDDLE) {
    matrix[3 * n] = mh;
    matrix[3 * n + 1] = mp;
    matrix[3 * n + 2] = mo;
    matrix[3 * n + 3] = mm;
  }
  right[0] = rh;
  right[1] = rp;
  right[2] = ro;
  right[3] = rm;
  return squares;
};

/** Adds the priors of width and blur; `noise` turns them into the units of the pixels' weights. */
const hold = (band: Band, free: { readonly width: Hold; readonly blur: Hold }, noise: number): void => {
  const n = UNKNOWNS;
  const byWidth = (noise / free.width.sd) ** 2;
  const byBlur = (noise / free.blur.sd) ** 2;
  matrix[WIDTH * n + WIDTH] = matrix[WIDTH * n + WIDTH]! + byWidth;
  right[WIDTH] = right[WIDTH]! + byWidth * (free.width.mean - band.width);
  matrix[BLUR * n + BLUR] = matrix[BLUR * n + BLUR]! + byBlur;
  right[BLUR] = right[BLUR]! + byBlur * (free.blur.mean - band.blur);
};

/** Light levels by linear least squares at the band's own edges. */
const fitLevels = (points: ProfilePoints, band: Band): boolean => {
  band.inner = 0;
  band.paint = 0;
  band.outer = 0;
  assemble(points, band, 3);
  if (!solveSmall(matrix, right, 3)) return false;
  band.inner = right[0]!;
  band.paint = right[1]!;
  band.outer = right[2]!;
  return true;
};

const clip = (step: number, limit: number): number => Math.min(limit, Math.max(-limit, step));

/** Takes the step in `right`, shortened where it is longer than the model bears; returns the largest move in px. */
const advance = (band: Band, n: number): number => {
  const middle = clip(right[MIDDLE]!, band.blur);
  band.inner += right[0]!;
  band.paint += right[1]!;
  band.outer += right[2]!;
  band.middle += middle;
  if (n === MIDDLE + 1) return Math.abs(middle);
  const width = clip(right[WIDTH]!, band.blur);
  const blur = clip(right[BLUR]!, band.blur / 2);
  band.width = Math.max(LEAST_WIDTH, band.width + width);
  band.blur = Math.max(LEAST_BLUR, band.blur + blur);
  return Math.max(Math.abs(middle), Math.abs(width), Math.abs(blur));
};

/** Reads the uncertainties off the factor in `matrix`. */
const describe = (band: Band, noise: number, n: number): BandFit => ({
  band,
  noise,
  middleSd: noise * Math.sqrt(inverseDiagonal(matrix, n, MIDDLE)),
  contrastSd:
    noise *
    Math.sqrt(
      inverseDiagonal(matrix, n, 1) + (inverseDiagonal(matrix, n, 0) + inverseDiagonal(matrix, n, 2)) / 4,
    ),
  widthSd: n > WIDTH ? noise * Math.sqrt(inverseDiagonal(matrix, n, WIDTH)) : 0,
  blurSd: n > BLUR ? noise * Math.sqrt(inverseDiagonal(matrix, n, BLUR)) : 0,
});

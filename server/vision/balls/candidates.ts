import type { Camera } from '../../camera/types.ts';
import type { Raster } from '../types.ts';
import {
  type BlockDiameters,
  boxSides,
  type ContrastMap,
  type ContrastSpace,
  contrastMap,
  makeContrastSpace,
} from './contrast-map.ts';
import { MOST_CELLS, type SummedBand, sumBand } from './reduce-band.ts';
import { diameterAt, type LawnSpans } from './search-scale.ts';

/** A place in the picture that stands out from the lawn at a ball's size: centre in px, squared contrast in units of the lawn's own. */
export type Candidate = {
  readonly x: number;
  readonly y: number;
  readonly score: number;
};

/** Least diameter of a ball in cells after reduction: below this a box no longer follows a disc. */
const LEAST_CELLS = 3;
/** Squared contrast below which a place is lawn: exceeded by one lawn cell in ten thousand if the texture were normal (χ² with 3 degrees of freedom, 0.9999 point 21.1). */
const LEAST_SCORE = 21.1;
/** A peak is the highest within this share of a diameter: two touching balls are a diameter apart. */
const PEAK = 0.4;
/** Side in cells of the blocks that share one predicted diameter. */
const BLOCK = 32;
const MOST_ROWS = 128;

/** A run of rows that is reduced by one factor. */
type Band = {
  readonly first: number;
  readonly last: number;
  readonly factor: number;
  readonly reach: number;
};

const rowDiameters = (camera: Camera, spans: LawnSpans, i: number): readonly [number, number] => {
  const y = spans.top + i + 0.5;
  const from = spans.from[i] as number;
  const to = spans.to[i] as number;
  const all = [from, (from + to) / 2, to].map((x) => diameterAt(camera, x, y)).filter((d) => d > 0);
  return all.length === 0 ? [1, 1] : [Math.min(...all), Math.max(...all)];
};

const ROW_STEP = 8;

/** Bands of rows by reduction factor, none longer than MOST_ROWS rows of cells. */
const planBands = (camera: Camera, spans: LawnSpans): Band[] => {
  const bands: Band[] = [];
  const rows = spans.from.length;
  let first = 0;
  let factor = 0;
  let most = 0;
  const close = (last: number): void => {
    if (last > first && factor > 0)
      bands.push({ first, last, factor, reach: Math.ceil(1.5 * most) + factor });
  };
  for (let i = 0; i < rows; i += ROW_STEP) {
    const [least, largest] = rowDiameters(camera, spans, i);
    const here = Math.max(1, Math.floor(least / LEAST_CELLS));
    if (here !== factor || i - first >= MOST_ROWS * factor) {
      close(i);
      first = i;
      factor = here;
      most = 0;
    }
    most = Math.max(most, largest);
  }
  close(rows);
  return bands;
};

const strongestFirst = (a: Candidate, b: Candidate): number => b.score - a.score;

/** Waits until the first so many rows of a picture are there. */
export type UntilRows = (rows: number) => void;

const lastRow = (raster: Raster, spans: LawnSpans, { last, reach }: Band): number =>
  Math.min(raster.height, spans.top + last + reach);

/** Every place that stands out at a ball's size, the strongest first. `until` waits for rows that are still coming. */
export const findCandidates = (
  raster: Raster,
  camera: Camera,
  spans: LawnSpans,
  until: UntilRows = () => {},
): Candidate[] => {
  const found: Candidate[] = [];
  let buffer = new Uint32Array(0);
  const space = makeContrastSpace();
  for (const band of planBands(camera, spans)) {
    until(lastRow(raster, spans, band));
    const summed = sumSpan(raster, spans, band, buffer);
    if (summed === null) continue;
    buffer = summed.sums as Uint32Array<ArrayBuffer>;
    collect(camera, spans, band, summed, space, found);
  }
  return found.sort(strongestFirst);
};

const sumSpan = (raster: Raster, spans: LawnSpans, band: Band, buffer: Uint32Array): SummedBand | null => {
  let left = raster.width;
  let right = 0;
  for (let i = band.first; i < band.last; i++) {
    left = Math.min(left, spans.from[i] as number);
    right = Math.max(right, spans.to[i] as number);
  }
  if (right <= left) return null;
  left = Math.max(0, left - band.reach);
  right = Math.min(raster.width, right + band.reach);
  const top = Math.max(0, spans.top + band.first - band.reach);
  const bottom = lastRow(raster, spans, band);
  const cells = ((right - left) / band.factor) * ((bottom - top) / band.factor);
  return cells > MOST_CELLS ? null : sumBand(raster, band.factor, left, top, right, bottom, buffer);
};

const blockDiameters = (camera: Camera, { factor, left, top, columns, rows }: SummedBand): BlockDiameters => {
  const across = Math.ceil(columns / BLOCK);
  const values = new Float32Array(across * Math.ceil(rows / BLOCK));
  for (let k = 0; k < values.length; k++) {
    const i = ((k % across) + 0.5) * BLOCK;
    const j = (Math.floor(k / across) + 0.5) * BLOCK;
    values[k] = diameterAt(camera, left + i * factor, top + j * factor) / factor;
  }
  return { block: BLOCK, across, values };
};

const collect = (
  camera: Camera,
  spans: LawnSpans,
  band: Band,
  summed: SummedBand,
  space: ContrastSpace,
  found: Candidate[],
): void => {
  const { factor, left, top, rows, columns } = summed;
  const from = new Int32Array(rows);
  const to = new Int32Array(rows);
  for (let j = 0; j < rows; j++) {
    const i = Math.round(top + (j + 0.5) * factor - 0.5) - spans.top;
    if (i < band.first || i >= band.last) continue;
    from[j] = Math.max(0, Math.floor(((spans.from[i] as number) - left) / factor));
    to[j] = Math.min(columns, Math.ceil(((spans.to[i] as number) - left) / factor));
  }
  const diameters = blockDiameters(camera, summed);
  const map = contrastMap(summed, from, to, diameters, LEAST_SCORE, space);
  for (let k = 0; k < map.count; k++) {
    const cell = map.high[k]!;
    const i = cell % columns;
    const j = (cell - i) / columns;
    const diameter = diameters.values[Math.floor(j / BLOCK) * diameters.across + Math.floor(i / BLOCK)]!;
    if (!isPeak(map, i, j, Math.max(1, Math.round(PEAK * diameter)))) continue;
    // The inner box of an even side is centred on a cell's corner, that of an odd side on its middle.
    const shift = boxSides(diameter)[0] % 2 === 0 ? 0 : 0.5;
    found.push({
      x: left + (i + shift) * factor,
      y: top + (j + shift) * factor,
      score: map.scores[cell]!,
    });
  }
};

/** Whether no score within `reach` cells is larger; of equal ones the first in reading order counts. */
const isPeak = ({ scores, columns, rows }: ContrastMap, i: number, j: number, reach: number): boolean => {
  const cell = j * columns + i;
  const score = scores[cell]!;
  if (scores[cell + 1]! > score || scores[cell - 1]! >= score) return false;
  const i0 = Math.max(0, i - reach);
  const i1 = Math.min(columns - 1, i + reach);
  const j1 = Math.min(rows - 1, j + reach);
  for (let y = Math.max(0, j - reach); y <= j1; y++)
    for (let x = i0; x <= i1; x++) {
      const other = scores[y * columns + x]!;
      if (other > score || (other === score && (y < j || (y === j && x < i)))) return false;
    }
  return true;
};

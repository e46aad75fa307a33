import type { StoredBlocks, StoredChannel } from '../units/raster.ts';
import { segmentsOf } from './jpeg-segments.ts';

/** Marker codes of ITU-T T.81, table B.1: quantization tables, and the frames whose pixels are blocks of cosines (baseline, extended, progressive). */
const QUANTIZATION = 0xdb;
const FRAMES = [0xc0, 0xc1, 0xc2];
/** Samples along a block's side and in it. */
const SIDE = 8;
const BLOCK = SIDE * SIDE;

/** Order in which a table lists a block's frequencies (ITU-T T.81, figure A.6): its diagonals, to and fro. */
const zigZag = (): number[] => {
  const order: number[] = [];
  for (let sum = 0; sum < 2 * SIDE - 1; sum++) {
    const from = Math.max(0, sum - SIDE + 1);
    const to = Math.min(sum, SIDE - 1);
    for (let k = from; k <= to; k++) {
      const down = sum % 2 === 0 ? sum - k : k;
      order.push(down * SIDE + sum - down);
    }
  }
  return order;
};
const ORDER = zigZag();

/** Adds the tables of one segment (ITU-T T.81, B.2.4.1) by their number: steps row by row, across fastest. */
const readTables = (body: Uint8Array, tables: Map<number, Float64Array>): void => {
  let at = 0;
  while (at < body.length) {
    const [wide, number] = [body[at]! >> 4, body[at]! & 15];
    const steps = new Float64Array(BLOCK);
    at++;
    if (at + (wide ? 2 : 1) * BLOCK > body.length) return;
    for (const place of ORDER) {
      steps[place] = wide ? (body[at]! << 8) + body[at + 1]! : body[at]!;
      at += wide ? 2 : 1;
    }
    tables.set(number, steps);
  }
};

/** EXIF orientations that turn a photo by a quarter, and those whose upright picture begins at the stored one's other end, across and down (EXIF 2.32, tag 274). */
const QUARTER = 5;
const FROM_RIGHT = [2, 3, 6, 7];
const FROM_BELOW = [3, 4, 7, 8];

const transposed = (steps: Float64Array): Float64Array =>
  steps.map((_, k) => steps[(k % SIDE) * SIDE + Math.floor(k / SIDE)]!);

/**
 * In which blocks and steps the pixels of a JPEG are stored, as its upright picture of `width` × `height` px has them. `orientation` is that of its EXIF data. Null of another format, of
 * one that is not stored as luma and two colour differences, and of a header that is not whole.
 */
export const blocksOf = (
  bytes: Uint8Array,
  orientation: number,
  { width, height }: { readonly width: number; readonly height: number },
): StoredBlocks | null => {
  const tables = new Map<number, Float64Array>();
  const segments = segmentsOf(bytes);
  for (const { code, body } of segments) if (code === QUANTIZATION) readTables(body, tables);
  const frame = segments.find(({ code }) => FRAMES.includes(code))?.body;
  if (frame === undefined || frame[5] !== 3 || frame.length < 15) return null;
  const sampling = [7, 10, 13].map((at) => [frame[at]! >> 4, frame[at]! & 15] as const);
  const [acrossMost, downMost] = [0, 1].map((axis) => Math.max(...sampling.map((factors) => factors[axis]!)));
  const turned = orientation >= QUARTER;
  const channels = [8, 11, 14].flatMap((at, c): StoredChannel[] => {
    const steps = tables.get(frame[at]!);
    const [across, down] = [acrossMost! / sampling[c]![0], downMost! / sampling[c]![1]];
    if (steps === undefined || !Number.isFinite(across) || !Number.isFinite(down)) return [];
    return [
      {
        steps: turned ? transposed(steps) : steps,
        sample: turned ? [down, across] : [across, down],
        origin: [FROM_RIGHT.includes(orientation) ? width : 0, FROM_BELOW.includes(orientation) ? height : 0],
      },
    ];
  });
  const [luma, blue, red] = channels;
  return luma && blue && red ? [luma, blue, red] : null;
};

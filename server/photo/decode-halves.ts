import type { Raster, RasterPart } from '../units/raster.ts';
import { withPipeline } from './decode.ts';

/** Decoding of one picture in two halves at once: the upper one is there first. */
export type ComingHalves = {
  /** Resolves when the upper half is there; null when it failed, of which `whole` tells. */
  readonly upper: Promise<RasterPart | null>;
  /** Rejects with `photo-cut-off` or `photo-damaged`. Nothing more is written into the raster then. */
  readonly whole: Promise<Raster>;
};

/** Decodes a photo of which the rows are stored from the top on; `known` is all of its raster but the pixels. */
export type DecodeHalves = (bytes: Uint8Array, known: Omit<Raster, 'data'>) => ComingHalves;

/** Share of the rows in the upper half. The lower one's decoder runs through the upper rows too, which costs it about as much as it saves: both end at about the same time. */
const UPPER = 0.55;

/**
 * Decodes a photo of which the rows are stored from the top on into `raster`'s memory, by two decoders at once: on two cores that takes a fifth less time than one decoder does, and the upper half is
 * there after two thirds of it. The pixels are those of `decodeRaster`.
 */
export const decodeHalves = (bytes: Uint8Array, raster: Raster): ComingHalves => {
  const { width, height, data } = raster;
  const rows = Math.round(UPPER * height);
  const part = (top: number, count: number): Promise<void> =>
    withPipeline(bytes, async (pipeline) => {
      const area = { left: 0, top, width, height: count };
      data.set(await pipeline.extract(area).raw({ depth: 'uchar' }).toBuffer(), 3 * width * top);
    });
  const upper = part(0, rows);
  const lower = part(rows, height - rows);
  const both = async (): Promise<Raster> => {
    const ends = await Promise.allSettled([upper, lower]);
    const failed = ends.find((end) => end.status === 'rejected');
    if (failed) throw failed.reason;
    return raster;
  };
  return {
    upper: upper.then(
      () => ({ raster, rows }),
      () => null,
    ),
    whole: both(),
  };
};

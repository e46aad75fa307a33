/** One channel of a photo that was stored as blocks of 8 × 8 samples, each kept as cosines (ITU-T T.81), seen from the upright picture. */
export type StoredChannel = {
  /** Steps to which the 64 cosines of a block (orthonormal ones) were rounded, grey levels: row by row, frequencies across fastest. */
  readonly steps: Float64Array;
  /** Size of a sample in px, across and down. */
  readonly sample: readonly [number, number];
  /** A corner of the blocks' grid, px. */
  readonly origin: readonly [number, number];
};

/** How a photo's luma and its two colour differences were stored. */
export type StoredBlocks = readonly [StoredChannel, StoredChannel, StoredChannel];

/**
 * The pixels of an upright photo, 8 bit sRGB: `data` holds width × height × 3 bytes, rows from the top, red green blue. The centre of
 * the first pixel is the image point (0.5, 0.5).
 */
export type Raster = {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
  /** In which blocks the photo was stored, where that is known: what rounding them may have done to an edge. */
  readonly blocks?: StoredBlocks | null;
};

/** Gives memory for so many bytes of pixels. It may be the same each time: a picture in it lasts until the next one. */
export type PixelRoom = (bytes: number) => Uint8Array;

/** A picture that is being decoded: the first `rows` rows of `raster` are there, the others come into the same memory. */
export type RasterPart = { readonly raster: Raster; readonly rows: number };

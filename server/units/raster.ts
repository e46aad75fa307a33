/**
 * The pixels of an upright photo, 8 bit sRGB: `data` holds width × height × 3 bytes, rows from the top, red green blue. The centre of
 * the first pixel is the image point (0.5, 0.5).
 */
export type Raster = { readonly width: number; readonly height: number; readonly data: Uint8Array };

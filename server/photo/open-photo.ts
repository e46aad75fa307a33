import type { Raster, RasterPart } from '../units/raster.ts';
import { decodeRaster } from './decode.ts';
import type { ComingHalves, DecodeHalves } from './decode-halves.ts';
import { PHOTO_LIMITS, type PhotoLimits } from './limits.ts';
import { openHeader, type PhotoHeader } from './read-header.ts';

/** A photo ready to be read: upright 8 bit sRGB pixels, and what its header tells. */
export type UprightPhoto = Omit<PhotoHeader, 'width' | 'height'> & { readonly raster: Raster };

/** A photo that is being decoded: what its header tells is there, the pixels come. */
export type ComingPhoto = {
  readonly header: PhotoHeader;
  /** The upper part, where it comes before the rest; else null. */
  readonly upper: Promise<RasterPart | null>;
  readonly photo: Promise<UprightPhoto>;
};

/** Photos of fewer px are decoded by one decoder, which takes hardly any time. */
const WORTH_HALVING = 2e6;

/**
 * Begins to open a photo: JPEG, PNG, WebP, TIFF, AVIF or HEIC → upright pixels, decoded once into one buffer. The header is held to `limits` before
 * anything is decoded. A large JPEG is decoded by `inHalves`, when that is given. Throws an `InputError`: those of `readHeader`; `photo` rejects with `photo-cut-off` and
 * `photo-damaged`.
 */
export const beginPhoto = async (
  bytes: Uint8Array,
  limits: PhotoLimits = PHOTO_LIMITS,
  inHalves: DecodeHalves | null = null,
): Promise<ComingPhoto> => {
  const { header, profile, blocks, rowByRow } = await openHeader(bytes, limits);
  const { width, height, ...told } = header;
  const halves: ComingHalves | null =
    inHalves !== null && rowByRow && width * height >= WORTH_HALVING
      ? inHalves(bytes, { width, height, blocks })
      : null;
  const decode = async (): Promise<UprightPhoto> => {
    if (halves !== null) return { ...told, raster: await halves.whole };
    // The HEIC decoder is loaded only for a HEIC photo.
    const raster =
      header.format === 'heic'
        ? await (await import('./decode-heic.ts')).decodeHeic(bytes, width, height, profile)
        : await decodeRaster(bytes);
    return { ...told, raster: { ...raster, blocks } };
  };
  const photo = decode();
  // Whoever waits for the pixels hears of their fault; when nobody does, it is no fault of the program.
  photo.catch(() => {});
  return { header, upper: halves?.upper ?? Promise.resolve(null), photo };
};

/** `beginPhoto`, to its end. Throws an `InputError`: those of `readHeader`, `photo-cut-off` and `photo-damaged`. */
export const openPhoto = async (
  bytes: Uint8Array,
  limits: PhotoLimits = PHOTO_LIMITS,
): Promise<UprightPhoto> => (await beginPhoto(bytes, limits)).photo;

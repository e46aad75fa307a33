import sharp from 'sharp';
import { InputError } from '../errors.ts';
import type { Pixels } from '../units/numbers.ts';
import type { StoredBlocks } from '../units/raster.ts';
import { focalFrom35, readTakenWith, type TakenWith } from './exif.ts';
import { formatOf, type PhotoFormat } from './formats.ts';
import { blocksOf } from './jpeg-blocks.ts';
import { checkBytes, checkDimensions, PHOTO_LIMITS, type PhotoLimits } from './limits.ts';

/** What a photo's header tells. Sizes in px of the upright photo. */
export type PhotoHeader = TakenWith & {
  readonly format: PhotoFormat;
  readonly width: number;
  readonly height: number;
  /** `focal35` in px of this photo. */
  readonly focalPixels: Pixels | null;
};

/** A header with what the decoder needs besides. */
export type OpenedHeader = {
  readonly header: PhotoHeader;
  readonly profile: Uint8Array | null;
  readonly blocks: StoredBlocks | null;
  /** Whether its rows are stored from the top of the upright picture on, one after the other. */
  readonly rowByRow: boolean;
};

/** The header's size is judged here, by our own limits, before any pixel is decoded: so the library's limit is off. */
const metadataOf = async (bytes: Uint8Array) => {
  try {
    return await sharp(bytes, { limitInputPixels: false }).metadata();
  } catch {
    throw new InputError(
      'photo-damaged',
      'The photo begins like a picture but is damaged or cut off: send the original file again, whole.',
    );
  }
};

/** As `readHeader`, with the colour profile. */
export const openHeader = async (bytes: Uint8Array, limits: PhotoLimits): Promise<OpenedHeader> => {
  checkBytes(bytes.length, limits);
  const format = formatOf(bytes);
  const found = await metadataOf(bytes);
  // HEIC turns by its own boxes, which width and height already follow; its EXIF orientation says the same again and must not be used.
  const { width, height } =
    format === 'heic' ? { width: found.width, height: found.height } : found.autoOrient;
  checkDimensions(width, height, limits);
  const taken = readTakenWith(found.exif, width, height);
  const focalPixels = taken.focal35 === null ? null : focalFrom35(taken.focal35, width, height);
  const blocks = format === 'jpeg' ? blocksOf(bytes, found.orientation ?? 1, { width, height }) : null;
  const rowByRow = format === 'jpeg' && !found.isProgressive && (found.orientation ?? 1) === 1;
  const header = { format, width, height, focalPixels, ...taken };
  return { header, profile: found.icc ?? null, blocks, rowByRow };
};

/**
 * Reads a photo's header and holds it to the limits without decoding a pixel. Several pictures in one file: the first one counts.
 * Throws an `InputError` (`photo-empty`, `photo-too-heavy`, `format-not-read`, `not-a-picture`, `photo-damaged`, `photo-too-large`, `photo-too-small`).
 */
export const readHeader = async (
  bytes: Uint8Array,
  limits: PhotoLimits = PHOTO_LIMITS,
): Promise<PhotoHeader> => (await openHeader(bytes, limits)).header;

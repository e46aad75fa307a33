import sharp, { type Sharp } from 'sharp';
import { InputError } from '../errors.ts';
import type { Raster } from '../units/raster.ts';
import { isCutOff } from './jpeg-end.ts';

// Photos are decoded once each, so that keeping earlier results only holds memory.
sharp.cache(false);

/** What transparent parts become: middle grey, which is neither grass nor paint. */
const BACKDROP = '#808080';

/** Complaints of the decoders that leave every pixel in its place. */
const HARMLESS = /iCCP|Invalid SOS parameters|extraneous bytes|JFIF|Adobe|unknown field/i;

const damaged = (reason: string, bytes: Uint8Array): InputError =>
  isCutOff(bytes) || /premature end|truncated|end of file|end of data|too short|not enough/i.test(reason)
    ? new InputError(
        'photo-cut-off',
        'The photo is cut off before its end: send the original file again, whole.',
      )
    : new InputError(
        'photo-damaged',
        'The photo is damaged and cannot be read to its end: send the original file again.',
      );

/**
 * A pipeline that gives upright 8 bit sRGB: orientation applied, colour profile converted, transparency and further pages dropped.
 * A file is refused at the slightest sign of damage (`warning`): past a damaged place a JPEG's blocks can be shifted sideways, and a picture in
 * which things are not where they were must not be read.
 */
export const uprightPipeline = (bytes: Uint8Array, failOn: 'warning' | 'error' = 'warning'): Sharp =>
  sharp(bytes, { failOn, limitInputPixels: false, sequentialRead: true, pages: 1 })
    .autoOrient()
    .toColourspace('srgb')
    .flatten({ background: BACKDROP });

/** Runs `use` on a strict pipeline, and on a tolerant one when the decoder's complaint does no harm. */
export const withPipeline = async <T>(
  bytes: Uint8Array,
  use: (pipeline: Sharp) => Promise<T>,
): Promise<T> => {
  try {
    return await use(uprightPipeline(bytes));
  } catch (error) {
    const reason = String(error instanceof Error ? error.message : error);
    // Decodings at the same time share one list of complaints, and one may hear another's: the bytes themselves come first.
    if (isCutOff(bytes) || !HARMLESS.test(reason)) throw damaged(reason, bytes);
  }
  try {
    return await use(uprightPipeline(bytes, 'error'));
  } catch (error) {
    throw damaged(String(error), bytes);
  }
};

/** Decodes a photo that sharp reads (all but HEIC) into upright pixels. Throws `photo-cut-off` or `photo-damaged`. */
export const decodeRaster = (bytes: Uint8Array): Promise<Raster> =>
  withPipeline(bytes, async (pipeline) => {
    const { data, info } = await pipeline.raw({ depth: 'uchar' }).toBuffer({ resolveWithObject: true });
    return { width: info.width, height: info.height, data };
  });

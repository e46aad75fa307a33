import heic from 'heic-decode';
import { InputError } from '../errors.ts';
import type { Raster } from '../units/raster.ts';
import { convertToSrgb, readMatrixProfile } from './matrix-profile.ts';

const damaged = (): InputError =>
  new InputError(
    'photo-damaged',
    'The HEIC photo is damaged, cut off or of a kind that is not read: send the original file again, or save it as JPEG.',
  );

/** The decoder reports on standard output, which belongs to answers: it is silenced while it works. */
const silently = async <T>(work: () => Promise<T>): Promise<T> => {
  const log = console.log;
  console.log = () => {};
  try {
    return await work();
  } finally {
    console.log = log;
  }
};

/** Drops every fourth byte, in place: red green blue alpha → red green blue. The alpha of a photo says nothing. */
const packRgb = (rgba: Uint8Array): Uint8Array => {
  const pixels = rgba.length / 4;
  for (let pixel = 0, from = 0, to = 0; pixel < pixels; pixel++, from += 4, to += 3) {
    rgba[to] = rgba[from]!;
    rgba[to + 1] = rgba[from + 1]!;
    rgba[to + 2] = rgba[from + 2]!;
  }
  return rgba.subarray(0, pixels * 3);
};

/** The main picture among those of a file: the one that has the size which the header stated. */
const decodeMain = async (bytes: Uint8Array, width: number, height: number) => {
  const images = await heic.all({ buffer: bytes });
  try {
    const main = images.find((image) => image.width === width && image.height === height);
    return main ? await main.decode() : null;
  } finally {
    images.dispose();
  }
};

/**
 * Decodes a HEIC photo of `width` × `height` px (upright, from its header) into upright pixels. The decoder turns the picture by the file's own
 * boxes. Throws `photo-damaged`.
 */
export const decodeHeic = async (
  bytes: Uint8Array,
  width: number,
  height: number,
  profile: Uint8Array | null,
): Promise<Raster> => {
  const image = await silently(() => decodeMain(bytes, width, height)).catch(() => null);
  if (!image) throw damaged();
  const data = packRgb(new Uint8Array(image.data.buffer, image.data.byteOffset, image.data.byteLength));
  const colours = profile && readMatrixProfile(profile);
  if (colours) convertToSrgb(data, colours);
  return { width, height, data };
};

import { InputError } from '../errors.ts';

/** Formats of photos that are read. */
export const PHOTO_FORMATS = ['jpeg', 'png', 'webp', 'tiff', 'avif', 'heic'] as const;
/** The format of a photo. */
export type PhotoFormat = (typeof PHOTO_FORMATS)[number];

const ACCEPTED = 'JPEG, HEIC, PNG, WebP, AVIF or TIFF';

/** A run of bytes at a place: `text` as Latin-1. */
type Signature = { readonly at: number; readonly text: string; readonly name: string };

/** First bytes of the formats that are read, each from its own specification: ITU-T T.81, W3C PNG, TIFF 6.0, RFC 9649. */
const READ: readonly (Signature & { readonly name: PhotoFormat })[] = [
  { at: 0, text: '\xff\xd8\xff', name: 'jpeg' },
  { at: 0, text: '\x89PNG\r\n\x1a\n', name: 'png' },
  { at: 8, text: 'WEBP', name: 'webp' },
  { at: 0, text: 'II*\0', name: 'tiff' },
  { at: 0, text: 'MM\0*', name: 'tiff' },
];

/** Other files that people send, so that the refusal can name them. */
const NOT_READ: readonly Signature[] = [
  { at: 0, text: 'GIF8', name: 'a GIF picture' },
  { at: 0, text: 'BM', name: 'a BMP picture' },
  { at: 0, text: '%PDF', name: 'a PDF document' },
  { at: 0, text: '<svg', name: 'an SVG drawing' },
  { at: 0, text: 'PK\x03\x04', name: 'a ZIP archive' },
  { at: 4, text: 'ftyp', name: 'a video' },
  { at: 0, text: '\x1aE\xdf\xa3', name: 'a video' },
];

/** Brands of the ISO base media file format that mean a still picture (ISO/IEC 23008-12 for HEVC, the AV1 image format for AV1). */
const AVIF_BRANDS = ['avif', 'avis'];
const HEIC_BRANDS = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1'];

const latin1 = (bytes: Uint8Array, from: number, to: number): string =>
  String.fromCharCode(...bytes.subarray(from, to));

const matches = (bytes: Uint8Array, { at, text }: Signature): boolean =>
  latin1(bytes, at, at + text.length) === text;

/** The brands that a file's `ftyp` box lists, the major one first; none for other files. The box is read to 256 bytes. */
const brandsOf = (bytes: Uint8Array): string[] => {
  if (bytes.length < 16 || latin1(bytes, 4, 8) !== 'ftyp') return [];
  const size = new DataView(bytes.buffer, bytes.byteOffset).getUint32(0);
  const box = latin1(bytes, 8, Math.min(size, 256, bytes.length));
  const brands = box.match(/[\s\S]{4}/g) ?? [];
  // The second word is the minor version, not a brand.
  return brands.filter((_, index) => index !== 1);
};

/** A file under the general brand `mif1` is told by its compatible brands. */
const isoFormat = (bytes: Uint8Array): PhotoFormat | null => {
  const brands = brandsOf(bytes);
  if (brands.some((brand) => AVIF_BRANDS.includes(brand))) return 'avif';
  return brands.some((brand) => HEIC_BRANDS.includes(brand)) ? 'heic' : null;
};

/**
 * The format of a photo by its first bytes, whatever its name says. Anything else is refused before a decoder sees it, so that only the
 * named decoders are ever reached.
 */
export const formatOf = (bytes: Uint8Array): PhotoFormat => {
  const known = READ.find((signature) => matches(bytes, signature))?.name ?? isoFormat(bytes);
  if (known) return known;
  const other = NOT_READ.find((signature) => matches(bytes, signature));
  if (other) {
    throw new InputError(
      'format-not-read',
      `The file is ${other.name} and a photo is needed as ${ACCEPTED}: save it in one of these formats.`,
      415,
    );
  }
  throw new InputError(
    'not-a-picture',
    `The file is not a picture and a photo is needed as ${ACCEPTED}: choose the photo itself.`,
    415,
  );
};

import { START_OF_SCAN, segmentsOf } from './jpeg-segments.ts';

/** Marker of ITU-T T.81, table B.1. */
const END_OF_IMAGE = Buffer.from([0xff, 0xd9]);

/**
 * Whether a JPEG stops before its end: scans that no end marker follows. Pixel data never hold one (ITU-T T.81, B.1.1.5), a thumbnail's stands in the header, and what phones add behind a photo comes
 * after its own.
 */
export const isCutOff = (bytes: Uint8Array): boolean => {
  const scan = segmentsOf(bytes).find(({ code }) => code === START_OF_SCAN);
  return (
    scan !== undefined &&
    !Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).includes(END_OF_IMAGE, scan.at)
  );
};

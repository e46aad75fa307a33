/** Marker codes of ITU-T T.81, table B.1. */
const MARK = 0xff;
const START_OF_IMAGE = 0xd8;
const START_OF_SCAN = 0xda;
const END_OF_IMAGE = Buffer.from([MARK, 0xd9]);

/** Where the first scan of a JPEG begins, after the segments of its header (each a marker and its length in two bytes); −1 without one, and of other formats. */
const scanStart = (bytes: Uint8Array): number => {
  if (bytes[0] !== MARK || bytes[1] !== START_OF_IMAGE) return -1;
  let at = 2;
  while (at + 3 < bytes.length && bytes[at] === MARK) {
    if (bytes[at + 1] === START_OF_SCAN) return at;
    at += 2 + (bytes[at + 2]! << 8) + bytes[at + 3]!;
  }
  return -1;
};

/**
 * Whether a JPEG stops before its end: scans that no end marker follows. Pixel data never hold one (ITU-T T.81, B.1.1.5), a thumbnail's stands in the header, and what phones add behind a photo comes
 * after its own.
 */
export const isCutOff = (bytes: Uint8Array): boolean => {
  const start = scanStart(bytes);
  return (
    start >= 0 && !Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).includes(END_OF_IMAGE, start)
  );
};

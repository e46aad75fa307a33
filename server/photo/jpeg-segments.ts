/** Marker codes of ITU-T T.81, table B.1. */
const MARK = 0xff;
const START_OF_IMAGE = 0xd8;
export const START_OF_SCAN = 0xda;

/** One segment of a JPEG's header: its marker's code, where the marker stands and what follows its length, bytes. */
export type Segment = { readonly code: number; readonly at: number; readonly body: Uint8Array };

/** The segments of a JPEG's header, each a marker and its length in two bytes (ITU-T T.81, B.1.1.4), up to the first scan with it; none of another format. */
export const segmentsOf = (bytes: Uint8Array): Segment[] => {
  const segments: Segment[] = [];
  if (bytes[0] !== MARK || bytes[1] !== START_OF_IMAGE) return segments;
  let at = 2;
  while (at + 3 < bytes.length && bytes[at] === MARK) {
    const end = at + 2 + (bytes[at + 2]! << 8) + bytes[at + 3]!;
    segments.push({ code: bytes[at + 1]!, at, body: bytes.subarray(at + 4, end) });
    if (bytes[at + 1] === START_OF_SCAN) break;
    at = end;
  }
  return segments;
};

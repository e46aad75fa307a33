import { readFileSync } from 'node:fs';
import { deflateSync } from 'node:zlib';
import sharp from 'sharp';

/** A small picture of grass with a line, JPEG. */
export const smallJpeg = (): Promise<Buffer> =>
  sharp({ create: { width: 640, height: 480, channels: 3, background: { r: 70, g: 120, b: 60 } } })
    .composite([
      {
        input: Buffer.from(
          '<svg width="640" height="480"><path d="M20 400 L620 380" stroke="#fff" stroke-width="4"/></svg>',
        ),
      },
    ])
    .jpeg()
    .toBuffer();

/** The terrace picture of the register. */
export const terrace = (): Buffer =>
  readFileSync(new URL('../../fixtures/photos/d1-terrace.jpg', import.meta.url));
/** Its prepared marks. */
export const terraceMarks = (): object =>
  JSON.parse(readFileSync(new URL('../../fixtures/photos/d1-terrace.marks.json', import.meta.url), 'utf8'));

const CRC = Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k += 1) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});
const crc = (bytes: Buffer): number => {
  let c = 0xffffffff;
  for (const byte of bytes) c = CRC[(c ^ byte) & 255]! ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
};
const chunk = (type: string, data: Buffer): Buffer => {
  const body = Buffer.concat([Buffer.from(type), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc(body));
  return Buffer.concat([length, body, sum]);
};

/** A PNG whose header states `width` × `height` (PNG specification, 2nd edition, 11.2.2), with almost no data behind it. */
export const pngHeader = (width: number, height: number): Buffer => {
  const header = Buffer.from([0, 0, 0, 0, 0, 0, 0, 0, 8, 2, 0, 0, 0]);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  return Buffer.concat([
    Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.alloc(16))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
};

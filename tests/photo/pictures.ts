import sharp, { type Sharp } from 'sharp';

/** Colours of the four quarters of a test picture, as it should be seen: top left, top right, bottom left, bottom right. */
export const QUARTERS = {
  topLeft: [220, 30, 30],
  topRight: [30, 180, 40],
  bottomLeft: [30, 50, 200],
  bottomRight: [230, 210, 40],
} as const;

export const WIDTH = 320;
export const HEIGHT = 240;

/** A picture of four coloured quarters, 320 × 240 px. */
export const quarters = (width = WIDTH, height = HEIGHT): Sharp => {
  const data = Buffer.alloc(width * height * 3);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const row = y < height / 2 ? 'top' : 'bottom';
      data.set(QUARTERS[`${row}${x < width / 2 ? 'Left' : 'Right'}`], (y * width + x) * 3);
    }
  }
  return sharp(data, { raw: { width, height, channels: 3 } });
};

/** A picture with enough detail that its file has a long middle: seeded noise, 400 × 300 px, as JPEG. */
export const noisyJpeg = (): Promise<Buffer> => {
  const [width, height] = [400, 300];
  let state = 1;
  const data = Buffer.from({ length: width * height * 3 } as ArrayLike<number>).map(() => {
    state = (state * 1664525 + 1013904223) % 2 ** 32;
    return state >>> 24;
  });
  return sharp(data, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 80 })
    .toBuffer();
};

const chunk = (type: string, body: Buffer, crc: number): Buffer => {
  const out = Buffer.alloc(12 + body.length);
  out.writeUInt32BE(body.length, 0);
  out.write(type, 4, 'latin1');
  body.copy(out, 8);
  out.writeUInt32BE(crc >>> 0, 8 + body.length);
  return out;
};

/** CRC-32 of the PNG specification (W3C PNG, annex D), bit by bit. */
const crc32 = (bytes: Buffer): number => {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return crc ^ 0xffffffff;
};

/** A PNG whose header states `width` × `height` px and which holds not one of them. */
export const pngHeaderOnly = (width: number, height: number): Buffer => {
  const body = Buffer.alloc(13);
  body.writeUInt32BE(width, 0);
  body.writeUInt32BE(height, 4);
  body.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from('\x89PNG\r\n\x1a\n', 'latin1');
  const header = chunk('IHDR', body, crc32(Buffer.concat([Buffer.from('IHDR'), body])));
  const data = Buffer.alloc(40);
  return Buffer.concat([
    signature,
    header,
    chunk('IDAT', data, crc32(Buffer.concat([Buffer.from('IDAT'), data]))),
  ]);
};

/** A JPEG of 64 px whose frame header is made to state `width` × `height` px (marker SOF0, ITU-T T.81, B.2.2). */
export const jpegStating = async (width: number, height: number): Promise<Buffer> => {
  const bytes = await quarters(64, 64).jpeg().toBuffer();
  const at = bytes.indexOf(Buffer.from([0xff, 0xc0]));
  bytes.writeUInt16BE(height, at + 5);
  bytes.writeUInt16BE(width, at + 7);
  return bytes;
};

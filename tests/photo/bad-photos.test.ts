import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { LARGEST_UPLOAD } from '../../server/contract/photo.ts';
import { InputError } from '../../server/errors.ts';
import { PHOTO_LIMITS } from '../../server/photo/limits.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { readHeader } from '../../server/photo/read-header.ts';
import { jpegStating, noisyJpeg, pngHeaderOnly, quarters } from './pictures.ts';

const heic = (name: string): Buffer => readFileSync(new URL(`heic/${name}.heic`, import.meta.url));
const text = (value: string): Buffer => Buffer.from(value, 'latin1');
const cut = (bytes: Buffer, share: number): Buffer => bytes.subarray(0, Math.floor(bytes.length * share));

/** An end-of-image marker written into the middle of the data: the rest of the picture is lost, the file still ends properly. */
const endedEarly = (bytes: Buffer): Buffer => {
  const copy = Buffer.from(bytes);
  copy.set([0xff, 0xd9], Math.floor(copy.length / 2));
  return copy;
};

/** The coded picture overwritten with zeros, its description left whole. */
const blanked = (bytes: Buffer): Buffer => Buffer.from(bytes).fill(0, bytes.indexOf('mdat') + 8);

const refusal = async (open: Promise<unknown>): Promise<InputError> => {
  const error = await open.then(
    () => undefined,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(InputError);
  return error as InputError;
};

type Case = [name: string, code: string, message: RegExp, make: () => Promise<Buffer> | Buffer];

// Codes are this program's own; limits are those of the photo room (120 MP, 60 MB, 200 px).
const cases: Case[] = [
  ['an empty file', 'photo-empty', /0 bytes/, () => text('')],
  ['a text', 'not-a-picture', /not a picture/, () => text('corner1,12,40\n')],
  ['one byte', 'not-a-picture', /not a picture/, () => text('\xff')],
  ['random bytes after a picture name', 'not-a-picture', /not a picture/, () => text('photo.jpg\0\0\0\0\0')],
  ['a GIF', 'format-not-read', /GIF/, () => text('GIF89a\x01\0\x01\0')],
  ['an SVG', 'format-not-read', /SVG/, () => text('<svg xmlns="http://www.w3.org/2000/svg"/>')],
  ['a PDF', 'format-not-read', /PDF/, () => text('%PDF-1.7\n')],
  ['a video', 'format-not-read', /video/, () => text('\0\0\0\x18ftypmp42\0\0\0\0mp42isom')],
  ['a JPEG of two marker bytes', 'photo-damaged', /damaged/, () => text('\xff\xd8\xff\xe0')],
  ['a JPEG cut off in its data', 'photo-cut-off', /cut off/, async () => cut(await noisyJpeg(), 0.6)],
  ['a JPEG without its last bytes', 'photo-cut-off', /cut off/, async () => cut(await noisyJpeg(), 0.999)],
  ['a JPEG that ends in the middle', 'photo-cut-off', /cut off/, async () => endedEarly(await noisyJpeg())],
  ['a PNG cut off', 'photo-damaged', /damaged/, async () => cut(await quarters().png().toBuffer(), 0.7)],
  ['a HEIC with its data lost', 'photo-damaged', /HEIC/, () => blanked(heic('turned'))],
  ['a PNG without data', 'photo-damaged', /damaged/, () => pngHeaderOnly(400, 300)],
  ['a HEIC cut off in its data', 'photo-damaged', /damaged or cut off/, () => cut(heic('turned'), 0.7)],
  ['a HEIC cut off in its header', 'photo-damaged', /damaged or cut off/, () => cut(heic('turned'), 0.1)],
  ['a 1-pixel picture', 'photo-too-small', /1 × 1 px.*200 px/, () => quarters(1, 1).png().toBuffer()],
  ['a strip', 'photo-too-small', /2,000 × 199 px/, () => quarters(2000, 199).jpeg().toBuffer()],
  [
    'a PNG header of 30,000 × 30,000 px',
    'photo-too-large',
    /30,000 × 30,000 px \(900 megapixels\).*120/,
    () => pngHeaderOnly(30_000, 30_000),
  ],
  [
    'a JPEG header of 30,000 × 30,000 px',
    'photo-too-large',
    /900 megapixels/,
    () => jpegStating(30_000, 30_000),
  ],
  ['just over 120 MP', 'photo-too-large', /12,000 × 10,001 px/, () => pngHeaderOnly(12_000, 10_001)],
  [
    'more than 60 MB',
    'photo-too-heavy',
    /61 MB.*60 MB/,
    async () => Buffer.concat([await noisyJpeg(), Buffer.alloc(61e6)]).subarray(0, 61e6),
  ],
];

describe('bad photos', () => {
  it.each(cases)('refuses %s as %s in one sentence', async (_, code, message, make) => {
    const error = await refusal(openPhoto(await make()));
    expect(error.code).toBe(code);
    expect(error.message).toMatch(message);
    expect(error.message).toMatch(/^[A-Z][^\n]*\.$/);
    expect(error.status).toBeGreaterThanOrEqual(400);
    expect(error.status).toBeLessThan(500);
  });

  it('keeps silent on standard output when a HEIC photo is damaged', async () => {
    const written: unknown[] = [];
    const log = console.log;
    console.log = (...words) => written.push(words);
    await refusal(openPhoto(blanked(heic('turned'))));
    console.log = log;
    expect(written).toEqual([]);
  });

  it('reads the next photo after a bad one', async () => {
    await refusal(openPhoto(text('nothing')));
    await refusal(openPhoto(blanked(heic('turned'))));
    expect((await openPhoto(heic('turned'))).format).toBe('heic');
  });

  it('refuses by the header what it would have to decode: the header alone gives the same refusal', async () => {
    expect((await refusal(readHeader(pngHeaderOnly(30_000, 30_000)))).code).toBe('photo-too-large');
  });

  it('takes limits from its caller', async () => {
    const limits = { ...PHOTO_LIMITS, minSide: 1 };
    const photo = await openPhoto(await quarters(1, 1).png().toBuffer(), limits);
    expect(photo.raster).toMatchObject({ width: 1, height: 1 });
  });

  it('may be as heavy as an upload may be', () => {
    expect(PHOTO_LIMITS.maxBytes).toBe(LARGEST_UPLOAD);
  });
});

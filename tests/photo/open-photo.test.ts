import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { openPhoto, type UprightPhoto } from '../../server/photo/open-photo.ts';
import { HEIGHT, QUARTERS, quarters, WIDTH } from './pictures.ts';

const heic = (name: string): Buffer => readFileSync(new URL(`heic/${name}.heic`, import.meta.url));

type Corner = keyof typeof QUARTERS;

const colourAt = ({ raster }: UprightPhoto, acrossShare: number, downShare: number): number[] => {
  const at = Math.floor(downShare * raster.height) * raster.width + Math.floor(acrossShare * raster.width);
  return [...raster.data.subarray(at * 3, at * 3 + 3)];
};

/** The colours in the middles of the quarters, in reading order. */
const seen = (photo: UprightPhoto): number[][] =>
  [0.25, 0.75].flatMap((down) => [0.25, 0.75].map((across) => colourAt(photo, across, down)));

/** Lossy formats move a flat colour by a few codes; a wrong quarter or an unconverted profile is off by 15 and more. */
const CODES = 6;

const expectQuarters = (photo: UprightPhoto, order: readonly Corner[], codes = CODES): void => {
  seen(photo).forEach((colour, index) => {
    colour.forEach((value, channel) => {
      expect(Math.abs(value - QUARTERS[order[index]!][channel]!), `${index}: ${colour}`).toBeLessThanOrEqual(
        codes,
      );
    });
  });
  expect(photo.raster.data.length).toBe(photo.raster.width * photo.raster.height * 3);
};

const AS_STORED: Corner[] = ['topLeft', 'topRight', 'bottomLeft', 'bottomRight'];
const lossless = { quality: 100, chromaSubsampling: '4:4:4' } as const;

describe('formats', () => {
  const cases: [string, () => Promise<Buffer>][] = [
    ['jpeg', () => quarters().jpeg(lossless).toBuffer()],
    ['png', () => quarters().png().toBuffer()],
    ['webp', () => quarters().webp({ lossless: true }).toBuffer()],
    ['tiff', () => quarters().tiff({ compression: 'lzw' }).toBuffer()],
    ['avif', () => quarters().avif({ quality: 90 }).toBuffer()],
    ['heic', async () => heic('exif-says-turned')],
  ];
  it.each(cases)('opens %s as upright RGB', async (format, make) => {
    const photo = await openPhoto(await make());
    expect(photo.format).toBe(format);
    expect([photo.raster.width, photo.raster.height]).toEqual([WIDTH, HEIGHT]);
    expectQuarters(photo, AS_STORED);
  });

  it('does not change the bytes it was given', async () => {
    const bytes = await quarters().jpeg().toBuffer();
    const before = Buffer.from(bytes);
    await openPhoto(bytes);
    expect(bytes.equals(before)).toBe(true);
  });
});

describe('orientation', () => {
  // Where the stored corners are seen: EXIF 2.32 (CIPA DC-008), tag 0x0112: row 0 and column 0 of the stored picture lie at
  // 1 top left, 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right top, 7 right bottom, 8 left bottom.
  const cases: [number, Corner[]][] = [
    [1, ['topLeft', 'topRight', 'bottomLeft', 'bottomRight']],
    [2, ['topRight', 'topLeft', 'bottomRight', 'bottomLeft']],
    [3, ['bottomRight', 'bottomLeft', 'topRight', 'topLeft']],
    [4, ['bottomLeft', 'bottomRight', 'topLeft', 'topRight']],
    [5, ['topLeft', 'bottomLeft', 'topRight', 'bottomRight']],
    [6, ['bottomLeft', 'topLeft', 'bottomRight', 'topRight']],
    [7, ['bottomRight', 'topRight', 'bottomLeft', 'topLeft']],
    [8, ['topRight', 'bottomRight', 'topLeft', 'bottomLeft']],
  ];
  it.each(cases)('puts a photo of EXIF orientation %i upright', async (orientation, order) => {
    const bytes = await quarters().withMetadata({ orientation }).jpeg(lossless).toBuffer();
    const photo = await openPhoto(bytes);
    const turned = orientation >= 5;
    expect([photo.raster.width, photo.raster.height]).toEqual(turned ? [HEIGHT, WIDTH] : [WIDTH, HEIGHT]);
    expectQuarters(photo, order);
  });

  // ISO/IEC 23008-12: a HEIC picture is turned by its `irot` box alone; EXIF inside is a remark.
  it('turns a HEIC photo once when both its box and its EXIF say so', async () => {
    const photo = await openPhoto(heic('turned'));
    expect([photo.raster.width, photo.raster.height]).toEqual([HEIGHT, WIDTH]);
    expectQuarters(photo, ['bottomLeft', 'topLeft', 'bottomRight', 'topRight']);
  });
  it('leaves a HEIC photo as it is when only its EXIF speaks of turning', async () => {
    expectQuarters(await openPhoto(heic('exif-says-turned')), AS_STORED);
  });
});

describe('colour', () => {
  const cases: [string, () => Promise<Buffer>, number][] = [
    ['a Display P3 JPEG', () => quarters().withIccProfile('p3').jpeg(lossless).toBuffer(), CODES],
    ['a Display P3 HEIC', async () => heic('display-p3'), CODES],
    ['a 16-bit PNG', () => quarters().toColourspace('rgb16').png().toBuffer(), CODES],
    ['a PNG with alpha', () => quarters().ensureAlpha().png().toBuffer(), 0],
    ['a PNG of a palette', () => quarters().png({ palette: true }).toBuffer(), CODES],
    [
      'a progressive JPEG',
      () =>
        quarters()
          .jpeg({ ...lossless, progressive: true })
          .toBuffer(),
      CODES,
    ],
    // Print inks cannot show these full colours: the nearest they come to is far off, yet never another quarter's.
    ['a CMYK JPEG', () => quarters().toColourspace('cmyk').jpeg(lossless).toBuffer(), 80],
  ];
  it.each(cases)('reads %s as 8 bit sRGB', async (_, make, codes) => {
    expectQuarters(await openPhoto(await make()), AS_STORED, codes);
  });

  it('reads a grey photo as three equal channels', async () => {
    const photo = await openPhoto(await quarters().greyscale().png().toBuffer());
    for (const [r, g, b] of seen(photo)) expect([g, b]).toEqual([r, r]);
  });

  it('shows middle grey where a picture is transparent', async () => {
    const clear = {
      width: WIDTH,
      height: HEIGHT,
      channels: 4,
      background: { r: 9, g: 9, b: 9, alpha: 0 },
    } as const;
    const photo = await openPhoto(await sharp({ create: clear }).png().toBuffer());
    expect(colourAt(photo, 0.5, 0.5)).toEqual([128, 128, 128]);
  });
});

describe('several pictures in one file', () => {
  const second = async () => quarters().negate().png().toBuffer();
  it.each(['webp', 'tiff'] as const)('takes the first of %s', async (format) => {
    const first = await quarters().png().toBuffer();
    const joined = sharp([first, await second()], { join: { animated: true } });
    const bytes = await (format === 'webp' ? joined.webp({ lossless: true }) : joined.tiff()).toBuffer();
    expect((await sharp(bytes).metadata()).pages).toBe(2);
    const photo = await openPhoto(bytes);
    expect([photo.raster.width, photo.raster.height]).toEqual([WIDTH, HEIGHT]);
    expectQuarters(photo, AS_STORED);
  });
});

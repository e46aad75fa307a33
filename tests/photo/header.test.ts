import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { focalFrom35, readTakenWith } from '../../server/photo/exif.ts';
import { readHeader } from '../../server/photo/read-header.ts';
import { quarters } from './pictures.ts';

const tagged = (photoTags: Record<string, string>, orientation = 1): Promise<Buffer> =>
  quarters()
    .withExif({ IFD0: { Make: 'Example' }, IFD2: photoTags })
    .withMetadata({ orientation })
    .jpeg()
    .toBuffer();

describe('focal length', () => {
  // By hand: 36 mm × 24 mm film has a diagonal of 43.2666 mm; 4000 × 3000 px has one of 5000 px; 26/43.2666 × 5000 = 3004.63 px.
  it('is the equivalence by the diagonal of 35 mm film', () => {
    expect(focalFrom35(26, 4000, 3000)).toBeCloseTo(3004.63, 1);
  });
  it('is the same upright and lying', () => {
    expect(focalFrom35(26, 3000, 4000)).toBe(focalFrom35(26, 4000, 3000));
  });

  it.each<[string, Record<string, string>, number | null]>([
    ['is read from the tag', { FocalLengthIn35mmFilm: '26' }, 26],
    // CIPA DC-008: 0 means that the focal length is unknown.
    ['is unknown at zero', { FocalLengthIn35mmFilm: '0' }, null],
    ['is unknown without the tag', { ISOSpeedRatings: '100' }, null],
    ['is unknown when the value is absurd', { FocalLengthIn35mmFilm: '60000' }, null],
  ])('%s', async (_, tags, expected) => {
    const header = await readHeader(await tagged(tags));
    expect(header.focal35).toBe(expected);
    expect(header.focalPixels).toBe(expected && focalFrom35(expected, header.width, header.height));
  });

  it('is unknown when the picture was cropped to another shape since', async () => {
    const { exif } = await sharp(await tagged({ FocalLengthIn35mmFilm: '26' })).metadata();
    // The tags of the library state the size of the picture they were written for: 320 × 240.
    expect(readTakenWith(exif, 320, 240).focal35).toBe(26);
    expect(readTakenWith(exif, 240, 320).focal35).toBe(26);
    expect(readTakenWith(exif, 1280, 960).focal35).toBe(26);
    expect(readTakenWith(exif, 320, 200).focal35).toBeNull();
  });

  it('comes from HEIC too', async () => {
    const header = await readHeader(readFileSync(new URL('heic/turned.heic', import.meta.url)));
    expect(header).toMatchObject({ format: 'heic', width: 240, height: 320, focal35: 26 });
  });
});

describe('the time it was taken', () => {
  it.each<[string, Record<string, string>, string | null]>([
    [
      'is an instant with a time zone',
      { DateTimeOriginal: '2026:06:14 15:20:00', OffsetTimeOriginal: '+02:00' },
      '2026-06-14T13:20:00.000Z',
    ],
    [
      'is the clock of the camera without one',
      { DateTimeOriginal: '2026:06:14 15:20:00' },
      '2026-06-14T15:20:00',
    ],
    ['is unknown without the tag', { ISOSpeedRatings: '100' }, null],
    ['is unknown when never set', { DateTimeOriginal: '    :  :     :  :  ' }, null],
  ])('%s', async (_, tags, expected) => {
    expect((await readHeader(await tagged(tags))).takenAt).toBe(expected);
  });
});

describe('a header', () => {
  it('states the upright size', async () => {
    expect(await readHeader(await tagged({}, 6))).toMatchObject({ width: 240, height: 320, format: 'jpeg' });
  });
  it('tells nothing of how a picture was taken when its tags are broken', () => {
    const nothing = { focal35: null, takenAt: null };
    expect(readTakenWith(Buffer.from('Exif\0\0II*\0garbage'), 300, 200)).toEqual(nothing);
    expect(readTakenWith(Buffer.alloc(0), 300, 200)).toEqual(nothing);
    expect(readTakenWith(undefined, 300, 200)).toEqual(nothing);
  });
});

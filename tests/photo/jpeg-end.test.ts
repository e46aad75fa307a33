import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { isCutOff } from '../../server/photo/jpeg-end.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';

const pixels = {
  create: {
    width: 160,
    height: 120,
    channels: 3,
    background: '#3a7a2a',
    noise: { type: 'gaussian', mean: 90, sigma: 30 },
  },
} as const;
const jpeg = (progressive = false): Promise<Buffer> => sharp(pixels).jpeg({ progressive }).toBuffer();
/** An APP1 segment (ITU-T T.81, B.2.4.6) with a whole small JPEG in it, as a thumbnail stands before the photo. */
const withThumbnail = (photo: Buffer, small: Buffer): Buffer => {
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(small.length + 2, 2);
  return Buffer.concat([photo.subarray(0, 2), head, small, photo.subarray(2)]);
};

describe('a JPEG that stops before its end', () => {
  it.each([
    ['baseline', false],
    ['progressive', true],
  ])('is known by the missing end marker (ITU-T T.81, EOI): %s', async (_, progressive) => {
    const whole = await jpeg(progressive);
    expect(isCutOff(whole)).toBe(false);
    for (const share of [0.5, 0.9, 0.999])
      expect(isCutOff(whole.subarray(0, Math.floor(share * whole.length))), `${share}`).toBe(true);
  });

  it("is not taken for whole because of a thumbnail's end", async () => {
    const whole = withThumbnail(await jpeg(), await sharp(pixels).resize(16, 12).jpeg().toBuffer());
    expect(isCutOff(whole)).toBe(false);
    expect(isCutOff(whole.subarray(0, whole.length - 20))).toBe(true);
  });

  it('is not one to which a phone added something behind its end', async () => {
    expect(isCutOff(Buffer.concat([await jpeg(), Buffer.alloc(20_000, 7)]))).toBe(false);
  });

  it('is not one without a scan, nor another format', async () => {
    expect(isCutOff(Buffer.from([0xff, 0xd8, 0xff, 0xe0]))).toBe(false);
    expect(isCutOff(Buffer.alloc(0))).toBe(false);
    expect(isCutOff((await sharp(pixels).png().toBuffer()).subarray(0, 200))).toBe(false);
  });

  it('is named so while another photo is being read that is only damaged', async () => {
    const whole = readFileSync(new URL('../../fixtures/rendered/old-phone.jpg', import.meta.url));
    const broken = Buffer.from(whole);
    broken.fill(0x5a, Math.floor(0.4 * broken.length), Math.floor(0.45 * broken.length));
    const code = (bytes: Buffer): Promise<string> =>
      openPhoto(bytes).then(
        () => 'read',
        (error: { code: string }) => error.code,
      );
    const codes = await Promise.all(
      [0, 1, 2].flatMap(() => [code(whole.subarray(0, whole.length >> 1)), code(broken)]),
    );
    for (const [i, got] of codes.entries()) if (i % 2 === 0) expect(got).toBe('photo-cut-off');
  });
});

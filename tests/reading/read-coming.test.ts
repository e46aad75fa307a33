import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseMarks } from '../../server/contract/parse.ts';
import { InputError } from '../../server/errors.ts';
import { beginPhoto, openPhoto } from '../../server/photo/open-photo.ts';
import { readComing, readLawn } from '../../server/reading/read-lawn.ts';
import { loadFixtures } from '../accuracy/fixtures.ts';

const fixture = loadFixtures().find(({ name }) => name === 'd5-secondary')!;
const bytes = readFileSync(fixture.photo);
const marks = parseMarks(fixture.marks);
/** A file whose pixels end in the middle: its header is whole. */
const cutOff = bytes.subarray(0, Math.floor(bytes.length / 2));
/** Marks that no camera can be solved from: all but two are gone. */
const twoMarks = { ...marks, points: Object.fromEntries(Object.entries(marks.points).slice(0, 2)) };

const codeOf = async (reading: Promise<unknown>): Promise<string> => {
  try {
    await reading;
  } catch (error) {
    if (error instanceof InputError) return error.code;
    throw error;
  }
  return 'none';
};

describe('a photo that is still being decoded', () => {
  it('is read as one that lies ready, and solved before its pixels are there', async () => {
    const steps: string[] = [];
    const coming = await beginPhoto(bytes);
    let decoded = false;
    void coming.photo.then(() => {
      decoded = true;
    });
    const reading = await readComing(coming, marks, (step) => steps.push(`${step} ${decoded}`));
    expect(steps).toEqual(['solve false', 'trace true', 'find true', 'locate true']);
    expect(reading).toEqual(readLawn(await openPhoto(bytes), marks));
  });

  it('refuses marks that no camera fits', async () => {
    expect(await codeOf(readComing(await beginPhoto(bytes), twoMarks))).toBe('too-few-points');
  });

  it('names the fault of the photo first when both are wrong', async () => {
    expect(await codeOf(readComing(await beginPhoto(cutOff), twoMarks))).toBe('photo-cut-off');
  });

  it('keeps a fault of pixels that nobody waits for to itself', async () => {
    const faults: unknown[] = [];
    const hear = (fault: unknown): number => faults.push(fault);
    process.on('unhandledRejection', hear);
    expect((await beginPhoto(cutOff)).header.format).toBe('jpeg');
    // As long as two decodings take, the one that was begun has failed.
    for (let time = 0; time < 2; time++) expect(await codeOf(openPhoto(cutOff))).toBe('photo-cut-off');
    await new Promise((resolve) => setImmediate(resolve));
    process.off('unhandledRejection', hear);
    expect(faults).toEqual([]);
  });
});

import { readFileSync } from 'node:fs';
import sharp, { type Sharp } from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { type MarksInput, MarksSchema } from '../../server/contract/marks.ts';
import type { Lies, Reading } from '../../server/contract/reading.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { readLawn } from '../../server/reading/read-lawn.ts';
import { loadFixtures } from '../accuracy/fixtures.ts';

/**
 * Changes of a picture that change nothing on the lawn. No call may flip; it may become too close. Sources: none needed, the
 * expectation is the reading of the unchanged picture.
 */
const fixture = loadFixtures().find(({ name }) => name === 'd1-terrace')!;
const bytes = readFileSync(fixture.photo);
const marks = fixture.marks as MarksInput;
const WIDTH = 3264;
const HEIGHT = 2448;

type Pair = [number, number];
type Move = (point: Pair) => Pair;

const moved = (move: Move, rename: (name: string) => string = (name) => name): MarksInput => ({
  ...marks,
  points: Object.fromEntries(
    Object.entries(marks.points).map(([name, point]) => [rename(name), move(point as Pair)]),
  ),
});

const read = async (photo: Uint8Array, input: MarksInput): Promise<Reading> =>
  readLawn(await openPhoto(photo), MarksSchema.parse(input));

const jpeg = (image: Sharp, quality = 92): Promise<Buffer> =>
  image.keepExif().jpeg({ quality, chromaSubsampling: '4:2:0' }).toBuffer();

const callOf = (reading: Reading): Map<string, Lies> =>
  new Map(reading.call!.balls.map(({ colour, lies }) => [colour, lies]));

/** West and east change places; the line after hoop 1 runs from west to east and stays. */
const MIRROR: Readonly<Record<string, string>> = {
  corner1: 'corner4',
  corner2: 'corner3',
  corner3: 'corner2',
  corner4: 'corner1',
};

describe('a call does not flip when', () => {
  let before: Map<string, Lies>;
  beforeAll(async () => {
    before = callOf(await read(bytes, marks));
  });

  const cases: { name: string; photo: () => Promise<Buffer>; marks: MarksInput }[] = [
    {
      name: 'the picture is mirrored',
      photo: () => jpeg(sharp(bytes).flop()),
      marks: moved(
        ([x, y]) => [WIDTH - x, y],
        (name) => MIRROR[name]!,
      ),
    },
    {
      name: 'it is stored turned by 90° with the orientation that turns it back',
      photo: () => sharp(bytes).rotate(-90).withMetadata({ orientation: 6 }).jpeg({ quality: 92 }).toBuffer(),
      marks,
    },
    {
      name: 'it is made smaller, to 70 %',
      photo: () => jpeg(sharp(bytes).resize(Math.round(WIDTH * 0.7), Math.round(HEIGHT * 0.7))),
      marks: moved(([x, y]) => [
        (x * Math.round(WIDTH * 0.7)) / WIDTH,
        (y * Math.round(HEIGHT * 0.7)) / HEIGHT,
      ]),
    },
    { name: 'it is recompressed at quality 70', photo: () => jpeg(sharp(bytes), 70), marks },
    {
      name: 'it is 20 % brighter',
      photo: () => jpeg(sharp(bytes).linear(1.2, 0)),
      marks,
    },
    {
      name: 'it is 20 % darker',
      photo: () => jpeg(sharp(bytes).linear(0.8, 0)),
      marks,
    },
  ];

  for (const { name, photo, marks: input } of cases)
    it(name, async () => {
      const after = callOf(await read(await photo(), input));
      // At least six of the eight balls must be found again, or nothing was tested.
      expect([...after.keys()].filter((colour) => before.has(colour)).length).toBeGreaterThanOrEqual(6);
      for (const [colour, lies] of after) {
        const was = before.get(colour);
        const flipped = (was === 'beyond' && lies === 'short') || (was === 'short' && lies === 'beyond');
        expect(flipped, `${colour}: ${was} → ${lies}`).toBe(false);
      }
    });
});

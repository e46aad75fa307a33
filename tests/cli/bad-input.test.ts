import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { jpegStating, noisyJpeg, pngHeaderOnly, quarters } from '../photo/pictures.ts';
import { type Outcome, openFolder, sward } from './harness.ts';

let folder: Awaited<ReturnType<typeof openFolder>>;
beforeAll(async () => {
  folder = await openFolder();
});
afterAll(() => folder.close());

/** One clear sentence on standard error, nothing on standard output, exit code 2. */
const expectRefusal = ({ code, out, err }: Outcome, sentence: RegExp): void => {
  expect(out).toEqual([]);
  expect(err).toHaveLength(1);
  expect(err[0]).toMatch(sentence);
  expect(err[0]).not.toContain('\n');
  expect(err[0]).toMatch(/[.]$/);
  expect(code).toBe(2);
};

// Four corners of a 400 × 300 px picture that could be of a lawn.
const POINTS = { corner1: [40, 250], corner2: [130, 120], corner3: [270, 120], corner4: [360, 250] };
const GOOD = { points: POINTS, hoopScored: 1 };

describe('usage', () => {
  it.each<[string, string[], RegExp]>([
    ['no command', [], /No command was given: use read, sight/],
    ['an unknown command', ['raed'], /no command "raed"/],
    ['no photo', ['read'], /0 files were named and one is needed.*read PHOTO --marks FILE/],
    ['two photos', ['read', 'a.jpg', 'b.jpg', '--marks', 'm.json'], /2 files were named/],
    ['no marks', ['read', 'a.jpg'], /No marks were given/],
    ['marks without a file', ['read', 'a.jpg', '--marks'], /option "--marks/],
    ['an unknown option', ['read', 'a.jpg', '--hoop', '3'], /option "--hoop"/],
    ['marks for judge', ['judge', 'a.json', '--marks', 'm.json'], /Marks were given and none are taken/],
    [
      'a marks file that is not there',
      ['read', 'a.jpg', '--marks', 'none.json'],
      /marks file "none.json" was not found/,
    ],
    ['a question file that is not there', ['judge', 'none.json'], /question file "none.json" was not found/],
  ])('%s is refused', async (_, words, sentence) => {
    expectRefusal(await sward(...words), sentence);
  });

  it('a photo that is not there is refused', async () => {
    const marks = await folder.put('good.json', GOOD);
    expectRefusal(
      await sward('read', join(folder.path, 'none.jpg'), '--marks', marks),
      /photo ".*none.jpg" was not found/,
    );
    expectRefusal(await sward('read', folder.path, '--marks', marks), /is a folder/);
  });
});

describe('bad marks', () => {
  it.each<[string, unknown, RegExp]>([
    ['no JSON', 'corner1 12 40', /marks could not be read as JSON/],
    ['JSON that is cut off', '{ "points": {', /marks could not be read as JSON/],
    ['a list', [], /an object.*marks.*received a list/],
    ['no points', { hoopScored: 1 }, /marks.points.*nothing/],
    ['marks as text', { points: { ...POINTS, corner1: ['40', '250'] } }, /corner1.*text "40"/],
    [
      'a mark as one text',
      { points: { ...POINTS, corner1: '40,250' } },
      /pair of numbers.*corner1.*"40,250"/,
    ],
    ['a mark of one number', { points: { ...POINTS, corner1: [40] } }, /corner1/],
    ['a mark of no number', { points: { ...POINTS, corner1: [null, 250] } }, /corner1/],
    ['an unknown point', { points: { ...POINTS, corner5: [1, 2] } }, /"corner5".*corner1 to corner4/],
    ['an unknown colour', { ...GOOD, balls: ['blue', 'purple'] }, /"purple".*blue, red, black/],
    ['no colour', { ...GOOD, balls: [] }, /at least 1/],
    ['hoop 14', { ...GOOD, hoopScored: 14 }, /Hoop 14.*1 to 13/],
    ['hoop 0', { ...GOOD, hoopScored: 0 }, /Hoop 0.*1 to 13/],
    ['half a hoop', { ...GOOD, hoopScored: 1.5 }, /Hoop 1.5/],
    ['a hoop as text', { ...GOOD, hoopScored: 'one' }, /number.*hoopScored.*"one"/],
    ['a certainty of 1', { ...GOOD, certainty: 1 }, /less than 1.*certainty/],
    ['a lawn of no width', { ...GOOD, lawn: { width: 0 } }, /at least 5.*width/],
  ])('%s is refused', async (_, marks, sentence) => {
    const file = await folder.put('marks.json', marks);
    // The marks are looked at first: the photo need not be there.
    expectRefusal(await sward('read', 'none.jpg', '--marks', file, '--json'), sentence);
  });
});

describe('bad photos', () => {
  it.each<[string, () => Promise<Uint8Array> | Uint8Array, RegExp]>([
    ['a text', () => Buffer.from('corner1,12,40'), /not a picture/],
    ['nothing', () => Buffer.alloc(0), /0 bytes/],
    ['a cut-off JPEG', async () => (await noisyJpeg()).subarray(0, 20_000), /cut off/],
    ['a 1-pixel picture', () => quarters(1, 1).png().toBuffer(), /1 × 1 px/],
    ['a PNG header of 30,000 × 30,000 px', () => pngHeaderOnly(30_000, 30_000), /30,000 × 30,000/],
    ['a JPEG header of 30,000 × 30,000 px', () => jpegStating(30_000, 30_000), /30,000 × 30,000/],
  ])('%s is refused', async (_, make, sentence) => {
    const marks = await folder.put('good.json', GOOD);
    const photo = await folder.put('photo.jpg', await make());
    for (const command of ['read', 'sight', 'check']) {
      expectRefusal(await sward(command, photo, '--marks', marks, '--json'), sentence);
    }
  });
});

describe('bad marks for a good photo', () => {
  it.each<[string, unknown, RegExp]>([
    ['marks outside the picture', { points: { ...POINTS, corner4: [4000, 250] } }, /corner4|corner 4/i],
    ['marks left of the picture', { points: { ...POINTS, corner1: [-40, 250] } }, /corner1|corner 1/i],
    ['three corners', { points: { ...POINTS, corner4: undefined } }, /four|4/],
    [
      'corners in mirrored order',
      {
        points: {
          ...POINTS,
          corner1: POINTS.corner4,
          corner4: POINTS.corner1,
          corner2: POINTS.corner3,
          corner3: POINTS.corner2,
        },
      },
      /order/,
    ],
    [
      'corners in one line',
      { points: { corner1: [10, 10], corner2: [60, 60], corner3: [110, 110], corner4: [160, 160] } },
      /line/,
    ],
  ])('%s are refused', async (_, marks, sentence) => {
    const photo = await folder.put('grass.jpg', await noisyJpeg());
    const file = await folder.put('marks.json', marks);
    expectRefusal(await sward('read', photo, '--marks', file, '--json'), sentence);
  });
});

describe('bad questions', () => {
  const OFFSIDE = { kind: 'offside', hoopScored: 4, balls: { blue: { x: 1, y: 2 } } };
  it.each<[string, unknown, RegExp]>([
    ['no JSON', 'offside?', /question could not be read as JSON/],
    ['an unknown kind', { kind: 'onside' }, /kind/],
    ['the last hoop', { ...OFFSIDE, hoopScored: 13 }, /game is over/],
    ['a hoop beyond the last', { ...OFFSIDE, hoopScored: 14 }, /Hoop 14/],
    ['an unknown colour', { ...OFFSIDE, balls: { purple: { x: 1, y: 2 } } }, /purple/],
    ['a place as text', { ...OFFSIDE, balls: { blue: { x: '1', y: 2 } } }, /number.*x.*"1"/],
    ['an unknown edition', { ...OFFSIDE, edition: '1999' }, /edition/],
  ])('%s is refused', async (_, question, sentence) => {
    expectRefusal(await sward('judge', await folder.put('question.json', question)), sentence);
  });
});

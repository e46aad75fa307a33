import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { noisyJpeg } from '../photo/pictures.ts';
import { openFolder, sward } from './harness.ts';

let folder: Awaited<ReturnType<typeof openFolder>>;
let photo: string;
beforeAll(async () => {
  folder = await openFolder();
  photo = await folder.put('grass.jpg', await noisyJpeg());
});
afterAll(() => folder.close());

/** Both ends of the line of hoop 1 on a picture of 400 × 300 px, as seen from behind the western one. */
const POINTS = { markerW: [205, 280], markerE: [198, 110] };
const GOOD = { points: POINTS, hoopScored: 1 };

it('names a mark that lies far from where the two ends put it, and measures on', async () => {
  const file = await folder.put('sky.json', { ...GOOD, points: { ...POINTS, hoop1: [190, 12] } });
  const { code, out } = await sward('sight', photo, '--marks', file, '--json');
  const { warnings } = JSON.parse(out[0]!) as { warnings: { code: string; message: string }[] };
  expect(code).toBe(0);
  expect(warnings.find((warning) => warning.code === 'marks-disagree')!.message).toMatch(/hoop1 worst/);
});

/** Each refusal is one sentence or two: what was found, what is needed, what to do. */
describe('a sighting is refused', () => {
  it.each<[string, unknown, RegExp, RegExp, RegExp]>([
    [
      'with one end marked',
      { ...GOOD, points: { markerW: POINTS.markerW } },
      /found markerW/,
      /needs both ends.*markerW and markerE/,
      /Mark the foot of both markers/,
    ],
    [
      'with no end marked',
      { ...GOOD, points: { peg: [201, 150] } },
      /found peg/,
      /needs both ends/,
      /Mark the foot/,
    ],
    [
      'with the ends of another line',
      { ...GOOD, hoopScored: 2 },
      /found markerW, markerE/,
      /markerS14 and markerN14/,
      /Mark the foot/,
    ],
    ['without the hoop', { points: POINTS }, /Found no hoopScored/, /needs the hoop.*1 to 12/, /Add it/],
    [
      'after the last hoop',
      { ...GOOD, hoopScored: 13 },
      /hoop 13 was scored/,
      /no halfway line is left/,
      /give the hoop/,
    ],
    [
      'with both ends at one height',
      { ...GOOD, points: { markerW: [205, 150], markerE: [198, 150] } },
      /marked below the near one/,
      /the other higher/,
      /Mark the end you stand behind lower/,
    ],
    [
      'with an end outside the photo',
      { ...GOOD, points: { ...POINTS, markerE: [4198, 110] } },
      /markerE at \(4198, 110\)/,
      /outside the photo of 400 × 300 px/,
      /Move it into the photo/,
    ],
    [
      'with a tap outside the photo',
      { ...GOOD, tap: [-3, 20] },
      /tap at \(-3, 20\)/,
      /outside the photo of 400 × 300 px/,
      /tap the ball in the photo/,
    ],
    [
      'with a tap on the sky',
      { ...GOOD, tap: [200, 4] },
      /tap at \(200, 4\)/,
      /above the horizon/,
      /tap the ball on the grass/,
    ],
    [
      'with a check of no date',
      { ...GOOD, checked: { at: 'yesterday', markers: [] } },
      /"yesterday"/,
      /Expected a valid datetime/,
      /marks\.checked\.at/,
    ],
    [
      'with a checked marker of no name',
      { ...GOOD, checked: { at: '2026-05-03T09:30:00.000Z', markers: [{ name: 'Q', along: 0, sd: 0.01 }] } },
      /"Q"/,
      /one of W, E, S10\.5/,
      /marks\.checked\.markers\[0\]\.name/,
    ],
  ])('%s', async (_, marks, found, needed, advice) => {
    const file = await folder.put('marks.json', marks);
    const { code, out, err } = await sward('sight', photo, '--marks', file, '--json');
    expect([code, out, err.length]).toEqual([2, [], 1]);
    for (const part of [found, needed, advice]) expect(err[0]).toMatch(part);
    expect(err[0]).not.toContain('\n');
  });
});

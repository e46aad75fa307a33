import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import type { PointName } from '../../server/lawn/named-points.ts';
import type { Raster } from '../../server/units/raster.ts';
import { guessCorners } from '../../server/vision/lines/guess-corners.ts';

const folder = new URL('../../fixtures/photos/', import.meta.url);

const open = async (name: string, turn = 0): Promise<Raster> => {
  const file = new URL(`${name}.jpg`, folder).pathname;
  const upright = await sharp(file).rotate().removeAlpha().png({ compressionLevel: 0 }).toBuffer();
  const { data, info } = await sharp(upright).rotate(turn).raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data: new Uint8Array(data) };
};

const truthOf = (name: string): Record<string, [number, number]> =>
  (
    JSON.parse(readFileSync(new URL(`${name}.truth.json`, folder), 'utf8')) as {
      image: Record<string, [number, number]>;
    }
  ).image;

describe('guessing the corners from white lines', () => {
  // All six pictures are taken from the south half, which is what the guess takes for granted.
  for (const name of ['d1-terrace', 'd2-balcony', 'd3-corner', 'd4-mast', 'd5-secondary'])
    it(`finds the four corners of ${name}`, async () => {
      const guess = guessCorners(await open(name), { court: STANDARD_COURT });
      const truth = truthOf(name);
      expect(Object.keys(guess!.points).sort()).toEqual(['corner1', 'corner2', 'corner3', 'corner4']);
      // A finger places a mark within 2 px; a guess worse than that would be moved.
      for (const [corner, { x, y }] of Object.entries(guess!.points))
        expect(Math.hypot(x - truth[corner]![0], y - truth[corner]![1]), corner).toBeLessThan(2);
    });

  it('offers peg and hoops where near corners lie outside the picture', async () => {
    const guess = guessCorners(await open('d6-partial'), { court: STANDARD_COURT });
    const truth = truthOf('d6-partial');
    const names = Object.keys(guess!.points) as PointName[];
    expect(names).toContain('corner2');
    expect(names).not.toContain('corner1');
    expect(names).toContain('hoop4');
    for (const name of names) {
      const { x, y } = guess!.points[name]!;
      // The lawn of this picture is uneven by 6 mm and more, which is up to 2.5 px near the camera.
      expect(Math.hypot(x - truth[name]![0], y - truth[name]![1]), name).toBeLessThan(4);
    }
  });

  it('finds them in a picture that stands on its head', async () => {
    const guess = guessCorners(await open('d1-terrace', 180), { court: STANDARD_COURT });
    for (const [corner, [x, y]] of Object.entries(truthOf('d1-terrace')).filter(([name]) =>
      name.startsWith('corner'),
    )) {
      const found = guess!.points[corner as PointName]!;
      // The picture is 3264 × 2448 px.
      expect(Math.hypot(found.x - (3264 - x), found.y - (2448 - y)), corner).toBeLessThan(2);
    }
  });

  const EMPTY: readonly { name: string; picture: () => Promise<Raster> }[] = [
    {
      name: 'an even green field',
      picture: async () => ({ width: 900, height: 700, data: new Uint8Array(3 * 900 * 700).fill(90) }),
    },
    { name: 'a picture of one px', picture: async () => ({ width: 1, height: 1, data: new Uint8Array(3) }) },
    { name: 'a picture along a line, without four sides', picture: () => open('d7-sighting') },
  ];
  for (const { name, picture } of EMPTY)
    it(`offers nothing for ${name}`, async () => {
      expect(guessCorners(await picture(), { court: STANDARD_COURT })).toBeNull();
    });
});

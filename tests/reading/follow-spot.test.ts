import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { followSpot } from '../../server/reading/follow-spot.ts';
import { focalPriorOf } from '../../server/reading/from-marks.ts';
import { imagePoint } from '../../server/units/points.ts';
import { loadFixtures } from '../accuracy/fixtures.ts';

const fixture = (name: string) => loadFixtures().find((one) => one.name === name)!;
const corners = (name: string): Record<string, [number, number]> => {
  const image = fixture(name).truth.image as Record<string, [number, number]>;
  return Object.fromEntries(Object.entries(image).filter(([point]) => point.startsWith('corner')));
};
/** Marks of the former picture: the truth of `name`, moved as a phone held a little otherwise would. */
const formerOf = (name: string, dx: number, dy: number) => ({
  points: Object.entries(corners(name)).map(([point, [x, y]]) => ({
    name: point as 'corner1',
    image: imagePoint(x + dx, y + dy),
  })),
  width: 3264,
  height: 2448,
});
const follow = async (picture: string, former: string, dx: number, dy: number) => {
  const { raster, focal35 } = await openPhoto(readFileSync(fixture(picture).photo));
  const focalPrior = focalPriorOf(focal35, raster.width, raster.height);
  return followSpot(raster, { former: formerOf(former, dx, dy), court: STANDARD_COURT, focalPrior });
};

describe('the next picture from a spot', () => {
  // Expected: the exact image positions that come with the picture. The inner edges are traced, so two px are asked for.
  it('takes its marks from the last one, pulled to the lines', async () => {
    const { points, followed } = await follow('d1-terrace', 'd1-terrace', 30, -18);
    expect(followed).toBe(true);
    for (const [name, [x, y]] of Object.entries(corners('d1-terrace'))) {
      const at = points![name as 'corner1']!;
      expect(Math.hypot(at[0] - x, at[1] - y)).toBeLessThan(2);
    }
  }, 60_000);

  it('asks for corners when it was taken from elsewhere', async () => {
    const { points, followed, message } = await follow('d4-mast', 'd1-terrace', 0, 0);
    expect([points, followed]).toEqual([null, false]);
    expect(message).toContain('four corners');
  }, 60_000);
});

import { describe, expect, it } from 'vitest';
import type { Camera } from '../../server/camera/types.ts';
import { pixels } from '../../server/units/numbers.ts';
import type { CourtPlace } from '../../web/court/court-places.ts';
import { boxOfPlace, seenPlaces, tagOf } from '../../web/court/seen-places.ts';

/**
 * A camera 10 m above (10, 10) that looks straight down, north at the top: 1 m on the ground is 100 px, and the point below it is in the
 * middle of the picture.
 */
const ABOVE: Camera = {
  position: [10, 10, 10],
  rotation: [1, 0, 0, 0, -1, 0, 0, 0, -1],
  focal: pixels(1000),
  radial: [0, 0],
  width: pixels(1000),
  height: pixels(800),
};

const place = (x: number, y: number, off: CourtPlace['off'], within: boolean | null): CourtPlace => ({
  name: 'hoop5',
  words: 'Hoop 5',
  x,
  y,
  off,
  within,
});

describe('the things of a court in the photo', () => {
  it('are where they belong and where they were found', () => {
    const [seen] = seenPlaces(ABOVE, [place(11, 12, { dx: 0.5, dy: -1, give: 0.01 }, false)]);
    // 1 m east and 2 m north of the middle: 100 px right, 200 px up; found 0.5 m east and 1 m south of that.
    expect(seen!.proper).toMatchObject({ x: expect.closeTo(600, 6), y: expect.closeTo(200, 6) });
    expect(seen!.found).toMatchObject({ x: expect.closeTo(650, 6), y: expect.closeTo(300, 6) });
  });

  it('are left out when the photo does not show their place, and kept without a find', () => {
    expect(seenPlaces(ABOVE, [place(16, 10, null, null)])).toEqual([]);
    expect(seenPlaces(ABOVE, [place(10, 10, null, null)])[0]!.found).toBeNull();
  });

  it('are shown with some of the lawn about them', () => {
    const box = boxOfPlace(ABOVE, { x: 10, y: 10 })!;
    // 0.7 m each way is 70 px, and a twentieth of 140 px, at least 20 px, around: 90 px each way.
    expect(box).toEqual({
      left: expect.closeTo(410, 6),
      right: expect.closeTo(590, 6),
      top: expect.closeTo(310, 6),
      bottom: expect.closeTo(490, 6),
    });
  });

  const off = { dx: 0.18, dy: 0, give: 0.02 };
  it.each([
    ['off', place(0, 0, off, false), '180 mm'],
    ['too close to say', place(0, 0, off, null), '180 mm?'],
    ['not seen', place(0, 0, null, null), '?'],
    ['in its place', place(0, 0, off, true), null],
  ] as const)('are told apart: %s', (_name, one, expected) => {
    expect(tagOf(one)).toBe(expected);
  });
});

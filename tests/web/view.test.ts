import { describe, expect, test } from 'vitest';
import { imagePoint } from '../../server/units/points.ts';
import { fitBox, startView, toFrame, toPhoto, visiblePart, wholePhoto } from '../../web/photo/view.ts';

const PHOTO = { width: 4000, height: 3000 };
const FRAME = { width: 400, height: 600 };

// Expected values by hand: 400 / 4000 = 0.1 px a px; 600 − 300 = 300 px are left over, half above and half below.
describe('the view of a photo', () => {
  test('shows the whole photo in the middle of the frame', () => {
    expect(fitBox(wholePhoto(PHOTO), FRAME)).toEqual({ k: 0.1, x: 0, y: 150 });
  });

  test('goes from photo to frame and back', () => {
    const view = { k: 2.5, x: -340, y: 77 };
    const point = imagePoint(812.25, 99.5);
    const back = toPhoto(view, toFrame(view, point));
    expect(back.x).toBeCloseTo(point.x, 9);
    expect(back.y).toBeCloseTo(point.y, 9);
  });

  test('never starts with a margin inside the photo: a box at the corner is shown against the corner', () => {
    const view = startView({ left: 0, top: 0, right: 400, bottom: 600 }, FRAME, PHOTO);
    expect(view).toEqual({ k: 1, x: 0, y: 0 });
  });

  test('cuts the visible part at the edges of the photo', () => {
    expect(visiblePart({ k: 1, x: 100, y: -50 }, FRAME, PHOTO)).toEqual({
      left: 0,
      top: 50,
      right: 300,
      bottom: 650,
    });
  });
});

import { describe, expect, it } from 'vitest';
import type { BallColour } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { imagePoint } from '../../server/units/points.ts';
import { findBalls } from '../../server/vision/balls/find-balls.ts';
import { measureBall } from '../../server/vision/balls/measure-ball.ts';
import { centreOf, lookAt, render, type SceneBall } from './balls-scene.ts';

/** Seven metres up, looking at eight balls some 14 m away: about 8 px each. */
const CAMERA = lookAt([12.8, 2, 6], [12.8, 15], 1250, 960, 480);
const EIGHT: SceneBall[] = [
  { colour: 'blue', x: 10.4, y: 14 },
  { colour: 'red', x: 11.2, y: 15.2 },
  { colour: 'black', x: 12.1, y: 14.2 },
  { colour: 'yellow', x: 12.3, y: 13.4 },
  { colour: 'green', x: 13.4, y: 14.6 },
  { colour: 'pink', x: 14.2, y: 13.6 },
  { colour: 'brown', x: 14.9, y: 15 },
  { colour: 'white', x: 15.6, y: 14.1 },
];
const COLOURS = EIGHT.map((ball) => ball.colour as BallColour);

describe('findBalls', () => {
  const raster = render(CAMERA, { balls: EIGHT });
  const found = findBalls(raster, CAMERA, STANDARD_COURT, { colours: COLOURS });

  it('finds all eight colours, each at its own ball, within half a pixel of the traced centre', () => {
    expect(found.map((ball) => ball.colour).sort()).toEqual([...COLOURS].sort());
    for (const ball of found) {
      const truth = centreOf(CAMERA, EIGHT.find((each) => each.colour === ball.colour)!);
      expect(Math.hypot(ball.image.x - truth.x, ball.image.y - truth.y), ball.colour).toBeLessThan(0.5);
    }
  });

  it('reports only the asked colours and takes no other ball for one of them', () => {
    const asked = findBalls(raster, CAMERA, STANDARD_COURT, { colours: ['red', 'white'] });
    expect(asked.map((ball) => ball.colour)).toEqual(['red', 'white']);
  });

  it('finds nothing on an empty lawn', () => {
    const empty = render(CAMERA, { balls: [] });
    expect(findBalls(empty, CAMERA, STANDARD_COURT, { colours: COLOURS })).toEqual([]);
  });

  it('is the same for the same picture, and leaves the picture as it was', () => {
    const before = raster.data.slice();
    expect(findBalls(raster, CAMERA, STANDARD_COURT, { colours: COLOURS })).toEqual(found);
    expect(Buffer.compare(raster.data, before)).toBe(0);
  });

  it('tells two touching balls apart', () => {
    const pair: SceneBall[] = [
      { colour: 'red', x: 12.8, y: 14 },
      { colour: 'yellow', x: 12.893, y: 14 },
    ];
    const both = findBalls(render(CAMERA, { balls: pair }), CAMERA, STANDARD_COURT, {
      colours: ['red', 'yellow'],
    });
    expect(both.map((ball) => ball.colour)).toEqual(['red', 'yellow']);
  });
});

describe('measureBall', () => {
  it.each([
    ['one radius to the left of a ball', -4, 0],
    ['one radius above it', 0, -4],
  ])('moves to the outline from a tap %s', (_, dx, dy) => {
    const ball: SceneBall = { colour: 'yellow', x: 12.8, y: 14 };
    const truth = centreOf(CAMERA, ball);
    const raster = render(CAMERA, { balls: [ball], sun: null });
    const measured = measureBall(raster, CAMERA, imagePoint(truth.x + dx, truth.y + dy), 'yellow');
    expect(measured?.colour).toBe('yellow');
    expect(Math.hypot(measured!.image.x - truth.x, measured!.image.y - truth.y)).toBeLessThan(0.5);
  });

  it('is null where no ball is', () => {
    expect(measureBall(render(CAMERA, { balls: [] }), CAMERA, imagePoint(480, 240), 'red')).toBeNull();
  });
});

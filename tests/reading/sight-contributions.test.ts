import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { pointDerivatives } from '../../server/camera/locate-ball.ts';
import type { SolvedCamera } from '../../server/camera/types.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { onPeg, tapped } from '../../server/reading/sight-choice.ts';
import { contributionsOf } from '../../server/reading/sight-contributions.ts';
import { metres } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import type { BallSighting } from '../../server/vision/types.ts';
import { phoneAt } from './simulated-answers.ts';

const LINE = { axis: 'y', at: metres(16.002), nextHoopSide: 1 } as const;
const camera = phoneAt(-3, 16.302, 1.6, 12, 16.002);
// Only the height is uncertain: 0.1 m.
const covariance = new Float64Array(81);
covariance[2 * 10] = 0.01;
const solved: SolvedCamera = { camera, covariance, residual: 0, marks: [] };
const image = projectPoint(camera, lawnPoint3(9, 16.062, BALL_RADIUS))!;
const contributions = contributionsOf(solved, image, pointDerivatives(camera, image, BALL_RADIUS)!, LINE);

describe('what a sighting owes to height, offset, roll and lens', () => {
  // By hand: r/(h − r) = 0.046/1.554 = 0.029601. 0.3 m aside: −8.88 mm. 60 mm off the line: 1.776 mm.
  it('shifts by 46 mm of ball seen from aside', () => {
    expect(contributions.aside.shift).toBeCloseTo(-0.3 * (0.046 / 1.554), 9);
    expect(contributions.height.shift).toBeCloseTo(0.06 * (0.046 / 1.554), 6);
  });
  // The phone is held level and has no distortion.
  it('owes nothing to a level phone and a straight lens', () => {
    expect(contributions.roll.shift).toBeCloseTo(0, 9);
    expect(contributions.lens).toEqual({ sd: 0, shift: 0 });
  });
  // By hand: with everything else held, the ball's place grows with the height: (ball − phone) across ÷ (h − r) = −0.24/1.554 for each metre, × 0.1 m = 15.4 mm.
  it('follows an uncertain height by the slope of the line of sight', () => {
    expect(contributions.height.sd).toBeCloseTo((0.1 * 0.24) / 1.554, 5);
    expect(contributions.aside.sd).toBe(0);
  });
});

const ball = (x: number, y: number, z: number): BallSighting => ({
  colour: 'red',
  image: projectPoint(camera, lawnPoint3(x, y, z))!,
  covariance: { xx: 0.04, xy: 0, yy: 0.04 },
  confidence: 1,
  visible: 1,
});

describe('which balls of a sighting count', () => {
  it('leaves out a band of the peg, 0.3 m up, and keeps a ball before it and one beside it', () => {
    const [band, before, beside] = [
      ball(12.8016, 16.002, 0.3),
      ball(9, 16.05, 0.046),
      ball(12.8, 16.3, 0.046),
    ];
    const lies = [band, before, beside].map(({ image }) => onPeg(camera, STANDARD_COURT, image));
    expect(lies).toEqual([true, false, false]);
  });
  it('takes the ball nearest to the finger', () => {
    const [one, other] = [ball(9, 16.05, 0.046), ball(14, 16.1, 0.046)];
    expect(tapped([other, one], [one.image.x + 6, one.image.y - 4], ['red'])).toEqual([one]);
  });
  it('places a ball where the finger is when none was found, firm only when its colour is known', () => {
    const at: [number, number] = [500, 900];
    expect(tapped([], at, ['red'])[0]).toMatchObject({
      colour: 'red',
      image: imagePoint(...at),
      confidence: 1,
    });
    expect(tapped([], at, ['red', 'blue'])[0]!.confidence).toBeLessThan(0.9);
  });
});

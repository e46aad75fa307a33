import { describe, expect, it } from 'vitest';
import { positionBound } from '../../server/camera/bound.ts';
import { SIDES, STANDARD_COURT } from '../../server/lawn/court.ts';
import { CORNER_NAMES } from '../../server/lawn/named-points.ts';
import { pixels } from '../../server/units/numbers.ts';
import { lawnPoint } from '../../server/units/points.ts';
import { cameraAt, TERRACE } from './cameras.ts';

const MIDDLE = lawnPoint(12.8, 16);
const base = { points: CORNER_NAMES, court: STANDARD_COURT, ball: MIDDLE } as const;

describe('the bound of a position', () => {
  // The project's physics: on this terrace four finger-placed corners (1.6 px, lens known) leave 76 mm in depth at the middle of the lawn, traced lines
  // (0.3 px) and a ball of 0.2 px 16 mm, sideways 3 mm (shared facts on what physics says).
  it('on the terrace is a few mm sideways and under two hundredths in depth with traced lines', () => {
    const { sdX, sdY } = positionBound(TERRACE, { ...base, lineSd: 0.3, ballSd: 0.2 })!;
    expect(sdY).toBeGreaterThan(0.013);
    expect(sdY).toBeLessThan(0.019);
    expect(sdX).toBeGreaterThan(0.002);
    expect(sdX).toBeLessThan(0.006);
  });

  it('is many times wider with four corners alone', () => {
    const bare = positionBound(TERRACE, { ...base, sides: [], markSd: 1.6, ballSd: 0.2 })!;
    expect(bare.sdY).toBeGreaterThan(0.06);
  });

  it('never gets worse with more to go by', () => {
    let last = positionBound(TERRACE, { ...base, sides: [] })!.sdY;
    SIDES.forEach((_, i) => {
      const next = positionBound(TERRACE, { ...base, sides: SIDES.slice(0, i + 1) })!.sdY;
      expect(next).toBeLessThanOrEqual(last);
      last = next;
    });
    const prior = { focal: pixels(2357), sd: 0.02 };
    expect(positionBound(TERRACE, { ...base, focalPrior: prior })!.sdY).toBeLessThanOrEqual(last);
    expect(positionBound(TERRACE, { ...base, samplesPerSide: 120 })!.sdY).toBeLessThan(last);
  });

  // By hand: with a known camera only the ball's 0.25 px remain. At the picture's middle that is 0.25 · D/f sideways and, as the line of sight
  // meets the lawn at an angle whose sine is h/D, D/h times as much in depth.
  it('comes down to the ball itself when the lines are known without end', () => {
    const camera = cameraAt([12.8, -14, 15.046], [12.8, 16, 0.046], { focal: pixels(2000), radial: [0, 0] });
    const { sdX, sdY } = positionBound(camera, { ...base, lineSd: 1e-3, markSd: 1e-3, ballSd: 0.25 })!;
    const sight = Math.hypot(30, 15);
    expect(sdX).toBeCloseTo((0.25 * sight) / 2000, 5);
    expect(sdY).toBeCloseTo(((0.25 * sight) / 2000) * (sight / 15), 5);
  });

  it('knows the picture that fixes no depth: straight over the near edge, which is below the frame', () => {
    // West, east and north lines seen straight on: camera place, pitch and focal length can slide along the court together.
    const blind = cameraAt([12.8, -4, 15.046], [12.8, 16, 0.046], { focal: pixels(2000), radial: [0, 0] });
    const { sdX, sdY } = positionBound(blind, base)!;
    expect(sdY).toBeGreaterThan(1);
    expect(sdX).toBeLessThan(0.01);
  });

  it('includes the unevenness under the ball where it is stated', () => {
    const flat = positionBound(TERRACE, base)!.covariance.yy;
    const uneven = positionBound(TERRACE, { ...base, unevenness: 0.005 })!.covariance.yy;
    const [dx, dy, dz] = [MIDDLE.x - 11.5, MIDDLE.y + 19.5, 7.2 - 0.046];
    expect(Math.hypot(dx, dy)).toBeGreaterThan(35);
    expect(Math.sqrt(uneven - flat)).toBeCloseTo((0.005 * dy) / dz, 6);
  });

  it('is null for a ball that the camera does not see', () => {
    expect(positionBound(TERRACE, { ...base, ball: lawnPoint(11, -30) })).toBeNull();
  });
});

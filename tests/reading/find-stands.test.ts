import { describe, expect, it } from 'vitest';
import { StandsRequestSchema } from '../../server/contract/stands.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { findStands } from '../../server/reading/find-stands.ts';

const { width, length } = STANDARD_COURT;
const stands = (hoopScored: number, height: number, unevenness = 0.005) =>
  findStands(StandsRequestSchema.parse({ hoopScored, height, lawn: { unevenness } }));

/** The standard deviation from (x, y), looked up by its place to a centimetre; undefined where the lawn is not seen. */
const byPlace = (answer: ReturnType<typeof findStands>) => {
  const key = (x: number, y: number): string => `${x.toFixed(2)} ${y.toFixed(2)}`;
  const cells = new Map(answer.cells.map(({ x, y, sd }) => [key(x, y), sd]));
  return (x: number, y: number): number | undefined => cells.get(key(x, y));
};

/**
 * Hand calculation. The ground under a ball lies u higher or lower; its ball is then seen u · d/(h − r) too far or too near along the line of sight, where d is the distance on the ground, h the
 * height of the camera and r = 46 mm. After hoop 2 the line is x = 12.8016, and of that displacement the part across it is u · |x − 12.8016|/(h − r). With u = 0.1 m, from 7 m up and 20 m aside:
 * 0.1 · 20/6.954 = 288 mm, beside which the 10 or 20 mm that the camera and the ball's image leave hardly count (0.288² + 0.02² = 0.2887²).
 */
describe('the uncertainty across the line, seen from aside of it', () => {
  const { cells } = stands(2, 7, 0.1);
  const aside = cells.filter(({ x }) => Math.abs(x - width / 2) > 15);
  it('is the unevenness times the slope of the line of sight', () => {
    expect(aside.length).toBeGreaterThan(50);
    for (const { x, sd } of aside) {
      const byHand = (0.1 * Math.abs(x - width / 2)) / (7 - BALL_RADIUS);
      expect(sd).toBeGreaterThanOrEqual(byHand);
      expect(sd).toBeLessThan(1.03 * byHand);
    }
  });
  it('is a fraction of that in line with it', () => {
    const along = cells.filter(({ x }) => Math.abs(x - width / 2) < 0.01);
    expect(along.length).toBeGreaterThan(4);
    for (const { sd } of along) expect(sd).toBeLessThan(0.03);
  });
});

describe('places to stand', () => {
  it.each([1, 2])('are alike on both sides of the line after hoop %i, which halves the lawn', (scored) => {
    const answer = stands(scored, 6);
    const at = byPlace(answer);
    for (const { x, y, sd } of answer.cells)
      for (const mirrored of [at(width - x, y), at(x, length - y)]) expect(mirrored).toBeCloseTo(sd, 9);
  });

  it('for the lines after hoops 4 and 6 mirror each other', () => {
    const [east, west] = [stands(4, 6), byPlace(stands(6, 6))];
    for (const { x, y, sd } of east.cells) expect(west(width - x, y)).toBeCloseTo(sd, 9);
  });

  // In line with the line the height does not matter; from close by a high camera even loses the near boundary out of sight.
  it('are better the higher they are, where they lie 5 m aside of the line or more', () => {
    const low = stands(1, 4);
    const high = byPlace(stands(1, 8));
    const aside = low.cells.filter(({ x, y }) => Math.abs(y - low.line.at) >= 5 && high(x, y) !== undefined);
    expect(aside.length).toBeGreaterThan(50);
    for (const { x, y, sd } of aside) expect(high(x, y)).toBeLessThan(sd);
  });

  it('are no worse on a more even lawn, and better aside of the line', () => {
    const rough = stands(3, 6, 0.01);
    const even = byPlace(stands(3, 6, 0));
    for (const { x, y, sd } of rough.cells) expect(even(x, y)).toBeLessThanOrEqual(sd);
    const aside = rough.cells.filter(({ y }) => Math.abs(y - rough.line.at) >= 5);
    for (const { x, y, sd } of aside) expect(even(x, y)).toBeLessThan(sd);
  });

  it('lie outside the lawn, and the best is the best of them', () => {
    const { cells, best, line } = stands(1, 6);
    expect(cells.filter(({ x, y }) => x > -1 && x < width + 1 && y > -1 && y < length + 1)).toEqual([]);
    expect(best.sd).toBe(Math.min(...cells.map(({ sd }) => sd)));
    // Along the line the picture measures sideways: the best place lies nearer to it than the lawn's corners do.
    expect(Math.abs(best.y - line.at)).toBeLessThan(length / 4);
  });
});

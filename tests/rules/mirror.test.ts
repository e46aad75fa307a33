import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FIRST_COLOURS } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { type HalfwayLine, halfwayLine, SCORED_POINTS } from '../../server/lawn/halfway-lines.ts';
import { judgeOffside } from '../../server/rules/offside.ts';
import { metres } from '../../server/units/numbers.ts';
import { lawnPoint } from '../../server/units/points.ts';

const { width, length } = STANDARD_COURT;
const mirrorLine = (line: HalfwayLine, axis: 'x' | 'y'): HalfwayLine =>
  line.axis === axis
    ? {
        axis,
        at: metres((axis === 'x' ? width : length) - line.at),
        nextHoopSide: line.nextHoopSide === 1 ? -1 : 1,
      }
    : line;

const colour = fc.constantFrom(...FIRST_COLOURS);
const arrival = fc.record({
  strokeOf: colour,
  touched: fc.subarray([...FIRST_COLOURS]),
  thisTurn: fc.boolean(),
});

describe('a mirrored lawn', () => {
  it.each(['x', 'y'] as const)('across %s changes no verdict and no margin', (axis) => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SCORED_POINTS),
        fc.record({
          x: fc.double({ min: 0, max: width, noNaN: true }),
          y: fc.double({ min: 0, max: length, noNaN: true }),
        }),
        fc.record({
          xx: fc.double({ min: 1e-6, max: 0.01, noNaN: true }),
          yy: fc.double({ min: 1e-6, max: 0.01, noNaN: true }),
        }),
        colour,
        colour,
        arrival,
        (scored, place, variances, ball, striker, arrivedBy) => {
          const line = halfwayLine(STANDARD_COURT, scored);
          const covariance = { ...variances, xy: 0 };
          const given = { striker, edition: '2022', certainty: 0.99 } as const;
          const mirrored =
            axis === 'x' ? lawnPoint(width - place.x, place.y) : lawnPoint(place.x, length - place.y);
          const one = judgeOffside({ point: lawnPoint(place.x, place.y), covariance, arrivedBy }, ball, {
            ...given,
            line,
          });
          const other = judgeOffside({ point: mirrored, covariance, arrivedBy }, ball, {
            ...given,
            line: mirrorLine(line, axis),
          });
          expect([other.verdict, other.code, other.reason]).toEqual([one.verdict, one.code, one.reason]);
          expect(other.beyond).toBeCloseTo(one.beyond, 9);
        },
      ),
      { seed: 11, numRuns: 1000 },
    );
  });
});

import { describe, expect, it } from 'vitest';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { lineBetween } from '../../server/lawn/halfway-between.ts';
import { halfwayLine, nextPoint, SCORED_POINTS } from '../../server/lawn/halfway-lines.ts';
import {
  HOOP_POINTS,
  type HoopNumber,
  type HoopPoint,
  hoopOfPoint,
  hoopPlace,
  runDirection,
} from '../../server/lawn/hoops.ts';
import { namedPlace } from '../../server/lawn/named-points.ts';

/** Hoop and direction of each point: 1 to 6 as numbered; 13 is hoop 3 (golf croquet outline, epsom-remuera); the rest from memory. */
const ORDER: Record<HoopPoint, readonly [HoopNumber, 'north' | 'south']> = {
  1: [1, 'north'],
  2: [2, 'north'],
  3: [3, 'south'],
  4: [4, 'south'],
  5: [5, 'north'],
  6: [6, 'north'],
  7: [2, 'south'],
  8: [1, 'south'],
  9: [4, 'north'],
  10: [3, 'north'],
  11: [6, 'south'],
  12: [5, 'south'],
  13: [3, 'south'],
};

describe('points in order', () => {
  it.each(HOOP_POINTS)('point %i', (point) => {
    const [hoop, direction] = ORDER[point];
    expect(hoopOfPoint(point)).toBe(hoop);
    expect(runDirection(point)).toBe(direction === 'north' ? 1 : -1);
  });
});

describe('halfway lines', () => {
  it.each(SCORED_POINTS)('after point %i the next hoop lies on the named side', (scored) => {
    const line = halfwayLine(STANDARD_COURT, scored);
    const next = hoopPlace(STANDARD_COURT, hoopOfPoint(nextPoint(scored)));
    expect(Math.sign(next[line.axis] - line.at)).toBe(line.nextHoopSide);
  });

  it.each(SCORED_POINTS)('after point %i is the line between the two hoops', (scored) => {
    const between = lineBetween(STANDARD_COURT, hoopOfPoint(scored), hoopOfPoint(nextPoint(scored)));
    expect(between).toEqual(halfwayLine(STANDARD_COURT, scored));
  });

  // "Essential rules simplified" no. 2 (hpcc.ie): one line through four marks for each group of hoops.
  it.each([
    [
      'markerW',
      'y',
      [
        [1, 2],
        [3, 4],
      ],
    ],
    [
      'markerS14',
      'x',
      [
        [1, 4],
        [2, 3],
      ],
    ],
    [
      'markerS10.5',
      'x',
      [
        [1, 5],
        [2, 6],
      ],
    ],
    [
      'markerS17.5',
      'x',
      [
        [3, 6],
        [4, 5],
      ],
    ],
  ] as const)('the line from %s serves its hoops in both directions', (mark, axis, pairs) => {
    const at = namedPlace(STANDARD_COURT, mark)[axis];
    for (const [a, b] of pairs) {
      expect(lineBetween(STANDARD_COURT, a, b)).toMatchObject({ axis, at });
      expect(lineBetween(STANDARD_COURT, b, a)).toMatchObject({ axis, at });
      expect(lineBetween(STANDARD_COURT, a, b)!.nextHoopSide).toBe(
        -lineBetween(STANDARD_COURT, b, a)!.nextHoopSide,
      );
    }
  });

  it('knows no line between hoops that never follow each other', () => {
    expect(lineBetween(STANDARD_COURT, 1, 3)).toBeNull();
    expect(lineBetween(STANDARD_COURT, 2, 5)).toBeNull();
  });
});

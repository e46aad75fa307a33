import { describe, expect, it } from 'vitest';
import {
  angleToHoop,
  approachZone,
  inApproachZone,
  toApproachZone,
} from '../../server/lawn/approach-zone.ts';
import { freeDistance, toBoundary } from '../../server/lawn/boundary-distance.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import {
  inPenaltyArea,
  penaltyCentre,
  penaltyOutline,
  toPenaltyCentre,
} from '../../server/lawn/penalty-area.ts';
import { insideStart } from '../../server/lawn/start-area.ts';
import { degrees, metres } from '../../server/units/numbers.ts';
import { lawnPoint } from '../../server/units/points.ts';

const YARD = 0.9144;
const at = (x: number, y: number) => lawnPoint(x * YARD, y * YARD);

// "Golf croquet rules updated" (tunbridgewellscroquet.org.uk): a half circle of one yard on the midpoint of the west and east boundary.
describe('penalty areas', () => {
  it.each([
    ['west', 0, 17.5, true],
    ['west', 0.99, 17.5, true],
    ['west', 1.01, 17.5, false],
    ['west', 0.5, 18.3, true],
    ['west', 0.8, 18.3, false],
    ['west', -0.1, 17.5, false],
    ['east', 28, 17.5, true],
    ['east', 27.01, 17.5, true],
    ['east', 26.99, 17.5, false],
    ['east', 28, 16.51, true],
    ['east', 28.1, 17.5, false],
    ['east', 0, 17.5, false],
  ] as const)('%s: a ball at (%d, %d) yd', (side, x, y, inside) => {
    expect(inPenaltyArea(STANDARD_COURT, side, at(x, y))).toBe(inside);
  });

  it('follow the radius that is set', () => {
    expect(inPenaltyArea(STANDARD_COURT, 'west', at(0.6, 17.5), metres(0.5 * YARD))).toBe(false);
    expect(inPenaltyArea(STANDARD_COURT, 'west', at(0.4, 17.5), metres(0.5 * YARD))).toBe(true);
  });

  it.each(['west', 'east'] as const)('%s: its outline lies in the court at the radius', (side) => {
    const outline = penaltyOutline(STANDARD_COURT, side);
    for (const point of outline) {
      expect(toPenaltyCentre(STANDARD_COURT, side, point)).toBeCloseTo(YARD, 10);
      expect(point.x).toBeGreaterThanOrEqual(-1e-9);
      expect(point.x).toBeLessThanOrEqual(STANDARD_COURT.width + 1e-9);
    }
    expect(outline[0]!.y).toBeLessThan(penaltyCentre(STANDARD_COURT, side).y);
  });
});

// Common practice, no source: 20–30° either side of the axis, on the side from which the hoop is run.
describe('approach zones', () => {
  const north = { hoop: 5, direction: 1 } as const;
  const south = { hoop: 5, direction: -1 } as const;
  const hoop = at(14, 10.5);
  const off = (dx: number, dy: number) => lawnPoint(hoop.x + dx, hoop.y + dy);

  it.each([
    ['a metre before it', 0, -1, true],
    ['a metre behind it', 0, 1, false],
    ['at the edge of the angle', Math.tan(degrees(24)), -1, true],
    ['outside the angle', Math.tan(degrees(26)), -1, false],
    ['too near', 0, -0.2, false],
    ['too far', 0, -3.1, false],
  ] as const)('a hoop run northward: %s', (_name, dx, dy, inside) => {
    expect(inApproachZone(STANDARD_COURT, north, off(dx, dy))).toBe(inside);
    // Run southward everything is turned round.
    expect(inApproachZone(STANDARD_COURT, south, off(dx, -dy))).toBe(inside);
    expect(toApproachZone(STANDARD_COURT, north, off(dx, dy)) === 0).toBe(inside);
  });

  it('measures to the nearest place of the trapezoid', () => {
    expect(toApproachZone(STANDARD_COURT, north, off(0, -4))).toBeCloseTo(1, 10);
    expect(toApproachZone(STANDARD_COURT, north, off(0, 0.7))).toBeCloseTo(1, 10);
    const farEast = approachZone(STANDARD_COURT, north)[2];
    expect(toApproachZone(STANDARD_COURT, north, lawnPoint(farEast.x + 3, farEast.y - 4))).toBeCloseTo(5, 10);
  });

  it.each([
    [0, -2, 0],
    [2, -2, 45],
    [-2, -2, 45],
    [2, 0, 90],
    [0, 2, 180],
    [0, 0, 0],
  ])('the line to a ball %d m east and %d m north makes %d° with the axis', (dx, dy, angle) => {
    expect(angleToHoop(STANDARD_COURT, north, off(dx, dy))).toBeCloseTo(degrees(angle), 10);
  });
});

// Law 2: hoop 1 stands 7 yd from the south and west boundaries of 28 yd by 35 yd.
describe('distances to the boundary', () => {
  const hoop1 = at(7, 7);
  it.each([
    ['west', 7],
    ['south', 7],
    ['east', 21],
    ['north', 28],
  ] as const)('from hoop 1 to the %s', (side, distance) => {
    expect(toBoundary(STANDARD_COURT, side, hoop1)).toBeCloseTo(distance * YARD, 10);
  });

  it.each([
    ['west', -1, 0, 7],
    ['south', 0, -3, 7],
    ['east', 0.5, 0, 21],
    ['to the north-east', 1, 1, 21 * Math.SQRT2],
    ['to the south-west corner', -2, -2, 7 * Math.SQRT2],
  ] as const)('free way from hoop 1 to the %s', (_name, dx, dy, distance) => {
    expect(freeDistance(STANDARD_COURT, hoop1, dx, dy)).toBeCloseTo(distance * YARD, 10);
  });

  it('a direction without length never ends', () => {
    expect(freeDistance(STANDARD_COURT, hoop1, 0, 0)).toBe(Number.POSITIVE_INFINITY);
  });
});

// Golf croquet outline (epsom-remuera): within a yard of corner 4; in friendly games within a yard of the east boundary up to hoop 4.
describe('start area', () => {
  it.each([
    ['corner', 27.5, 0.5, true],
    ['corner', 27.1, 0.9, false],
    ['corner', 28.1, 0.2, false],
    ['corner', 27.5, -0.1, false],
    ['corner', 27.5, 5, false],
    ['strip', 27.5, 5, true],
    ['strip', 27.1, 0.9, true],
    ['strip', 26.9, 5, false],
    ['strip', 27.5, 7.1, false],
    ['strip', 0.5, 0.5, false],
  ] as const)('%s: a ball at (%d, %d) yd', (area, x, y, inside) => {
    expect(insideStart(STANDARD_COURT, area, at(x, y)) >= 0).toBe(inside);
  });
});

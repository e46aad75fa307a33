import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { putBackCard, putBackDistances } from '../../server/games/put-back.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { namedPlace } from '../../server/lawn/named-points.ts';
import { metres } from '../../server/units/numbers.ts';
import { lawnPoint } from '../../server/units/points.ts';
import { at, BEGUN, stateOf, turn } from './builder.ts';

const { width, length } = STANDARD_COURT;

describe('putBackDistances', () => {
  it.each([
    [2, 3, 'west', 2, 'south', 3],
    [24, 30, 'east', width - 24, 'north', length - 30],
    [12.5, 1, 'south', 1, 'west', 12.5],
    [-0.1, 17, 'west', -0.1, 'north', length - 17],
    // In the middle west and east are the two nearest, but they would not fix a place.
    [12.7, 16.2, 'west', 12.7, 'north', length - 16.2],
  ] as const)('a ball at (%d, %d) m by the two nearest boundaries', (x, y, one, first, two, second) => {
    const { boundaries } = putBackDistances(at(x, y), STANDARD_COURT);
    expect(boundaries.map(({ side }) => side)).toEqual([one, two]);
    expect(boundaries[0]!.distance).toBeCloseTo(first, 10);
    expect(boundaries[1]!.distance).toBeCloseTo(second, 10);
  });

  it('gives each distance the uncertainty of its direction', () => {
    const { boundaries } = putBackDistances({ ...at(2, 3), sdX: 0.01, sdY: 0.03 }, STANDARD_COURT);
    expect(boundaries.map(({ sd }) => sd)).toEqual([0.01, 0.03]);
    // From hoop 1 (6.4008, 6.4008) straight along x the tape feels sdX only.
    const beside = putBackDistances({ ...at(8.4008, 6.4008), sdX: 0.01, sdY: 0.03 }, STANDARD_COURT);
    expect(beside.points.find(({ name }) => name === 'hoop1')!.sd).toBeCloseTo(0.01, 8);
  });

  it('chooses near points whose tapes cross well', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: width, noNaN: true }),
        fc.double({ min: 0, max: length, noNaN: true }),
        (x, y) => {
          const { points } = putBackDistances(at(x, y), STANDARD_COURT);
          const [a, b] = points.map(({ name, distance }) => {
            const place = namedPlace(STANDARD_COURT, name);
            expect(Math.hypot(x - place.x, y - place.y)).toBeCloseTo(distance, 10);
            return { ux: (x - place.x) / distance, uy: (y - place.y) / distance };
          });
          // At least 30° between the tapes, so that a millimetre of tape is never more than two of place.
          expect(Math.abs(a!.ux * b!.uy - a!.uy * b!.ux)).toBeGreaterThan(0.5);
          expect(points[0]!.distance).toBeLessThanOrEqual(points[1]!.distance);
        },
      ),
      { seed: 7, numRuns: 500 },
    );
  });

  // Mirrored west to east, hoops 1 and 4, 2 and 3, corners 1 and 4, 2 and 3 change places, and nothing else.
  it('on the mirrored lawn changes names only', () => {
    const mirror: Record<string, string> = {
      corner1: 'corner4',
      corner4: 'corner1',
      corner2: 'corner3',
      corner3: 'corner2',
      hoop1: 'hoop4',
      hoop4: 'hoop1',
      hoop2: 'hoop3',
      hoop3: 'hoop2',
      west: 'east',
      east: 'west',
    };
    const named = (name: string) => mirror[name] ?? name;
    for (const [x, y] of [
      [2, 3],
      [7, 20],
      [20, 9],
      [11, 30],
    ] as const) {
      const one = putBackDistances(at(x, y), STANDARD_COURT);
      const other = putBackDistances(at(width - x, y), STANDARD_COURT);
      expect(other.points.map(({ name }) => name)).toEqual(one.points.map(({ name }) => named(name)));
      expect(other.boundaries.map(({ side }) => side)).toEqual(one.boundaries.map(({ side }) => named(side)));
      for (const [i, { distance }] of one.points.entries())
        expect(other.points[i]!.distance).toBeCloseTo(distance, 10);
    }
  });

  it('puts the ball back where it was', () => {
    const { points } = putBackDistances(at(9, 12), STANDARD_COURT);
    const [a, b] = points.map(({ name }) => namedPlace(STANDARD_COURT, name));
    const [r, s] = points.map(({ distance }) => distance);
    // Two circles: the usual construction from their common chord.
    const d = Math.hypot(b!.x - a!.x, b!.y - a!.y);
    const along = (r! * r! - s! * s! + d * d) / (2 * d);
    const across = Math.sqrt(r! * r! - along * along);
    const [ux, uy] = [(b!.x - a!.x) / d, (b!.y - a!.y) / d];
    const crossings = [1, -1].map((side) =>
      lawnPoint(a!.x + along * ux - side * across * uy, a!.y + along * uy + side * across * ux),
    );
    expect(Math.min(...crossings.map(({ x, y }) => Math.hypot(x - 9, y - 12)))).toBeLessThan(1e-9);
  });
});

describe('putBackCard', () => {
  it('has a line for every ball with a known place', () => {
    const { balls } = stateOf(
      BEGUN,
      turn('blue', { at: { blue: at(20, 5) } }),
      turn('red', { at: { red: at(9, 9) } }),
      turn('black'),
    );
    expect(putBackCard(balls, STANDARD_COURT).map(({ ball, points }) => [ball, points.length])).toEqual([
      ['blue', 2],
      ['red', 2],
    ]);
  });
  it('works on a small lawn', () => {
    const { boundaries } = putBackDistances(at(8, 3), { width: metres(10), length: metres(12.5) });
    expect(boundaries.map(({ side }) => side)).toEqual(['east', 'south']);
  });
});

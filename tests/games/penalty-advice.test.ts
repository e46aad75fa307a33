import { describe, expect, it } from 'vitest';
import { advisePenaltyArea } from '../../server/games/penalty-advice.ts';
import { adviceOf, viewGame } from '../../server/games/view-game.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import type { HoopNumber } from '../../server/lawn/hoops.ts';
import { HOOP_SEQUENCES, type Leg, legOf } from '../../server/rules/hoop-order.ts';
import { yards } from '../../server/units/numbers.ts';
import { at, BEGUN, stateOf, turn } from './builder.ts';

const RADIUS = yards(1);
const legs = (point: number) => ({
  next: legOf(HOOP_SEQUENCES[13], point),
  after: legOf(HOOP_SEQUENCES[13], point + 1),
});

describe('advisePenaltyArea', () => {
  // Hoops 1 and 2 stand 7 yd from the west boundary, 3 and 4 from the east, 5 and 6 in the middle: the area across the lawn is worse.
  it.each([
    [1, 'east'],
    [2, 'east'],
    [3, 'west'],
    [4, 'west'],
    // Hoop 5 is as far from both; hoop 6 after it too, so neither is worse.
    [5, null],
    // Hoop 6 is as far from both; after it comes point 7, hoop 2 in the west.
    [6, 'east'],
    [7, 'east'],
    [9, 'west'],
    // Hoop 6 and hoop 5.
    [11, null],
    [12, 'west'],
    [13, 'west'],
    [14, null],
  ] as const)('for point %i names the %s', (point, worse) => {
    expect(advisePenaltyArea(STANDARD_COURT, legs(point), RADIUS).worse).toBe(worse);
  });

  it('tells the way and the angle to both hoops', () => {
    const { areas, reason } = advisePenaltyArea(STANDARD_COURT, legs(2), RADIUS);
    const [west, east] = areas;
    // From (0, 17.5) yd to hoop 2 at (7, 28) yd, run northward: 7 yd aside and 10.5 yd before it.
    expect(west.next!.angle).toBeCloseTo(Math.atan2(7, 10.5), 10);
    expect(east.next!.angle).toBeCloseTo(Math.atan2(21, 10.5), 10);
    expect(west.after!.point).toBe(3);
    expect(reason).toContain('hoop 2');
  });

  // Mirrored west to east, hoop 1 becomes 4 and 2 becomes 3, run the same way.
  it('on the mirrored lawn exchanges west and east', () => {
    const mirror = { 1: 4, 2: 3, 3: 2, 4: 1, 5: 5, 6: 6 } as const;
    const mirrored = (leg: Leg | null): Leg | null => leg && { ...leg, hoop: mirror[leg.hoop] as HoopNumber };
    for (let point = 1; point <= 13; point++) {
      const { next, after } = legs(point);
      const one = advisePenaltyArea(STANDARD_COURT, { next, after }, RADIUS).worse;
      const other = advisePenaltyArea(
        STANDARD_COURT,
        { next: mirrored(next), after: mirrored(after) },
        RADIUS,
      ).worse;
      expect(other).toBe(one && (one === 'west' ? 'east' : 'west'));
    }
  });
});

describe('advice in a game', () => {
  it('is given while a direction is to be given', () => {
    const scored = stateOf(
      BEGUN,
      turn('blue', { at: { blue: at(5, 20) } }),
      turn('red', { at: { red: at(6, 9) }, scored: ['red'] }),
    );
    expect(adviceOf(scored).worse).toBe('east');
    expect(viewGame(scored).advice!.worse).toBe('east');
    expect(viewGame(stateOf(BEGUN)).advice).toBeNull();
  });
});

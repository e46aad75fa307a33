import { describe, expect, it } from 'vitest';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { BALL_COLOURS, type BallColour, FIRST_COLOURS } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { halfwayLine, SCORED_POINTS, type ScoredPoint } from '../../server/lawn/halfway-lines.ts';
import { EDITIONS, type Edition } from '../../server/rules/editions.ts';
import { type Arrival, judgeOffside, OFFSIDE_CODES } from '../../server/rules/offside.ts';
import { lawnPoint } from '../../server/units/points.ts';
import { swapColour } from './cases/notation.ts';
import { type Lie, OFFSIDE_ROWS } from './cases/offside.ts';

const YARD = 0.9144;
/** Distance of the centre past the line for each lie. */
const PAST: Record<Lie, number> = { past: YARD, onIt: BALL_RADIUS, short: -YARD };

const ruling = (
  scored: ScoredPoint,
  colour: BallColour,
  lie: Lie,
  arrivedBy: Arrival | undefined,
  striker: BallColour,
  edition: Edition = '2022',
) => {
  const line = halfwayLine(STANDARD_COURT, scored);
  const at = line.at + line.nextHoopSide * PAST[lie];
  const point = line.axis === 'x' ? lawnPoint(at, 3) : lawnPoint(3, at);
  const covariance = { xx: 1e-4, xy: 0, yy: 1e-4 };
  return judgeOffside({ point, covariance, arrivedBy }, colour, { line, striker, edition, certainty: 0.99 });
};

const swapArrival = (by: Arrival | undefined): Arrival | undefined =>
  by && {
    ...by,
    strokeOf: by.strokeOf && swapColour(by.strokeOf),
    faultOf: by.faultOf && swapColour(by.faultOf),
    touched: by.touched?.map(swapColour),
  };

describe.each(EDITIONS)('offside, %s', (edition) => {
  it.each(OFFSIDE_ROWS)('%s (%s, %s)', (_name, ball, lie, arrivedBy, verdict, code) => {
    for (const scored of SCORED_POINTS) {
      const {
        verdict: found,
        code: ground,
        rule,
        reason,
      } = ruling(scored, ball, lie, arrivedBy, 'blue', edition);
      expect([scored, found, ground]).toEqual([scored, verdict, code]);
      expect(rule).toContain(edition);
      expect(reason).toMatch(/^[A-Z].*\.$/);
    }
  });

  it.each(OFFSIDE_ROWS)('with the other colours: %s (%s, %s)', (_name, ball, lie, by, verdict, code) => {
    const other = ruling(4, swapColour(ball), lie, swapArrival(by), 'green', edition);
    expect([other.verdict, other.code]).toEqual([verdict, code]);
  });
});

describe('offside', () => {
  it('reaches every ground', () => {
    const reached = new Set(OFFSIDE_ROWS.map((row) => row[5]));
    expect([...reached].toSorted()).toEqual([...OFFSIDE_CODES].toSorted());
  });

  // The definition of the excuses (source C): whoever strikes, the outcome for a ball depends on sides alone.
  it.each(FIRST_COLOURS)('treats both balls of a side alike when %s is the striker', (striker) => {
    const partners: Record<string, BallColour> = {
      blue: 'black',
      black: 'blue',
      red: 'yellow',
      yellow: 'red',
    };
    for (const ball of FIRST_COLOURS.filter((colour) => colour !== striker))
      for (const struck of FIRST_COLOURS) {
        const one = ruling(1, ball, 'past', { strokeOf: struck, touched: [] }, striker);
        const two = ruling(1, ball, 'past', { strokeOf: partners[struck]!, touched: [] }, striker);
        expect(one.verdict).toBe(two.verdict);
        expect(one.verdict).toBe(struck === ball || struck === partners[ball] ? 'offside' : 'excused');
      }
  });

  it('names the rule of each edition', () => {
    // Tables of contents at croquet.org.uk: offside balls are rule 10 of the 4th and rule 8 of the 5th and 6th edition.
    expect(ruling(1, 'red', 'past', undefined, 'blue', '2013').rule).toBe(
      'rule 10 of the 4th edition (2013)',
    );
    expect(ruling(1, 'red', 'past', undefined, 'blue', '2022').rule).toBe('rule 8 of the 6th edition (2022)');
  });

  it('judges every colour without knowing the striker', () => {
    const line = halfwayLine(STANDARD_COURT, 1);
    const point = lawnPoint(3, line.at + 1);
    for (const colour of BALL_COLOURS)
      expect(
        judgeOffside({ point, covariance: { xx: 0, xy: 0, yy: 0 } }, colour, {
          line,
          edition: '2022',
          certainty: 0.99,
        }).verdict,
      ).toBe('historyNeeded');
  });
});

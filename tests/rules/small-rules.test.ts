import { describe, expect, it } from 'vitest';
import { BALL_COLOURS, type BallColour } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { type HoopNumber, hoopPlace } from '../../server/lawn/hoops.ts';
import {
  ballAfter,
  ballDue,
  ballsOf,
  isOpponent,
  otherSide,
  partnerOf,
  sideName,
  sideOf,
} from '../../server/rules/ball-order.ts';
import { FAULT_CODES, type FaultChoice, type FaultCode, judgeFault } from '../../server/rules/fault.ts';
import {
  GAME_LENGTHS,
  type GameLength,
  HOOP_SEQUENCES,
  legOf,
  lineAfter,
} from '../../server/rules/hoop-order.ts';
import {
  checkPenaltyPlace,
  directedPlace,
  PENALTY_CODES,
  type PenaltyCode,
  penaltyRadius,
} from '../../server/rules/penalty-areas.ts';
import { addPoint, lead, pointsToWin, SCORE_CODES, standings } from '../../server/rules/score.ts';
import { ballsToStart, checkStart, START_CODES, type StartCode } from '../../server/rules/start.ts';
import { lawnPoint } from '../../server/units/points.ts';

const YARD = 0.9144;

// WCF Golf Croquet Rules 2013, rule 1: blue, red, black, yellow and green, pink, brown, white; sides blue and black, red and yellow,
// green and brown, pink and white.
describe('order of balls', () => {
  it.each([
    ['blue', 'red', 'black'],
    ['red', 'black', 'yellow'],
    ['black', 'yellow', 'blue'],
    ['yellow', 'blue', 'red'],
    ['green', 'pink', 'brown'],
    ['pink', 'brown', 'white'],
    ['brown', 'white', 'green'],
    ['white', 'green', 'pink'],
  ] as const)('after %s comes %s; its partner is %s', (ball, next, partner) => {
    expect(ballAfter(ball)).toBe(next);
    expect(partnerOf(ball)).toBe(partner);
    expect(sideOf(partner)).toBe(sideOf(ball));
    expect(otherSide(sideOf(ball))).toBe(sideOf(next));
    expect(isOpponent(ball, next)).toBe(true);
    expect(isOpponent(ball, partner)).toBe(false);
  });

  it('starts with blue and with green', () => {
    expect([ballDue('first', null), ballDue('second', null)]).toEqual(['blue', 'green']);
    expect([sideName('first', 1), sideName('second', 0)]).toEqual(['red and yellow', 'green and brown']);
    expect(ballsOf('first', 0)).toEqual(['blue', 'black']);
  });

  it('balls of two games are nobody’s opponents', () => {
    for (const one of BALL_COLOURS.slice(0, 4))
      for (const other of BALL_COLOURS.slice(4)) expect(isOpponent(one, other)).toBe(false);
  });
});

/**
 * Hoops in order. 1 to 6 as numbered; the last of 13 is hoop 3 (golf croquet outline, epsom-remuera); the last of 7 is hoop 1
 * ("Commentary on changes in the GC rules in the 2013 edition", 1(d), worldcroquet.org); the rest from memory.
 */
const HOOPS: Record<GameLength, readonly HoopNumber[]> = {
  7: [1, 2, 3, 4, 5, 6, 1],
  13: [1, 2, 3, 4, 5, 6, 2, 1, 4, 3, 6, 5, 3],
  19: [1, 2, 3, 4, 5, 6, 2, 1, 4, 3, 6, 5, 3, 4, 1, 2, 6, 5, 4],
};

describe.each(GAME_LENGTHS)('a game of %i points', (length) => {
  const sequence = HOOP_SEQUENCES[length];

  it('contests its hoops in order', () => {
    expect(sequence.map((_, i) => legOf(sequence, i + 1)!.hoop)).toEqual(HOOPS[length]);
    expect(legOf(sequence, 0)).toBeNull();
    expect(legOf(sequence, length + 1)).toBeNull();
  });

  it('says which hoops are remembered', () => {
    const remembered = sequence
      .map((_, i) => i + 1)
      .filter((point) => legOf(sequence, point)!.standing === 'fromMemory');
    const expected = Array.from({ length: length - 6 }, (_, i) => i + 7).filter(
      (point) => length === 19 || point !== length,
    );
    expect(remembered).toEqual(expected);
  });

  it('has a halfway line towards the next hoop after every point but the last', () => {
    for (let point = 1; point < length; point++) {
      const line = lineAfter(STANDARD_COURT, sequence, point)!;
      const next = hoopPlace(STANDARD_COURT, legOf(sequence, point + 1)!.hoop);
      expect(Math.sign(next[line.axis] - line.at)).toBe(line.nextHoopSide);
    }
    expect(lineAfter(STANDARD_COURT, sequence, length)).toBeNull();
  });

  // WCF Golf Croquet Rules 2013, rule 1: 4 of 7, 7 of 13, 10 of 19.
  it('is won by more than half of the points', () => {
    const need = { 7: 4, 13: 7, 19: 10 }[length];
    expect(pointsToWin(length)).toBe(need);
    expect(standings([need - 1, need - 1], length)).toEqual({
      code: 'lastHoop',
      winner: null,
      pointDue: length,
    });
    expect(standings([need, 0], length)).toEqual({ code: 'won', winner: 0, pointDue: null });
    expect(standings([need - 1, need], length)).toEqual({ code: 'won', winner: 1, pointDue: null });
    expect(standings([1, 2], length)).toEqual({ code: 'open', winner: null, pointDue: 4 });
  });
});

describe('score', () => {
  it('reaches every state', () => {
    const reached = new Set(
      [standings([0, 0], 13), standings([6, 6], 13), standings([7, 6], 13)].map(({ code }) => code),
    );
    expect([...reached].toSorted()).toEqual([...SCORE_CODES].toSorted());
  });
  it('adds a point to one side', () => {
    expect(addPoint([2, 3], 0)).toEqual([3, 3]);
    expect(addPoint([2, 3], 1)).toEqual([2, 4]);
    expect(lead([2, 4], 0)).toBe(-2);
  });
});

// Golf croquet outline (epsom-remuera): each first stroke from within a yard of corner 4, or, in friendly games, of the east boundary.
const STARTS: readonly (readonly [
  string,
  BallColour,
  number,
  number,
  'corner' | 'strip',
  readonly BallColour[],
  StartCode,
])[] = [
  ['half a yard off the corner', 'blue', 27.5, 0.3, 'corner', [], 'inside'],
  ['on the corner', 'blue', 27.9, 0.1, 'corner', [], 'inside'],
  ['two yards off', 'blue', 26, 0.3, 'corner', [], 'outside'],
  ['at another corner', 'green', 0.3, 0.3, 'corner', [], 'outside'],
  ['just at a yard', 'red', 27.0, 0.05, 'corner', ['blue'], 'tooClose'],
  ['off the lawn', 'red', 28.5, 0.3, 'corner', ['blue'], 'outside'],
  ['up the boundary, strict', 'yellow', 27.5, 4, 'corner', ['blue', 'red', 'black'], 'outside'],
  ['up the boundary, friendly', 'yellow', 27.5, 4, 'strip', ['blue', 'red', 'black'], 'inside'],
  ['level with hoop 4', 'yellow', 27.5, 7, 'strip', [], 'tooClose'],
  ['played before', 'blue', 14, 14, 'corner', ['blue'], 'alreadyInPlay'],
];

describe('start', () => {
  it.each(STARTS)('%s: %s at (%d, %d) yd', (_name, ball, x, y, area, played, code) => {
    const place = { point: lawnPoint(x * YARD, y * YARD), covariance: { xx: 1e-4, xy: 0, yy: 1e-4 } };
    expect(
      checkStart(STANDARD_COURT, ball, place, { edition: '2022', area, played, certainty: 0.99 }).code,
    ).toBe(code);
  });
  it('counts a ball placed exactly on the edge as inside', () => {
    const place = { point: lawnPoint(STANDARD_COURT.width, 0), covariance: { xx: 0, xy: 0, yy: 0 } };
    expect(
      checkStart(STANDARD_COURT, 'blue', place, {
        edition: '2013',
        area: 'corner',
        played: [],
        certainty: 0.99,
      }).code,
    ).toBe('inside');
  });
  it('takes the uncertainty in its worst direction', () => {
    // Correlated: 20 mm along one diagonal, nothing along the other; 20 mm inside is then one standard deviation.
    const point = lawnPoint(STANDARD_COURT.width - YARD + 0.02, 0.1);
    const tight = { point, covariance: { xx: 1e-6, xy: 0, yy: 1e-6 } };
    const wide = { point, covariance: { xx: 2e-4, xy: 2e-4, yy: 2e-4 } };
    const given = { edition: '2022', area: 'strip', played: [], certainty: 0.99 } as const;
    expect(checkStart(STANDARD_COURT, 'blue', tight, given).code).toBe('inside');
    expect(checkStart(STANDARD_COURT, 'blue', wide, given).code).toBe('tooClose');
  });
  it('names the balls still to start, in order', () => {
    expect(ballsToStart('second', ['green', 'brown'])).toEqual(['pink', 'white']);
  });
  it('reaches every ground', () => {
    expect([...new Set(STARTS.map((row) => row[6]))].toSorted()).toEqual([...START_CODES].toSorted());
  });
});

// "Golf croquet rules updated" (tunbridgewellscroquet.org.uk): a half circle of a yard since the 5th edition, a point before it.
const PENALTIES: readonly (readonly ['2013' | '2022', 'west' | 'east', number, number, PenaltyCode])[] = [
  ['2022', 'west', 0, 17.5, 'inArea'],
  ['2022', 'west', 0.7, 18.1, 'inArea'],
  ['2022', 'east', 27.2, 17, 'inArea'],
  ['2022', 'west', 0.8, 18.3, 'outsideArea'],
  ['2022', 'east', 0, 17.5, 'outsideArea'],
  ['2013', 'west', 0, 17.5, 'onSpot'],
  ['2013', 'east', 28, 17.5, 'onSpot'],
  ['2013', 'west', 0.7, 17.5, 'offSpot'],
];

describe('penalty areas', () => {
  it.each(PENALTIES)('%s %s: a ball at (%d, %d) yd', (edition, side, x, y, code) => {
    const ruling = checkPenaltyPlace(STANDARD_COURT, side, lawnPoint(x * YARD, y * YARD), edition);
    expect(ruling.code).toBe(code);
    expect(ruling.rule).toContain(edition);
  });
  it('have no radius before the 5th edition', () => {
    expect(penaltyRadius('2013')).toBe(0);
    expect(penaltyRadius('2022')).toBeCloseTo(YARD, 12);
    expect(directedPlace(STANDARD_COURT, 'east')).toEqual({
      x: STANDARD_COURT.width,
      y: STANDARD_COURT.length / 2,
    });
  });
  it('reach every ground', () => {
    expect([...new Set(PENALTIES.map((row) => row[4]))].toSorted()).toEqual([...PENALTY_CODES].toSorted());
  });
});

// From memory, to be checked against the club's rule book.
const FAULTS: readonly (readonly [
  string,
  BallColour,
  BallColour,
  readonly BallColour[],
  FaultChoice,
  string,
  BallColour,
  FaultCode,
])[] = [
  ['put back', 'blue', 'blue', ['blue'], 'putBack', '', 'red', 'putBack'],
  ['put back, also the opponents’ point', 'blue', 'blue', ['red'], 'putBack', '', 'red', 'putBack'],
  ['left, its own point', 'blue', 'blue', ['blue'], 'leave', '', 'red', 'left'],
  ['left, its partner’s point', 'red', 'red', ['yellow'], 'leave', '', 'black', 'left'],
  ['left, the opponents’ point counts', 'blue', 'blue', ['red'], 'leave', 'red', 'red', 'leftOpponentsScore'],
  [
    'left, a fault of the side that does not strike',
    'blue',
    'red',
    ['blue'],
    'leave',
    'blue',
    'red',
    'leftOpponentsScore',
  ],
  ['left, no point at all', 'white', 'white', [], 'leave', '', 'green', 'left'],
];

describe('faults', () => {
  it.each(FAULTS)(
    '%s: %s strikes, fault of %s',
    (_name, striker, offender, scored, choice, points, next, code) => {
      const ruling = judgeFault({ edition: '2022', striker, offender, scored, choice });
      expect([ruling.points.join(' '), ruling.next, ruling.code]).toEqual([points, next, code]);
      expect(ruling.putBack).toBe(choice === 'putBack');
      expect(ruling.standing).toBe('fromMemory');
    },
  );
  it('reach every ground', () => {
    expect([...new Set(FAULTS.map((row) => row[7]))].toSorted()).toEqual([...FAULT_CODES].toSorted());
  });
});

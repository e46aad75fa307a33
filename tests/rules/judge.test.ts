import { describe, expect, it } from 'vitest';
import { AnswerSchema, EDITIONS as CONTRACT_EDITIONS, QuestionSchema } from '../../server/contract/judge.ts';
import { parseInput } from '../../server/contract/parse.ts';
import { InputError } from '../../server/errors.ts';
import { EDITIONS } from '../../server/rules/editions.ts';
import { judge } from '../../server/rules/judge.ts';

const answer = (document: unknown) => {
  const found = judge(parseInput(QuestionSchema, document, 'question'));
  return AnswerSchema.parse(found);
};
const codeOf = (document: unknown): string => {
  try {
    answer(document);
    return 'answered';
  } catch (error) {
    if (error instanceof InputError) return error.code;
    throw error;
  }
};

// The example document of the command line's contract.
const OFFSIDE = {
  kind: 'offside',
  edition: '2022',
  hoopScored: 4,
  striker: 'black',
  certainty: 0.99,
  balls: {
    blue: { x: 14.2, y: 20.1, sd: 0.01, arrivedBy: { strokeOf: 'blue', touched: [] } },
    red: { x: 10.0, y: 5.0, sd: 0.01, arrivedBy: { strokeOf: 'red', touched: ['black'] } },
    yellow: {
      x: 9.1,
      y: 8.8,
      sd: 0.01,
      arrivedBy: { strokeOf: 'black', touched: ['black'], thisTurn: true },
    },
    black: { x: 20.9, y: 6.1, sd: 0.01 },
  },
};
const WRONG_BALL = {
  kind: 'wrongBall',
  edition: '2022',
  format: 'doubles',
  colours: 'secondary',
  lastRight: 'green',
  opening: false,
  strokes: [{ player: 'pink', ball: 'brown' }],
};

describe('judge', () => {
  it('answers the contract’s offside example', () => {
    const found = answer(OFFSIDE) as Extract<ReturnType<typeof answer>, { line: unknown }>;
    // Line 4–5: x = 17.5 yd = 16.002 m, the next hoop to the west.
    expect(found.line).toMatchObject({ axis: 'x', nextHoopSide: -1 });
    expect(found.line.at).toBeCloseTo(17.5 * 0.9144, 10);
    expect(found.balls.map(({ colour, verdict }) => [colour, verdict])).toEqual([
      ['blue', 'offside'],
      ['red', 'excused'],
      ['yellow', 'excused'],
      ['black', 'onside'],
    ]);
    expect(found.balls[0]!.beyond).toBeCloseTo(16.002 - 14.2 - 0.046, 10);
  });

  it('answers the contract’s wrong-ball example', () => {
    expect(answer(WRONG_BALL)).toMatchObject({
      wrong: true,
      outcome: 'replaceAndReplay',
      putBack: true,
      pointsCount: false,
      next: { balls: ['pink'] },
    });
    expect(answer({ ...WRONG_BALL, edition: '2013' })).toMatchObject({
      outcome: 'opponentsChoose',
      options: ['leave', 'putBack'],
      next: { balls: ['green', 'brown'] },
    });
  });

  it.each([
    ['hoop 13 ends the game', { ...OFFSIDE, hoopScored: 13 }, 'last-hoop'],
    ['hoop 14', { ...OFFSIDE, hoopScored: 14 }, 'no-such-hoop'],
    ['hoop 7 ends a game of 7', { ...OFFSIDE, hoopScored: 7, points: 7 }, 'last-hoop'],
    ['hoop 14 in a game of 19', { ...OFFSIDE, hoopScored: 14, points: 19 }, 'answered'],
    ['an unknown colour', { ...OFFSIDE, balls: { mauve: { x: 1, y: 1, sd: 0 } } }, 'unknown-colour'],
    ['a striker of the other set', { ...OFFSIDE, striker: 'green' }, 'mixed-colours'],
    ['an edition that is not known', { ...OFFSIDE, edition: '1999' }, 'question-invalid'],
    ['a place as text', { ...OFFSIDE, balls: { blue: { x: '1', y: 1, sd: 0 } } }, 'question-invalid'],
    ['no kind', { ...OFFSIDE, kind: 'fault' }, 'question-invalid'],
    ['the other set named', { ...WRONG_BALL, colours: 'primary' }, 'mixed-colours'],
    [
      'a ball of the other set',
      { ...WRONG_BALL, strokes: [{ player: 'pink', ball: 'red' }] },
      'mixed-colours',
    ],
    ['no strokes: who plays next', { ...WRONG_BALL, strokes: [] }, 'answered'],
    ['not an object', 7, 'question-invalid'],
  ])('%s', (_name, document, code) => {
    expect(codeOf(document)).toBe(code);
  });

  it('measures on a lawn of any size', () => {
    const small = { ...OFFSIDE, lawn: { width: 12.8016, length: 16.002 } };
    const found = answer(small) as Extract<ReturnType<typeof answer>, { line: unknown }>;
    expect(found.line.at).toBeCloseTo((17.5 * 0.9144) / 2, 10);
  });

  it('knows the same editions as its schema', () => {
    expect([...CONTRACT_EDITIONS].toSorted()).toEqual([...EDITIONS].toSorted());
  });

  it('throws for a point that no other follows', () => {
    expect(() =>
      judge({
        ...OFFSIDE,
        kind: 'offside',
        hoopScored: 13,
        points: 13,
        lawn: { width: 25, length: 32 },
      } as never),
    ).toThrow('Expected a point that another follows for hoopScored in a game of 13 but received 13');
  });
});

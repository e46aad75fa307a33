import { describe, expect, it } from 'vitest';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import { EDITIONS, type Edition } from '../../server/rules/editions.ts';
import { judgeWrongBall } from '../../server/rules/wrong-ball.ts';
import {
  FORMATS,
  type Format,
  type Stroke,
  type WrongBallCase,
} from '../../server/rules/wrong-ball-types.ts';
import { caseOf, type Row, swapColour } from './cases/notation.ts';
import { DOUBLES_2013, SINGLES_2013 } from './cases/wrong-ball-2013.ts';
import { DOUBLES_2022, SINGLES_2022 } from './cases/wrong-ball-2022.ts';

const TABLES: readonly (readonly [Edition, Format, readonly Row[]])[] = [
  ['2022', 'singles', SINGLES_2022],
  ['2022', 'doubles', DOUBLES_2022],
  ['2013', 'singles', SINGLES_2013],
  ['2013', 'doubles', DOUBLES_2013],
];

const swapped = (given: WrongBallCase): WrongBallCase => ({
  ...given,
  set: given.set === 'first' ? 'second' : 'first',
  lastRight: given.lastRight && swapColour(given.lastRight),
  strokes: given.strokes.map(({ player, ball }) => ({ player: swapColour(player), ball: swapColour(ball) })),
});

describe.each(TABLES)('wrong balls, %s, %s', (edition, format, rows) => {
  it('has at least 25 cases', () => expect(rows.length).toBeGreaterThanOrEqual(25));

  it.each(rows)('$name (after $last: $strokes)', (row) => {
    const { outcome, next, code, more } = row;
    const ruling = judgeWrongBall(caseOf(row, edition, format));
    expect([ruling.outcome, ruling.next.join(' '), ruling.code]).toEqual([outcome, next, code]);
    expect(ruling.wrong).toBe(code !== 'right');
    expect(ruling.edition).toBe(edition);
    expect(ruling.rule).toContain(edition);
    expect(ruling.reason.length).toBeGreaterThan(20);
    if (more.undone) expect(ruling.undone).toBe(Number(more.undone));
    if (more.options) expect(ruling.choices.map(({ option }) => option).join()).toBe(more.options);
  });

  it.each(rows)('with the colours exchanged: $name (after $last: $strokes)', (row) => {
    const given = caseOf(row, edition, format);
    const ruling = judgeWrongBall(given);
    const other = judgeWrongBall(swapped(given));
    expect({ ...other, reason: '', choices: [] }).toEqual({
      ...ruling,
      next: ruling.next.map(swapColour),
      reason: '',
      choices: [],
    });
  });
});

/** Every sequence of up to `length` strokes with the first colours. */
const sequences = (length: number): Stroke[][] => {
  if (length === 0) return [[]];
  const first = BALL_COLOURS.slice(0, 4);
  const strokes = first.flatMap((player) => first.map((ball) => ({ player, ball })));
  return sequences(length - 1).flatMap((before) => [
    ...(before.length === length - 1 ? strokes.map((stroke) => [...before, stroke]) : []),
    before,
  ]);
};

describe.each(EDITIONS)('every sequence of up to three strokes, %s', (edition) => {
  it.each(FORMATS)('has a consistent ruling in %s', (format) => {
    // What each outcome means, by the definition of the answer.
    const strange: unknown[] = [];
    for (const lastRight of [null, 'blue', 'yellow'] as const)
      for (const strokes of sequences(3)) {
        const ruling = judgeWrongBall({
          edition,
          format,
          set: 'first',
          lastRight,
          opening: lastRight !== 'yellow',
          strokes,
        });
        const { outcome } = ruling;
        const sane =
          ruling.pointsCount === (outcome === 'stands') &&
          ruling.next.length === (outcome === 'referee' ? 0 : outcome === 'opponentsChoose' ? 2 : 1) &&
          ruling.choices.length === (outcome === 'opponentsChoose' ? 2 : 0) &&
          ruling.putBack === ['replaceAndReplay', 'annulled', 'opponentsChoose'].includes(outcome) &&
          ruling.undone > 0 === ruling.putBack &&
          ruling.undone <= strokes.length &&
          (ruling.wrong || outcome === 'stands');
        if (!sane) strange.push({ strokes, ruling });
      }
    expect(strange).toEqual([]);
  });
});

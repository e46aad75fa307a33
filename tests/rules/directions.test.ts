import { describe, expect, it } from 'vitest';
import type { BallColour } from '../../server/lawn/colours.ts';
import { sideOf } from '../../server/rules/ball-order.ts';
import {
  DIRECTION_CODES,
  type Direction,
  type DirectionChoice,
  type DirectionCode,
  directionsAfterStroke,
  giveDirection,
  openDirections,
} from '../../server/rules/directions.ts';
import { EDITIONS, type Edition } from '../../server/rules/editions.ts';

/** A step: the opponents say "ball choice", or a ball is played: "play ball". */
type Step = `${BallColour} ${DirectionChoice}` | `play ${BallColour}`;

// E: "Essential rules simplified" no. 1, hpcc.ie. F: "Simplified rules", hameastcroquet. H: "Golf croquet rules updated",
// tunbridgewellscroquet.org.uk. C: common practice. N: the text is not to hand.
const ROWS: readonly (readonly [
  name: string,
  editions: readonly Edition[],
  offside: readonly BallColour[],
  steps: readonly Step[],
  codes: readonly DirectionCode[],
  states: Readonly<Partial<Record<BallColour, Direction['state']>>>,
  source: string,
])[] = [
  ['nothing said yet', EDITIONS, ['red'], [], [], { red: 'pending' }, 'E'],
  ['to the west', EDITIONS, ['red'], ['red west'], ['given'], { red: 'west' }, 'E'],
  ['to the east', EDITIONS, ['black'], ['black east'], ['given'], { black: 'east' }, 'E'],
  ['left where it lies', EDITIONS, ['red'], ['red leave'], ['left'], { red: 'left' }, 'E, F'],
  ['given, then played', EDITIONS, ['red'], ['red west', 'play red'], ['given'], { red: 'west' }, 'E'],
  [
    'stands once given',
    EDITIONS,
    ['red'],
    ['red west', 'red east'],
    ['given', 'stands'],
    { red: 'west' },
    'C',
  ],
  [
    'stands once left',
    EDITIONS,
    ['red'],
    ['red leave', 'red west'],
    ['left', 'stands'],
    { red: 'left' },
    'C',
  ],
  [
    'the opponents play first',
    EDITIONS,
    ['black'],
    ['play red', 'black west'],
    ['lapsed', 'gone'],
    { black: 'lapsed' },
    'F',
  ],
  [
    'of a ball that is not offside',
    EDITIONS,
    ['red'],
    ['yellow west'],
    ['notOffside'],
    { red: 'pending' },
    'E',
  ],
  ['of no ball at all', EDITIONS, [], ['yellow west'], ['notOffside'], {}, 'E'],
  [
    'both sides at once',
    EDITIONS,
    ['red', 'black'],
    ['black west', 'red leave'],
    ['given', 'left'],
    { black: 'west', red: 'left' },
    'E',
  ],
  [
    'both balls of a side',
    EDITIONS,
    ['red', 'yellow'],
    ['yellow east'],
    ['given'],
    { red: 'pending', yellow: 'east' },
    'E',
  ],
  [
    'one given, the other lapses',
    EDITIONS,
    ['black', 'blue'],
    ['black west', 'play red'],
    ['given', 'lapsed'],
    { black: 'west', blue: 'lapsed' },
    'F',
  ],
  [
    'since the 5th edition: its side plays the onside ball first',
    ['2022'],
    ['yellow'],
    ['play red', 'yellow west'],
    ['lapsed', 'gone'],
    { yellow: 'lapsed' },
    'H',
  ],
  [
    'before the 5th edition: its side plays the onside ball first',
    ['2013'],
    ['yellow'],
    ['play red', 'yellow west'],
    ['kept', 'given'],
    { yellow: 'west' },
    'H',
  ],
  [
    'before the 5th edition: then the opponents play too',
    ['2013'],
    ['yellow'],
    ['play red', 'play black', 'yellow west'],
    ['kept', 'lapsed', 'gone'],
    { yellow: 'lapsed' },
    'F, H',
  ],
  [
    'since the 5th edition: the offside ball itself is played',
    ['2022'],
    ['red'],
    ['play red', 'red west'],
    ['lapsed', 'gone'],
    { red: 'lapsed' },
    'F',
  ],
  [
    'before the 5th edition: the offside ball itself is played',
    ['2013'],
    ['red'],
    ['play red', 'red west'],
    ['offsideBallPlayed', 'gone'],
    { red: 'referee' },
    'N',
  ],
  [
    'both sides, the entitled side plays first, 5th on',
    ['2022'],
    ['yellow', 'black'],
    ['play red'],
    ['lapsed', 'lapsed'],
    { yellow: 'lapsed', black: 'lapsed' },
    'F, H',
  ],
  [
    'both sides, the entitled side plays first, before',
    ['2013'],
    ['yellow', 'black'],
    ['play red'],
    ['kept', 'lapsed'],
    { yellow: 'pending', black: 'lapsed' },
    'F, H',
  ],
];

const run = (offside: readonly BallColour[], steps: readonly Step[], edition: Edition) => {
  let directions: readonly Direction[] = openDirections(offside);
  const codes: DirectionCode[] = [];
  for (const step of steps) {
    const [first, second] = step.split(' ') as [string, string];
    const rulings =
      first === 'play'
        ? directionsAfterStroke(directions, second as BallColour, sideOf(second as BallColour), edition)
        : [giveDirection(directions, first as BallColour, second as DirectionChoice, edition)];
    for (const ruling of rulings) {
      directions = ruling.directions;
      codes.push(ruling.code);
      expect(ruling.accepted).toBe(ruling.code === 'given' || ruling.code === 'left');
      expect(ruling.reason).toMatch(/^[A-Z].*\.$/);
    }
  }
  return { directions, codes };
};

describe('directions', () => {
  const cases = ROWS.flatMap((row) => row[1].map((edition) => ({ name: row[0], edition, row })));

  it.each(cases)('$name, $edition', ({ edition, row }) => {
    const [, , offside, steps, codes, states] = row;
    const found = run(offside, steps, edition);
    expect(found.codes).toEqual(codes);
    expect(Object.fromEntries(found.directions.map(({ ball, state }) => [ball, state]))).toEqual(states);
  });

  it('are given by the opponents of the owner', () => {
    expect(openDirections(['red', 'black']).map(({ chooser }) => chooser)).toEqual([0, 1]);
  });

  it('reach every ground', () => {
    expect([...new Set(ROWS.flatMap((row) => row[4]))].toSorted()).toEqual([...DIRECTION_CODES].toSorted());
  });
});

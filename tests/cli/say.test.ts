import { describe, expect, it } from 'vitest';
import { sayCall, sayLine } from '../../server/cli/say/say-calls.ts';
import { sayCheck } from '../../server/cli/say/say-check.ts';
import { sayJudgement } from '../../server/cli/say/say-judgement.ts';
import { sayReading } from '../../server/cli/say/say-reading.ts';
import { MarksSchema } from '../../server/contract/marks.ts';
import type { BallCall, Reading } from '../../server/contract/reading.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { halfwayLine, SCORED_POINTS } from '../../server/lawn/halfway-lines.ts';

const call = (given: Partial<BallCall>): BallCall => ({
  colour: 'red',
  beyond: 0.034,
  sd: 0.00612,
  probability: 0.9999,
  lies: 'beyond',
  ...given,
});

describe('a call in words', () => {
  // Bands by hand: 1.96 × 6.12 mm = 12.0 mm; 1.96 × 60 mm = 117.6 mm.
  it.each<[string, Partial<BallCall>, string]>([
    ['past the line', {}, 'Red: all of it is past the line, by 34 mm, give or take 12.'],
    [
      'short of the line',
      { beyond: -0.106, lies: 'short', probability: 0.0001 },
      'Red: not past the line, short of it by 106 mm, give or take 12.',
    ],
    [
      'far from the line',
      { beyond: -2.514, sd: 0.06, lies: 'short', probability: 0 },
      'Red: not past the line, short of it by 2.51 m, give or take 118 mm.',
    ],
    [
      'too close, rather past',
      { beyond: 0.005, lies: 'tooClose', probability: 0.79 },
      'Red: too close to call from this picture: past the line by 5 mm, give or take 12; 79 in 100 that all of it is past.',
    ],
    [
      'too close, rather short, with what settles it',
      {
        beyond: -0.005,
        lies: 'tooClose',
        probability: 0.21,
        settle: [{ action: 'stringOnLawn', message: 'Stretch a string between the marks.' }],
      },
      'Red: too close to call from this picture: short of the line by 5 mm, give or take 12; 21 in 100 that all of it is past. Stretch a string between the marks.',
    ],
    [
      'far past, but perhaps another ball',
      { beyond: 2.25, lies: 'tooClose', probability: 1 },
      'Red: no call, since it is not sure that this is the red ball; what was found lies past the line by 2.25 m, give or take 12 mm.',
    ],
  ])('%s', (_, given, sentence) => {
    expect(sayCall(call(given), 0.99)).toBe(sentence);
  });
});

describe('the line in words', () => {
  // Lines and sides: the table of halfway lines in `lawn/halfway-lines.ts`; 17.5 yd = 16.002 m, 14 yd = 12.8016 m, 10.5 yd = 9.6012 m.
  const WORDS = [
    '16.00 m north of the south boundary; the next hoop lies to the north',
    '12.80 m east of the west boundary; the next hoop lies to the east',
    '16.00 m north of the south boundary; the next hoop lies to the south',
    '16.00 m east of the west boundary; the next hoop lies to the west',
    '16.00 m north of the south boundary; the next hoop lies to the north',
    '9.60 m east of the west boundary; the next hoop lies to the west',
    '16.00 m north of the south boundary; the next hoop lies to the south',
    '12.80 m east of the west boundary; the next hoop lies to the east',
    '16.00 m north of the south boundary; the next hoop lies to the north',
    '16.00 m east of the west boundary; the next hoop lies to the west',
    '16.00 m north of the south boundary; the next hoop lies to the south',
    '16.00 m east of the west boundary; the next hoop lies to the east',
  ];
  it.each(SCORED_POINTS.map((scored, at) => [scored, WORDS[at]!] as const))(
    'after hoop %i',
    (scored, words) => {
      expect(sayLine(halfwayLine(STANDARD_COURT, scored), scored)).toBe(
        `After hoop ${scored} the line is ${words}.`,
      );
    },
  );
});

const MARKS = MarksSchema.parse({ points: {} });

const READING: Reading = {
  photo: { width: 400, height: 300 },
  camera: {
    position: [0, 0, 5],
    focal: 300,
    radial: [0, 0],
    residual: 0.3,
    traced: { south: 1, west: 1, north: 1, east: 1 },
    rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
    marks: [],
  },
  balls: [
    {
      colour: 'blue',
      x: 22.24,
      y: 16.08,
      sdX: 0.004,
      sdY: 0.017,
      correlation: -0.1,
      image: [1, 2],
      confidence: 0.99,
    },
  ],
  missing: ['pink', 'white'],
  warnings: [
    { code: 'ball-not-found', message: 'The pink ball was not found.' },
    { code: 'line-not-traced', message: 'The north line could not be followed.' },
  ],
};

describe('a reading in words', () => {
  it('tells places when no hoop was scored, what is missing once, and the cautions', () => {
    // 1.96 × 4 mm = 7.8 mm; 1.96 × 17 mm = 33.3 mm.
    expect(sayReading(READING, MARKS)).toEqual([
      'Blue: 22.24 m east and 16.08 m north of corner 1, give or take 8 and 33 mm.',
      'Not found: pink, white.',
      'Caution: The north line could not be followed.',
    ]);
  });
  it('tells the call when a hoop was scored', () => {
    const called = {
      hoopScored: 1,
      nextHoop: 2,
      line: halfwayLine(STANDARD_COURT, 1),
      balls: [call({ colour: 'blue' })],
    };
    expect(sayReading({ ...READING, missing: [], warnings: [], call: called }, MARKS)).toEqual([
      'After hoop 1 the line is 16.00 m north of the south boundary; the next hoop lies to the north.',
      'Blue: all of it is past the line, by 34 mm, give or take 12.',
    ]);
  });
});

describe('a court check in words', () => {
  it('tells for each place how far it is off and which way', () => {
    const unseen = { dx: null, dy: null, sd: null, within: null };
    const lines = sayCheck({
      tolerance: 0.15,
      markers: [
        { name: 'W', along: 0.18, sd: 0.01, within: false },
        { name: 'S14', along: -0.09, sd: 0.004, within: true },
        { name: 'N17.5', along: 0.148, sd: 0.005, within: null },
        { name: 'E', along: null, sd: null, within: null },
      ],
      hoops: [{ name: 'hoop1', dx: 0.02, dy: -0.01, sd: 0.008, within: true }],
      peg: unseen,
      warnings: [{ code: 'marker-missing', message: 'No marker was seen in the east.' }],
    });
    // 1.96 × 10, 4, 5 and 8 mm = 19.6, 7.8, 9.8 and 15.7 mm.
    expect(lines).toEqual([
      'Tolerance 150 mm.',
      'Marker on the west boundary: 180 mm to the north, give or take 20 mm; out of the tolerance.',
      'Marker on the south boundary, 14 yd from the west: 90 mm to the west, give or take 8 mm; within the tolerance.',
      'Marker on the north boundary, 17½ yd from the west: 148 mm to the east, give or take 10 mm; too close to say.',
      'Marker on the east boundary: not seen.',
      'Hoop 1: 20 mm to the east and 10 mm to the south, give or take 16 mm; within the tolerance.',
      'Peg: not seen.',
      'Caution: No marker was seen in the east.',
    ]);
  });
});

describe('a judgement in words', () => {
  it('tells verdict, reason and rule of each ball', () => {
    const ball = {
      colour: 'blue',
      beyond: 1.756,
      sd: 0.01,
      probability: 1,
      lies: 'beyond',
      verdict: 'offside',
      code: 'ownStroke',
      reason: 'Blue is past the halfway line by a stroke of its own side.',
      rule: 'rule 8, 2022',
    } as const;
    const answer = { edition: '2022', line: halfwayLine(STANDARD_COURT, 4), balls: [ball] } as const;
    expect(sayJudgement(answer as never)).toEqual([
      'The line is 16.00 m east of the west boundary; the next hoop lies to the west.',
      'Blue: offside. Blue is past the halfway line by a stroke of its own side. (rule 8, 2022)',
    ]);
  });
});

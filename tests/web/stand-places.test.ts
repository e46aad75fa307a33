import { describe, expect, it } from 'vitest';
import { outerEdges, settles } from '../../web/court/settled-places.ts';
import { heightInWords, placeInWords, sidesOf } from '../../web/court/stand-words.ts';

const COURT = { width: 25.6032, length: 32.004 };
const ALONG_Y = { line: { axis: 'y', at: 16.002, nextHoopSide: 1 }, step: 2.5 } as const;

describe('what a place settles', () => {
  // 99 % point of the normal distribution 2.3263, 95 % point 1.6449 (NIST/SEMATECH e-Handbook, 1.3.6.7.1): 46 mm ÷ 2.3263 = 19.77 mm, 92 mm ÷ 2.3263 = 39.55 mm.
  const cases = [
    ['half a ball just inside the limit', 0.0197, 0.99, 'half'],
    ['only a whole ball just past it', 0.0199, 0.99, 'whole'],
    ['a whole ball just inside the limit', 0.0395, 0.99, 'whole'],
    ['not even a whole ball', 0.0396, 0.99, 'less'],
    ['half a ball when less certainty is asked (46 ÷ 1.6449 = 27.97 mm)', 0.0279, 0.95, 'half'],
  ] as const;
  it.each(cases)('%s', (_name, sd, certainty, expected) => {
    expect(settles(sd, certainty)).toBe(expected);
  });
});

describe('the outline of a settled area', () => {
  it('has the four sides of a lone place', () => {
    expect(outerEdges([{ x: 0, y: 0 }], 2)).toHaveLength(4);
  });
  it('leaves out the side between two neighbours: six sides of length one round a domino', () => {
    const edges = outerEdges(
      [
        { x: -1.2, y: 3.4 },
        { x: 0.8, y: 3.4 },
      ],
      2,
    );
    expect(edges).toHaveLength(6);
    expect(edges.every(([x1, , x2]) => !(x1 === x2 && Math.abs(x1 + 0.2) < 1e-9))).toBe(true);
  });
  it('runs round the hole of a ring: 12 outer and 4 inner sides of eight places round an empty one', () => {
    const ring = [-1, 0, 1]
      .flatMap((x) => [-1, 0, 1].map((y) => ({ x, y })))
      .filter(({ x, y }) => x !== 0 || y !== 0);
    expect(outerEdges(ring, 1)).toHaveLength(16);
  });
});

describe('a place to stand in words', () => {
  // One yard is 0.9144 m: 7.3 m = 8.0 yd, 2.75 m = 3.0 yd.
  const cases = [
    [
      'behind the end of the line',
      { x: -7.3, y: 16.1 },
      '8 yd outside the west boundary, in line with the halfway line',
    ],
    [
      'aside',
      { x: 28.353, y: 18.752 },
      '3 yd outside the east boundary, 3 yd to the north of the halfway line',
    ],
    [
      'past a corner',
      { x: -2.75, y: -2.75 },
      '3 yd outside the west boundary and 3 yd outside the south boundary, 21 yd to the south of the halfway line',
    ],
    ['on the lawn', { x: 3, y: 3 }, 'on the lawn'],
  ] as const;
  it.each(cases)('%s', (_name, place, expected) => {
    expect(placeInWords(place, ALONG_Y, COURT, 'imperial')).toBe(expected);
  });
  it('is told in metres where the club uses them', () => {
    expect(placeInWords({ x: -7.3, y: 16.1 }, ALONG_Y, COURT, 'metric')).toContain('7.5 m outside the west');
  });
  it('says heights to the foot: 5 m are 16.4 ft', () => {
    expect([heightInWords(5, 'imperial'), heightInWords(5, 'metric')]).toEqual(['16 ft', '5 m']);
  });
  it('counts a place past a corner for neither boundary', () => {
    expect(sidesOf([{ x: -2, y: -2 }], COURT)).toEqual([]);
    expect(
      sidesOf(
        [
          { x: 30, y: 5 },
          { x: -2, y: 5 },
        ],
        COURT,
      ),
    ).toEqual(['west', 'east']);
  });
});

import { describe, expect, test } from 'vitest';
import type { BallCall } from '../../server/contract/reading.ts';
import { chance } from '../../server/contract/words/chances.ts';
import { distance, margin } from '../../server/contract/words/lengths.ts';
import { sayCall } from '../../web/call/say-call.ts';
import { layOutStrip } from '../../web/call/strip-layout.ts';

const call = (beyond: number, sd: number, lies: BallCall['lies'], probability = 0.5): BallCall => ({
  colour: 'red',
  beyond,
  sd,
  lies,
  probability,
});

// 1 in = 25.4 mm and 1 yd = 0.9144 m exactly: 34 mm = 1.339 in, nearest eighth 1⅜; 7 yd 2 ft = 7.0104 m.
describe('lengths', () => {
  test.each([
    [margin(0.034, 'metric'), '34 mm'],
    [margin(0.034, 'imperial'), '34 mm (1⅜ in)'],
    [margin(-0.006, 'imperial'), '6 mm (¼ in)'],
    [distance(7.0104, 'imperial'), '7 yd 2 ft'],
    [distance(7.0104, 'metric'), '7.01 m'],
    [distance(0, 'imperial'), '0 in'],
  ])('are said as on a lawn: %s', (said, expected) => expect(said).toBe(expected));
});

describe('chances', () => {
  test.each([
    [0.9996, 'more than 999 in 1000'],
    [0.9946, '994 in 1000'],
    [0.93, '93 in 100'],
    [0.0004, 'less than 1 in 1000'],
  ])('%d is never rounded up to certainty', (probability, expected) =>
    expect(chance(probability)).toBe(expected),
  );
});

// Half width of the band that covers 19 in 20: 1.96 standard deviations, 1.96 · 6 mm = 11.8 mm.
describe('a call in words', () => {
  test.each([
    ['past', call(0.034, 0.006, 'beyond'), 'All of it is past the line', 'by 34 mm, give or take 12 mm'],
    [
      'straddling',
      call(-0.03, 0.005, 'short'),
      'Part of it may be past the line, not all of it',
      'it is 30 mm short of all across, give or take 10 mm',
    ],
    [
      'short',
      call(-0.5, 0.005, 'short'),
      'None of it is past the line',
      'it is 500 mm short of all across, give or take 10 mm',
    ],
    [
      'undecided',
      call(0.004, 0.01, 'tooClose'),
      'Too close to call from this picture',
      'it seems all across by 4 mm, give or take 20 mm',
    ],
  ] as const)('says when a ball is %s', (_name, given, decides, figures) => {
    const said = sayCall(given, 'metric');
    expect([said.decides, said.figures]).toEqual([decides, figures]);
  });

  test('says that it is the ball that is unsure when its place is far from the line', () => {
    expect(sayCall(call(-0.06, 0.004, 'tooClose'), 'metric').decides).toMatch(/not certain/);
  });
});

// A ball is 92 mm across.
describe('the close-up strip', () => {
  test('is to scale near the line', () => {
    expect(layOutStrip(0.034, 0.006)).toMatchObject({ rear: 34, half: expect.closeTo(11.76, 6), cut: null });
  });

  test.each([
    [5, 120],
    [-5, -212],
  ])('cuts out the gap of a ball %d m past the line, and keeps its side', (beyond, rear) => {
    const layout = layOutStrip(beyond, 0.01);
    expect(layout.rear).toBe(rear);
    expect(Math.sign(layout.cut!)).toBe(Math.sign(beyond));
  });

  test.each([0.3, 0.02, -0.01, -0.05, -0.2, -3])('holds line, ball and band at %d m', (beyond) => {
    const { from, to, rear, half } = layOutStrip(beyond, 0.01);
    expect(from).toBeLessThan(Math.min(0, rear - half));
    expect(to).toBeGreaterThan(Math.max(0, rear + 92));
  });
});

import { describe, expect, test } from 'vitest';
import type { Pins } from '../../web/draft/draft.ts';
import { pinOrder, putInOrder, turnNumbers } from '../../web/marking/pin-order.ts';

/** A lawn as a terrace shows it: corner 1 near left, then clockwise to the eye (corners run clockwise seen from above). */
const FINE: Pins = { corner1: [10, 90], corner2: [30, 40], corner3: [70, 40], corner4: [95, 90] };
const MIRRORED: Pins = { corner1: [95, 90], corner2: [70, 40], corner3: [30, 40], corner4: [10, 90] };
const CROSSED: Pins = { corner1: [10, 90], corner2: [70, 40], corner3: [30, 40], corner4: [95, 90] };

describe('the order of the corner pins', () => {
  test.each([
    ['as seen from above', FINE, 'fine'],
    ['as in a mirror', MIRRORED, 'mirrored'],
    ['crossing over', CROSSED, 'crossed'],
    ['with a corner missing', { corner1: [10, 90], corner2: [30, 40] } as Pins, 'fine'],
  ] as const)('is told: %s', (_name, pins, order) => {
    expect(pinOrder(pins)).toBe(order);
  });

  test.each([
    ['mirrored', MIRRORED],
    ['crossed', CROSSED],
  ])('is put right when %s, and corner 1 keeps its place', (_name, pins) => {
    const before = structuredClone(pins);
    const after = putInOrder(pins);
    expect(pinOrder(after)).toBe('fine');
    expect(after.corner1).toEqual(pins.corner1);
    expect(pins).toEqual(before);
  });

  test('comes back after four turns of the numbers', () => {
    expect(turnNumbers(turnNumbers(turnNumbers(turnNumbers(FINE))))).toEqual(FINE);
    expect(turnNumbers(FINE).corner2).toEqual(FINE.corner1);
  });

  test('leaves other points where they are', () => {
    expect(putInOrder({ ...CROSSED, peg: [50, 60] }).peg).toEqual([50, 60]);
  });
});

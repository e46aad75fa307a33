import { describe, expect, it } from 'vitest';
import type { Lies } from '../../server/contract/reading.ts';
import { sayCalls, sayVerdict } from '../../server/contract/verdict.ts';
import type { BallColour } from '../../server/lawn/colours.ts';

const ball = (colour: BallColour, lies: Lies) => ({ colour, lies });

describe('the sentence of a call', () => {
  it.each([
    ['no ball', [], 'No ball was found.'],
    ['one past', [ball('red', 'beyond')], 'Red is past the line.'],
    ['one short', [ball('red', 'short')], 'Red is not past the line.'],
    ['one open', [ball('red', 'tooClose')], 'Red is too close to call.'],
    [
      'firm ones first, whatever their order',
      [ball('blue', 'tooClose'), ball('red', 'short'), ball('black', 'beyond'), ball('yellow', 'beyond')],
      'Black and Yellow are past the line; Red is not past the line; Blue is too close to call.',
    ],
    [
      'three of a kind',
      [ball('blue', 'short'), ball('red', 'short'), ball('black', 'short')],
      'Blue, Red and Black are not past the line.',
    ],
  ])('%s', (_, balls, sentence) => {
    expect(sayCalls(balls)).toBe(sentence);
  });

  it('of a picture without a point scored names the balls', () => {
    const found = { kind: 'lawn', balls: [{ colour: 'red' }, { colour: 'blue' }] } as never;
    expect(sayVerdict(found)).toBe('Red and Blue found; there is no line to judge.');
  });
});

describe('the sentence of a court check', () => {
  const at = (within: boolean | null, sd: number | null = 0.01) => ({ dx: 0, dy: 0, sd, within });
  const check = (...places: ReturnType<typeof at>[]) =>
    sayVerdict({
      kind: 'check',
      tolerance: 0.15,
      markers: [],
      warnings: [],
      hoops: places.slice(1).map((place) => ({ ...place, name: 'hoop1' })),
      peg: places[0]!,
    });

  it.each([
    ['all well', [at(true), at(true)], 'No place is certainly off.'],
    ['one off', [at(false), at(true)], '1 of 2 places is off.'],
    [
      'all kinds',
      [at(false), at(false), at(null), at(null, null)],
      '2 of 4 places are off, 1 too close to say, 1 not seen.',
    ],
  ])('%s', (_, places, sentence) => {
    expect(check(...places)).toBe(sentence);
  });
});

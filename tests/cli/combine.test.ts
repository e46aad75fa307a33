import { describe, expect, it } from 'vitest';
import { sayCombination } from '../../server/cli/say/say-combination.ts';
import { combineReadings } from '../../server/reading/combine-readings.ts';
import { seeded } from '../accuracy/random.ts';
import { type Position, phoneAt, takeLawn, takeSighting } from '../reading/simulated-answers.ts';
import { sward } from './harness.ts';

describe('the command line of combine', () => {
  it.each<[string, string[], RegExp]>([
    ['no picture', [], /Found 0 picture and two are needed/],
    ['one picture', ['read', 'a.jpg', '--marks', 'a.json'], /Found 1 picture and two are needed/],
    [
      'a picture without its kind',
      ['a.jpg', '--marks', 'a.json'],
      /Found "a.jpg" where read or sight is needed/,
    ],
    [
      'a picture without marks',
      ['read', 'a.jpg', '--marks', 'a.json', 'sight', 'b.jpg'],
      /Picture 2 needs a photo, --marks and a file/,
    ],
    [
      'marks that are not there',
      ['read', 'a.jpg', '--marks', 'none.json', 'sight', 'b.jpg', '--marks', 'none.json'],
      /marks file "none.json" was not found/,
    ],
  ])('refuses %s in one sentence', async (_, words, sentence) => {
    const { code, out, err } = await sward('combine', ...words);
    expect([code, out, err.length]).toEqual([2, [], 1]);
    expect(err[0]).toMatch(sentence);
  });
});

describe('a combination in words', () => {
  const random = seeded(3);
  const balls: Position = new Map([['red', { x: 9, y: 16.3, z: 0.046 }]]);
  const pictures = [
    takeLawn(random, phoneAt(11, -19, 7.2, 12.8, 14), balls, { name: 'terrace.jpg' }),
    takeSighting(random, phoneAt(-3, 16.1, 1.6, 12, 16), balls, { name: 'west.jpg' }),
  ];
  it('names the pictures, the line and each ball', () => {
    // Red's centre is 298 mm north of the line y = 16.002 m, so its nearest point is 252 mm past it.
    const [from, line, red] = sayCombination(combineReadings(pictures));
    expect(from).toBe('From terrace.jpg and west.jpg together.');
    expect(line).toMatch(/^After hoop 1 the line is 16.00 m north/);
    expect(red).toMatch(/^Red: all of it is past the line, by 25\d mm/);
  });
  it('tells where the balls lie when no point was scored', () => {
    const [, place] = sayCombination(combineReadings(pictures, null));
    expect(place).toMatch(/^Red: (9\.0|8\.99)\d* m east and 16\.(29|30) m north of corner 1/);
  });
});

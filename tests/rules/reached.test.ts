import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { WRONG_BALL_2013_CODES } from '../../server/rules/wrong-ball-2013.ts';
import { WRONG_BALL_2022_CODES } from '../../server/rules/wrong-ball-2022.ts';
import { DOUBLES_2013, SINGLES_2013 } from './cases/wrong-ball-2013.ts';
import { DOUBLES_2022, SINGLES_2022 } from './cases/wrong-ball-2022.ts';

const here = new URL('.', import.meta.url).pathname;
const rules = new URL('../../server/rules/', import.meta.url).pathname;

describe('the tables', () => {
  it.each([
    ['2022', WRONG_BALL_2022_CODES, [...SINGLES_2022, ...DOUBLES_2022]],
    ['2013', WRONG_BALL_2013_CODES, [...SINGLES_2013, ...DOUBLES_2013]],
  ] as const)('reach every ground of the wrong-ball rules of %s', (_edition, codes, rows) => {
    expect([...new Set(rows.map(({ code }) => code))].toSorted()).toEqual([...codes].toSorted());
  });

  it('are asked about every list of grounds that a rule file exports', () => {
    const lists = readdirSync(rules).flatMap((file) =>
      [...readFileSync(`${rules}${file}`, 'utf8').matchAll(/export const (\w+_CODES)\b/g)].map(
        (match) => match[1]!,
      ),
    );
    const tests = readdirSync(here)
      .filter((file) => file.endsWith('.test.ts'))
      .map((file) => readFileSync(`${here}${file}`, 'utf8'))
      .join('\n');
    expect(lists.length).toBeGreaterThanOrEqual(8);
    expect(lists.filter((list) => !tests.includes(list))).toEqual([]);
  });
});

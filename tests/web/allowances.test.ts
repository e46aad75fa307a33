import { describe, expect, it } from 'vitest';
import type { Contributions } from '../../server/contract/sight.ts';
import { adviceOf, allowancesOf, sayAllowance, scaleOf, tallness } from '../../web/court/allowances.ts';

const nothing = { sd: 0, shift: 0 };
const NONE: Contributions = { height: nothing, aside: nothing, roll: nothing, lens: nothing };

describe('what a sighting is allowed for', () => {
  it('tells doubt as the band of 19 in 20: 1.96 standard deviations', () => {
    const [aside] = allowancesOf({ ...NONE, aside: { sd: 0.001, shift: -0.0075 } });
    expect(aside).toEqual({ of: 'aside', shift: -0.0075, give: expect.closeTo(0.00196, 12) });
  });

  // Half the width holds the largest shift with its doubt: 75 + 1.96 · 9 mm; with nothing to show it is 5 mm.
  it.each([
    ['the largest', { ...NONE, height: { sd: 0.009, shift: -0.075 } }, 0.09264],
    ['nothing', NONE, 0.005],
  ] as const)('scales the bars by %s', (_name, contributions, expected) => {
    expect(scaleOf(allowancesOf(contributions))).toBeCloseTo(expected, 9);
  });

  it.each([
    [{ shift: -0.0075, give: 0.002 }, 'Left out, it would seem 8 mm farther short; 2 mm of doubt is left'],
    [
      { shift: 0.002, give: 0.0002 },
      'Left out, it would seem 2 mm farther past; less than 1 mm of doubt is left',
    ],
    [{ shift: 0.0001, give: 0.001 }, 'Moves it by less than 1 mm; 1 mm of doubt is left'],
  ])('says %o', (allowance, expected) => {
    expect(sayAllowance(allowance)).toBe(expected);
  });

  // A doubt below 35 % of the whole is less than an eighth of it by squares: 0.35² = 0.1225.
  it.each([
    ['aside', 0.0036, /^Most .* beside the line/],
    ['height', 0.0036, /^Most .* height/],
    ['roll', 0.0036, /^Most .* turn/],
    ['lens', 0.0036, /^Most .* lens/],
    ['lens', 0.0034, /^None of the four/],
  ] as const)('advises when %s leaves %f m of 10 mm', (of, sd, expected) => {
    expect(adviceOf(allowancesOf({ ...NONE, [of]: { sd, shift: 0 } }), 0.01)).toMatch(expected);
  });

  // 1.62 m = 63.8 in, so 64 in = 5 ft 4 in (1 in = 25.4 mm exactly).
  it('tells a height in feet and inches or in metres', () => {
    expect([tallness(1.62, 'imperial'), tallness(1.62, 'metric')]).toEqual(['5 ft 4 in', '1.62 m']);
  });
});

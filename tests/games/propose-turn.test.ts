import { describe, expect, it } from 'vitest';
import type { Placements } from '../../server/games/events.ts';
import { probabilityMoved, proposeTurn } from '../../server/games/propose-turn.ts';
import { add, at, BEGUN, logOf, stateOf, turn } from './builder.ts';

const OPENING = [
  BEGUN,
  turn('blue', { at: { blue: at(6.4, 5) } }),
  turn('red', { at: { red: at(6, 4) } }),
  turn('black', { at: { black: at(8, 3) } }),
  turn('yellow', { at: { yellow: at(5, 2) } }),
] as const;
const STATE = stateOf(...OPENING);
const SEEN: Placements = { blue: at(6.4, 5), red: at(6, 4), black: at(8, 3), yellow: at(5, 2) };

describe('whether a ball moved', () => {
  // Two places known to 10 mm each: their difference has 14.1 mm. NIST/SEMATECH e-Handbook, table 1.3.6.7.4, two degrees of freedom:
  // 9.210 is exceeded with probability 0.01, so 99 % lie within 14.1 mm × √9.210 = 42.9 mm.
  it.each([
    [0, false],
    [0.02, false],
    [0.0425, false],
    [0.0433, true],
    [1, true],
  ])('by %d m', (distance, moved) => {
    expect(probabilityMoved(at(6, 4), at(6 + distance, 4)) >= 0.99).toBe(moved);
    expect(probabilityMoved(at(6, 4), at(6, 4 - distance)) >= 0.99).toBe(moved);
  });

  it('depends on the direction of the uncertainty', () => {
    const long = { ...at(6, 4), sdY: 0.1 };
    expect(probabilityMoved(long, { ...long, y: 4.2 })).toBeLessThan(0.9);
    expect(probabilityMoved(long, { ...long, x: 6.2 })).toBeGreaterThan(0.99);
    const tilted = { ...at(6, 4), sdX: 0.05, sdY: 0.05, correlation: 0.99 };
    expect(probabilityMoved(tilted, { ...tilted, x: 6.1, y: 4.1 })).toBeLessThan(0.9);
    expect(probabilityMoved(tilted, { ...tilted, x: 6.1, y: 3.9 })).toBeGreaterThan(0.99);
  });

  it('without uncertainty is certain either way', () => {
    const exact = { ...at(6, 4), sdX: 0, sdY: 0 };
    expect(probabilityMoved(exact, exact)).toBe(0);
    expect(probabilityMoved(exact, { ...exact, x: 6.001 })).toBe(1);
  });
});

describe('proposeTurn', () => {
  it.each([
    ['the ball due moved', { blue: at(4, 9) }, 'blue', true, ['blue'], []],
    ['it moved another', { blue: at(4, 9), red: at(9, 9) }, 'blue', true, ['blue', 'red'], [['blue', 'red']]],
    [
      'it moved two others',
      { blue: at(4, 9), red: at(9, 9), black: at(1, 1) },
      'blue',
      true,
      ['blue', 'red', 'black'],
      [],
    ],
    ['nothing moved', {}, 'blue', true, [], []],
    ['only a ball that was not due moved', { red: at(9, 9) }, 'red', false, ['red'], []],
    ['two that were not due moved', { red: at(9, 9), black: at(1, 1) }, null, false, ['red', 'black'], []],
    ['within the uncertainty', { red: at(6.02, 4) }, 'blue', true, [], []],
  ] as const)('%s', (_name, changed, ball, due, moved, touched) => {
    const proposal = proposeTurn(STATE, { ...SEEN, ...changed });
    expect([proposal.ball, proposal.due, proposal.moved, proposal.touched]).toEqual([
      ball,
      due,
      moved,
      touched,
    ]);
  });

  it('asks only what the pictures do not tell', () => {
    // Blue moved alone: whether it grazed an opponent's ball cannot be seen.
    expect(proposeTurn(STATE, { ...SEEN, blue: at(4, 3) }).questions).toEqual([
      { ask: 'touchedOpponent', ball: 'blue' },
    ]);
    // Blue moved red: both touched an opponent's ball.
    expect(proposeTurn(STATE, { ...SEEN, blue: at(4, 3), red: at(9, 3) }).questions).toEqual([]);
    expect(proposeTurn(STATE, { ...SEEN, red: at(9, 3), black: at(1, 1) }).questions[0]).toEqual({
      ask: 'whoPlayed',
      balls: ['red', 'black'],
    });
    const { yellow: _hidden, ...hidden } = SEEN;
    expect(proposeTurn(STATE, { ...hidden, blue: at(4, 3) }).questions).toContainEqual({
      ask: 'where',
      ball: 'yellow',
    });
  });

  // Hoop 1 stands at 7 yd north of the south boundary, 6.4008 m, and is run northward.
  it('asks whether a ball that came past the hoop scored', () => {
    const through = proposeTurn(STATE, { ...SEEN, blue: at(6.4, 8) });
    expect([through.mayHaveScored, through.questions[0]]).toEqual([
      ['blue'],
      { ask: 'scored', ball: 'blue', point: 1 },
    ]);
    expect(proposeTurn(STATE, { ...SEEN, blue: at(6.4, 6) }).mayHaveScored).toEqual([]);
  });

  it('counts a ball that comes onto the lawn as moved', () => {
    const proposal = proposeTurn(stateOf(BEGUN), { blue: at(20, 3) });
    expect([proposal.ball, proposal.moved, proposal.changes[0]!.change, proposal.changes[1]!.change]).toEqual(
      ['blue', ['blue'], 'appeared', 'absent'],
    );
  });

  it('makes a turn that the log takes', () => {
    const log = logOf(...OPENING);
    const { ball, positions, touched, moved } = proposeTurn(log.state, {
      ...SEEN,
      blue: at(4, 3),
      red: at(9, 3),
    });
    const after = add(log, {
      type: 'turn',
      player: ball!,
      ball: ball!,
      positions,
      touched,
      moved,
      scored: [],
    }).state;
    expect(after.balls.red).toMatchObject({ x: 9, arrivedBy: { strokeOf: 'blue', touched: ['blue'] } });
    expect(after.balls.black).toMatchObject({ arrivedBy: { strokeOf: 'black', touched: [] } });
  });
});

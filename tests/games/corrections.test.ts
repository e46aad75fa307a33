import { describe, expect, it } from 'vitest';
import type { GameEvent } from '../../server/games/events.ts';
import { replay } from '../../server/games/log.ts';
import { nextBalls } from '../../server/games/order.ts';
import { REFUSAL_CODES, type RefusalCode } from '../../server/games/refusal.ts';
import { scoreOf } from '../../server/games/state.ts';
import { add, at, BEGUN, logOf, refusalOf, turn, wrong } from './builder.ts';

/** Line after hoop 1: y = 17.5 yd = 16.002 m, hoop 2 to the north. */
const NORTH = 20;

describe('corrections', () => {
  const log = logOf(
    BEGUN,
    turn('blue', { at: { blue: at(20, 5) } }),
    turn('red', { scored: ['red'] }),
    turn('black'),
  );
  const fix = (entry: number, event: GameEvent & { type: 'turn' }) =>
    ({ type: 'correction', how: 'replace', entry, event }) as const;

  it('replay everything after them', () => {
    const state = add(log, fix(2, turn('blue', { at: { blue: at(20, 5) }, scored: ['blue'] }))).state;
    expect(state.points.map(({ point, ball }) => [point, ball])).toEqual([
      [1, 'blue'],
      [2, 'red'],
    ]);
  });

  it('take an entry out and put one in', () => {
    const without = add(log, { type: 'correction', how: 'remove', entry: 4 });
    expect(nextBalls(without.state)).toEqual(['black']);
    const again = add(without, {
      type: 'correction',
      how: 'insertAfter',
      entry: 3,
      event: turn('black', { scored: ['black'] }),
    });
    expect([nextBalls(again.state), scoreOf(again.state.points)]).toEqual([['yellow'], [1, 1]]);
    // The entry put in can be corrected in its turn.
    expect(scoreOf(add(again, fix(6, turn('black'))).state.points)).toEqual([0, 1]);
  });

  it('of the beginning change how the game is played', () => {
    const event = { ...BEGUN, edition: '2013' } as const;
    expect(add(log, { type: 'correction', how: 'replace', entry: 1, event }).state.setup.edition).toBe(
      '2013',
    );
  });

  it('are refused with the entry that no longer fits', () => {
    const found = refusalOf(log, { type: 'correction', how: 'remove', entry: 3 });
    expect(found).toMatchObject({ code: 'laterEntryFails', entry: 4 });
    expect(found.message).toContain('After blue, red plays');
    const direct = refusalOf(log, fix(3, turn('black')));
    expect(direct).toMatchObject({ code: 'wrongTurn', entry: 3, expected: ['red'] });
  });

  it('leave the log untouched when they are refused', () => {
    const before = JSON.stringify(log);
    refusalOf(log, { type: 'correction', how: 'remove', entry: 3 });
    add(log, { type: 'correction', how: 'remove', entry: 4 });
    expect(JSON.stringify(log)).toBe(before);
  });
});

/** An event that is refused after each log, by its code. */
const REFUSALS: Record<RefusalCode, readonly [readonly GameEvent[], GameEvent]> = {
  notBegun: [[], turn('blue')],
  alreadyBegun: [[BEGUN], BEGUN],
  ended: [[BEGUN, { type: 'ended', reason: 'time', winner: null }], turn('blue')],
  suspended: [[BEGUN, { type: 'suspended' }], turn('blue')],
  notSuspended: [[BEGUN], { type: 'resumed' }],
  won: [[BEGUN], turn('blue', { scored: Array(8).fill('blue') })],
  notWon: [[BEGUN, turn('blue')], { type: 'ended', reason: 'points', winner: 0 }],
  wrongTurn: [[BEGUN, turn('blue')], turn('yellow')],
  rightTurn: [[BEGUN, turn('blue')], wrong('red')],
  otherColours: [[BEGUN], turn('blue', { at: { green: at(1, 1) } })],
  noWrongBall: [[BEGUN, turn('blue')], { type: 'remedy', choice: 'annul' }],
  wrongRemedy: [[BEGUN, turn('blue'), wrong('black')], { type: 'remedy', choice: 'ballSwap' }],
  refereeNeeded: [
    [BEGUN, wrong('blue', { player: 'red' }), wrong('red', { player: 'blue' })],
    { type: 'remedy', choice: 'annul' },
  ],
  directionRefused: [[BEGUN, turn('blue')], { type: 'direction', ball: 'blue', choice: 'west' }],
  outsideArea: [
    [BEGUN, turn('blue', { at: { blue: at(5, NORTH) } }), turn('red', { scored: ['red'] })],
    { type: 'direction', ball: 'blue', choice: 'east', place: at(0, 16) },
  ],
  noStroke: [[BEGUN], { type: 'fault', by: 'blue', choice: 'leave' }],
  notOffsideNow: [
    [BEGUN, turn('blue')],
    { type: 'overrule', subject: 'offside', ball: 'blue', verdict: 'onside', reason: 'seen' },
  ],
  noSuchEntry: [[BEGUN], { type: 'correction', how: 'remove', entry: 9 }],
  notCorrectable: [[BEGUN, turn('blue')], { type: 'correction', how: 'remove', entry: 1 }],
  laterEntryFails: [[BEGUN, turn('blue'), turn('red')], { type: 'correction', how: 'remove', entry: 2 }],
  numberGap: [[BEGUN], turn('blue')],
};

describe('refusals', () => {
  it.each(REFUSAL_CODES.filter((code) => code !== 'numberGap'))('%s', (code) => {
    const [before, event] = REFUSALS[code];
    const found = refusalOf(before.length > 0 ? logOf(...before) : null, event);
    expect(found.code).toBe(code);
    expect(found.message).toMatch(/^[A-Z].*[.]$/);
  });

  it('name what the log expected', () => {
    const found = refusalOf(logOf(BEGUN, turn('blue')), turn('yellow'));
    expect(found.message).toContain('After blue, red plays');
    expect(found.expected).toEqual(['red']);
    expect(refusalOf(logOf(BEGUN), turn('red')).message).toContain('At the start blue plays');
  });

  it('of a log that is not whole name the gap', () => {
    const entries = logOf(BEGUN, turn('blue'), turn('red')).entries;
    const found = replay([entries[0]!, entries[2]!]);
    expect(found).toMatchObject({ ok: false, error: { code: 'numberGap', entry: 3 } });
    expect(replay([])).toMatchObject({ ok: false, error: { code: 'notBegun' } });
    expect(replay(entries)).toMatchObject({ ok: true });
  });
});

import { describe, expect, it } from 'vitest';
import type { Begun } from '../../server/games/events.ts';
import { nextBalls } from '../../server/games/order.ts';
import { scoreOf } from '../../server/games/state.ts';
import { add, at, BEGUN, logOf, refusalOf, stateOf, turn, wrong } from './builder.ts';

const OPENING = [turn('blue'), turn('red'), turn('black'), turn('yellow')];
const old: Begun = { ...BEGUN, edition: '2013' };
const doubles: Begun = { ...BEGUN, format: 'doubles' };

describe('wrong balls in a game', () => {
  const start = [BEGUN, turn('blue', { at: { blue: at(20, 5) } })] as const;
  const played = wrong('yellow', {
    at: { yellow: at(8, 8), blue: at(21, 4) },
    touched: [['yellow', 'blue']],
    scored: ['yellow'],
  });

  it('are undone by replace and replay: places, points and order', () => {
    const state = stateOf(...start, played, { type: 'remedy', choice: 'replaceAndReplay' });
    expect(state.balls).toEqual(stateOf(...start).balls);
    expect([scoreOf(state.points), nextBalls(state), state.turns]).toEqual([[0, 0], ['red'], 1]);
  });

  it('by a ball swap count as if the right ball had been played', () => {
    const log = logOf(
      ...start,
      turn('red', { at: { red: at(1, 1) } }),
      turn('black'),
      turn('yellow', { at: { yellow: at(3, 3) } }),
    );
    const swapped = add(log, wrong('black', { at: { black: at(9, 9) }, scored: ['black'] }), {
      type: 'remedy',
      choice: 'ballSwap',
    }).state;
    expect(swapped.balls.blue).toMatchObject({ x: 9, arrivedBy: { strokeOf: 'blue', touched: [] } });
    expect(swapped.balls.black).toMatchObject({ x: 20 });
    expect(swapped.points).toMatchObject([{ point: 1, ball: 'blue' }]);
    expect([nextBalls(swapped), swapped.wrongBall]).toEqual([['red'], null]);
  });

  it('stand when a further stroke is played', () => {
    const state = stateOf(...start, played, turn('blue'));
    expect([scoreOf(state.points), nextBalls(state), state.order.strokes]).toEqual([[0, 1], ['red'], []]);
  });

  it('out of turn are annulled', () => {
    const state = stateOf(...start, wrong('black', { player: 'blue', at: { black: at(4, 4) } }), {
      type: 'remedy',
      choice: 'annul',
    });
    expect([nextBalls(state), state.balls.black]).toEqual([['red'], undefined]);
  });

  it('under the 4th edition are left or put back, and either ball may follow', () => {
    const four = [
      old,
      ...OPENING,
      wrong('red', { player: 'blue', at: { red: at(5, 5) }, scored: ['red'] }),
    ] as const;
    const left = stateOf(...four, { type: 'remedy', choice: 'leave' });
    expect(left.balls.red).toMatchObject({ x: 5, arrivedBy: { faultOf: 'blue' } });
    expect([scoreOf(left.points), nextBalls(left)]).toEqual([
      [0, 0],
      ['red', 'yellow'],
    ]);
    const back = stateOf(...four, { type: 'remedy', choice: 'putBack' });
    expect(back.balls.red).toBeUndefined();
    // Either ball is right, and the order goes on from it.
    for (const [ball, next] of [
      ['red', 'black'],
      ['yellow', 'blue'],
    ] as const)
      expect(nextBalls(add(logOf(...four, { type: 'remedy', choice: 'leave' }), turn(ball)).state)).toEqual([
        next,
      ]);
  });

  it('in the opening of the 4th edition bring back also what followed', () => {
    const state = stateOf(
      old,
      wrong('black', { player: 'blue', at: { black: at(2, 2) } }),
      wrong('yellow', { at: { yellow: at(3, 3) } }),
      {
        type: 'remedy',
        choice: 'replaceAndReplay',
      },
    );
    expect([state.balls, nextBalls(state), state.turns]).toEqual([{}, ['blue'], 0]);
  });

  it('in doubles are also a right ball struck by the partner', () => {
    const log = logOf(doubles, turn('blue'), wrong('red', { player: 'yellow' }));
    expect(log.state.wrongBall!.code).toBe('partnerStruck');
    expect(refusalOf(log, { type: 'remedy', choice: 'ballSwap' }).message).toContain('replaceAndReplay');
  });

  it('whose text is not to hand wait for a referee', () => {
    const log = logOf(
      BEGUN,
      wrong('blue', { player: 'red' }),
      wrong('red', { player: 'blue', at: { red: at(5, 5) } }),
    );
    expect([log.state.wrongBall!.outcome, nextBalls(log.state)]).toEqual(['referee', []]);
    expect(refusalOf(log, { type: 'remedy', choice: 'annul' }).code).toBe('refereeNeeded');
    const decided = {
      type: 'overrule',
      subject: 'wrongBall',
      reason: 'the sides agreed',
      next: ['black'],
    } as const;
    expect(nextBalls(add(log, { ...decided, putBack: false, pointsCount: true }).state)).toEqual(['black']);
    expect(add(log, { ...decided, putBack: true, pointsCount: false }).state.balls.red).toBeUndefined();
    expect(add(log, { ...decided, putBack: false, pointsCount: false }).state.balls.red).toMatchObject({
      arrivedBy: { faultOf: 'blue' },
    });
  });
});

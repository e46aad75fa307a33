import { describe, expect, it } from 'vitest';
import { nextBalls } from '../../server/games/order.ts';
import { clipsOf, scoreOf, statusOf } from '../../server/games/state.ts';
import { titleOf, viewGame } from '../../server/games/view-game.ts';
import { add, at, BEGUN, logOf, refusalOf, stateOf, turn } from './builder.ts';

const OPENING = [turn('blue'), turn('red'), turn('black'), turn('yellow')];

describe('turns', () => {
  it('follow the order of the balls', () => {
    const { order, turns } = stateOf(BEGUN, ...OPENING, turn('blue'));
    expect([order.lastRight, turns]).toEqual(['blue', 5]);
    expect(nextBalls(stateOf(BEGUN, ...OPENING))).toEqual(['blue']);
  });

  it('move the balls that were struck or touched, and measure the others', () => {
    const { balls, history } = stateOf(
      BEGUN,
      turn('blue', { at: { blue: at(20, 5) } }),
      turn('red', { at: { red: at(19, 6), blue: at(18, 7) }, touched: [['red', 'blue']] }),
      turn('black', { at: { black: at(10, 9), red: at(19.01, 6) } }),
    );
    expect(balls.blue).toMatchObject({ x: 18, since: 3, arrivedBy: { strokeOf: 'red', touched: ['red'] } });
    expect(balls.red).toMatchObject({
      x: 19.01,
      since: 3,
      arrivedBy: { strokeOf: 'red', touched: ['blue'] },
    });
    expect(balls.black).toMatchObject({ x: 10, since: 4, arrivedBy: { strokeOf: 'black', touched: [] } });
    expect(history.map(({ entry }) => entry)).toEqual([2, 3, 4]);
  });

  it('a ball that moved out of sight has no known place', () => {
    expect(
      stateOf(BEGUN, turn('blue', { at: { blue: at(20, 5) } }), turn('red', { touched: [['red', 'blue']] }))
        .balls,
    ).toEqual({});
  });

  it('leave open what was touched when nobody knows', () => {
    const { balls } = stateOf(BEGUN, turn('blue', { at: { blue: at(20, 5) }, touched: null }));
    expect(balls.blue!.arrivedBy).toEqual({ strokeOf: 'blue' });
  });

  it('score for the side of the ball that scored, also two hoops in a stroke', () => {
    const state = stateOf(
      BEGUN,
      turn('blue', { scored: ['black'] }),
      turn('red', { scored: ['red', 'red'] }),
    );
    expect(scoreOf(state.points)).toEqual([1, 2]);
    expect(clipsOf(state)).toEqual([
      { point: 1, side: 0 },
      { point: 2, side: 1 },
      { point: 3, side: 1 },
    ]);
  });
});

describe('faults', () => {
  const start = [
    BEGUN,
    turn('blue', { at: { blue: at(20, 5) } }),
    turn('red', { at: { red: at(6, 30), blue: at(6, 20) }, touched: [['red', 'blue']], scored: ['red'] }),
  ] as const;

  it('put back undo the stroke but end the turn', () => {
    const state = stateOf(...start, { type: 'fault', by: 'red', choice: 'putBack' });
    expect([state.balls.blue!.x, scoreOf(state.points), nextBalls(state), state.directions]).toEqual([
      20,
      [0, 0],
      ['black'],
      [],
    ]);
  });

  it('left keep the places, excuse the opponents and take the point away', () => {
    const state = stateOf(...start, { type: 'fault', by: 'red', choice: 'leave' });
    expect(state.balls.blue).toMatchObject({ x: 6, arrivedBy: { faultOf: 'red', strokeOf: 'red' } });
    expect([scoreOf(state.points), state.offside]).toEqual([[0, 0], []]);
  });

  it('left keep a point of the opponents’ ball', () => {
    const scored = turn('red', { at: { red: at(6, 30) }, touched: [['red', 'blue']], scored: ['blue'] });
    const state = stateOf(BEGUN, turn('blue'), scored, { type: 'fault', by: 'yellow', choice: 'leave' });
    expect(scoreOf(state.points)).toEqual([1, 0]);
    expect(state.offside.map(({ verdict }) => verdict)).toEqual(['excused']);
  });
});

describe('a day interrupted', () => {
  it('suspends, sets out again and goes on', () => {
    const log = logOf(BEGUN, turn('blue', { at: { blue: at(20, 5) } }), {
      type: 'suspended',
      reason: 'light',
    });
    expect([statusOf(log.state), viewGame(log.state).status]).toEqual(['suspended', 'suspended']);
    expect(refusalOf(log, turn('red')).code).toBe('suspended');
    const resumed = add(log, { type: 'resumed', positions: { blue: at(20.01, 5) } }, turn('red')).state;
    // Setting out again measures the ball; how it arrived stays.
    expect(resumed.balls.blue).toMatchObject({
      x: 20.01,
      since: 2,
      arrivedBy: { strokeOf: 'blue', touched: [] },
    });
  });

  it('puts balls back without changing how they arrived', () => {
    const { balls } = stateOf(BEGUN, turn('blue', { at: { blue: at(20, 5) } }), {
      type: 'ballsPutBack',
      positions: { blue: at(20, 5.5) },
      reason: 'a dog',
    });
    expect(balls.blue).toMatchObject({ y: 5.5, since: 2 });
  });
});

describe('the end', () => {
  const won = [BEGUN, turn('blue', { scored: Array(7).fill('blue') })] as const;

  it('comes with more than half of the points', () => {
    const log = logOf(...won);
    expect([statusOf(log.state), viewGame(log.state).winner]).toEqual(['won', 0]);
    expect(refusalOf(log, turn('red')).message).toContain('blue and black have won');
    expect(statusOf(add(log, { type: 'ended', reason: 'points', winner: 0 }).state)).toBe('ended');
  });

  it('can come earlier', () => {
    const { ended } = stateOf(BEGUN, turn('blue'), { type: 'ended', reason: 'time', winner: null });
    expect(ended).toEqual({ type: 'ended', reason: 'time', winner: null });
    expect(
      stateOf(BEGUN, { type: 'suspended' }, { type: 'ended', reason: 'conceded', winner: 1 }).suspended,
    ).toBe(false);
  });
});

describe('viewGame', () => {
  it('tells what follows from the log', () => {
    const view = viewGame(stateOf(BEGUN, turn('blue', { scored: ['blue'] })));
    expect(view.sides.map(({ name, points }) => [name, points])).toEqual([
      ['Ida Holm', 1],
      ['Tomas Reyl', 0],
    ]);
    expect(view.hoop).toMatchObject({ point: 2, hoop: 2, direction: 1 });
    expect(view.hoopAfter).toMatchObject({ point: 3, hoop: 3 });
    expect(view.nextLine).toMatchObject({ axis: 'x', nextHoopSide: 1 });
    expect(view.next).toEqual({ balls: ['red'], words: 'After blue, red plays' });
  });

  it('titles a game by its players or its balls', () => {
    expect(titleOf(stateOf(BEGUN))).toBe('Ida Holm v Tomas Reyl');
    expect(titleOf(stateOf({ ...BEGUN, names: {}, colours: 'second' }))).toBe(
      'green and brown v pink and white',
    );
    expect(titleOf(stateOf({ ...BEGUN, title: 'Fernbeck Cup' }))).toBe('Fernbeck Cup');
  });
});

import { describe, expect, it } from 'vitest';
import type { Begun } from '../../server/games/events.ts';
import { nextBalls } from '../../server/games/order.ts';
import { add, at, BEGUN, logOf, refusalOf, stateOf, turn } from './builder.ts';

const old: Begun = { ...BEGUN, edition: '2013' };
/** Line after hoop 1: y = 17.5 yd = 16.002 m, hoop 2 to the north. */
const NORTH = 20;
const SOUTH = 10;

describe('offside in a game', () => {
  const scoring = [
    BEGUN,
    turn('blue', { at: { blue: at(20, SOUTH) } }),
    turn('red', { at: { red: at(5, NORTH) } }),
    turn('black', { at: { black: at(7, NORTH), blue: at(8, NORTH) }, touched: [['black', 'blue']] }),
    turn('yellow', { at: { yellow: at(9, SOUTH), red: at(5, NORTH) } }),
    turn('blue', { at: { blue: at(6.4, NORTH) }, scored: ['blue'] }),
  ] as const;

  // Published: "Essential rules simplified" no. 1 (hpcc.ie). Red came by its own stroke, black by its own side's, blue by this stroke.
  it('is found on both sides when a point is scored', () => {
    const { offside, directions } = stateOf(...scoring);
    expect(offside.map(({ colour, verdict }) => `${colour} ${verdict}`)).toEqual([
      'blue excused',
      'red offside',
      'black offside',
      'yellow onside',
    ]);
    expect(directions).toEqual([
      { ball: 'red', chooser: 0, state: 'pending' },
      { ball: 'black', chooser: 1, state: 'pending' },
    ]);
  });

  it('a directed ball is moved at once and excused afterwards', () => {
    const state = stateOf(...scoring, { type: 'direction', ball: 'red', choice: 'west', by: 'black' });
    expect(state.balls.red).toMatchObject({ x: 0, y: 16.002, arrivedBy: { directedTo: 'west' } });
    expect(nextBalls(state)).toEqual(['red']);
  });

  it('a direction lapses with the next stroke', () => {
    const log = logOf(...scoring, turn('red', { at: { red: at(6, 30) } }));
    expect(log.state.directions.map(({ state }) => state)).toEqual(['lapsed', 'lapsed']);
    expect(refusalOf(log, { type: 'direction', ball: 'black', choice: 'east' }).code).toBe(
      'directionRefused',
    );
  });

  // "Golf croquet rules updated" (tunbridgewellscroquet.org.uk): before the 5th edition an onside ball played first saves nothing.
  it('in the 4th edition the right survives the side’s own stroke with another ball', () => {
    const earlier = [
      old,
      turn('blue', { at: { blue: at(20, SOUTH) } }),
      turn('red', { at: { red: at(5, SOUTH) } }),
      turn('black', { at: { black: at(7, SOUTH) } }),
      turn('yellow', { at: { yellow: at(9, NORTH) } }),
      turn('blue', { at: { blue: at(6.4, NORTH) }, scored: ['blue'] }),
      turn('red', { at: { red: at(5, SOUTH) } }),
    ] as const;
    const state = stateOf(...earlier, { type: 'direction', ball: 'yellow', choice: 'east' });
    expect(state.balls.yellow).toMatchObject({ arrivedBy: { directedTo: 'east' } });
  });

  it('only the opponents direct, and within the area', () => {
    const log = logOf(...scoring);
    expect(
      refusalOf(log, { type: 'direction', ball: 'red', choice: 'west', by: 'yellow' }).message,
    ).toContain('Only blue and black may direct red');
    expect(
      refusalOf(log, { type: 'direction', ball: 'red', choice: 'west', place: at(2, 16, 'placed') }).code,
    ).toBe('outsideArea');
    expect(
      add(log, { type: 'direction', ball: 'red', choice: 'west', place: at(0.6, 16.5, 'placed') }).state.balls
        .red!.x,
    ).toBe(0.6);
    expect(refusalOf(log, { type: 'direction', ball: 'yellow', choice: 'west' }).message).toContain(
      'not offside',
    );
  });

  it('can be overruled either way, and the reason is kept', () => {
    const state = stateOf(
      ...scoring,
      {
        type: 'overrule',
        subject: 'offside',
        ball: 'red',
        verdict: 'onside',
        reason: 'the peg mark had moved',
      },
      {
        type: 'overrule',
        subject: 'offside',
        ball: 'yellow',
        verdict: 'offside',
        reason: 'tested with a string',
      },
    );
    expect(state.directions.map(({ ball }) => ball)).toEqual(['black', 'yellow']);
    expect(state.overrules.map(({ entry, overrule }) => [entry, overrule.reason])).toEqual([
      [7, 'the peg mark had moved'],
      [8, 'tested with a string'],
    ]);
    expect(state.offside.find(({ colour }) => colour === 'red')!.reason).toContain('the peg mark had moved');
  });

  it('is over with the game', () => {
    const hoops = Array.from({ length: 6 }, () => 'blue' as const);
    expect(
      stateOf(BEGUN, turn('blue', { scored: [...hoops, 'blue'], at: { blue: at(6, NORTH) } })).offside,
    ).toEqual([]);
  });
});

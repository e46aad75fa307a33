import { describe, expect, it } from 'vitest';
import {
  openWrongBall,
  WRONG_BALL_QUESTIONS,
  type WrongBallAnswers,
  wrongBallFromLog,
  wrongBallStep,
} from '../../server/games/wrong-ball-help.ts';
import { at, BEGUN, stateOf, turn, wrong } from './builder.ts';

const START = [
  BEGUN,
  turn('blue', { at: { blue: at(20, 5) } }),
  turn('red', { at: { red: at(9, 9) } }),
] as const;

describe('help from the log', () => {
  it('sees at once that the ball was not the one due, and where the balls go back', () => {
    const help = wrongBallFromLog(stateOf(...START), { player: 'blue', ball: 'blue' });
    expect([help.ruling.outcome, help.remedies]).toEqual([
      'opponentsChoose',
      ['replaceAndReplay', 'ballSwap'],
    ]);
    expect(help.putBack.map(({ ball, place }) => [ball, place.x])).toEqual([
      ['blue', 20],
      ['red', 9],
    ]);
  });

  it('says of a right ball that it stands', () => {
    const help = wrongBallFromLog(stateOf(...START), { player: 'black', ball: 'black' });
    expect([help.ruling.outcome, help.remedies, help.putBack]).toEqual(['stands', [], []]);
  });

  it('gives the places before the stroke once it is logged', () => {
    const state = stateOf(...START, wrong('blue', { at: { blue: at(1, 1) } }));
    expect(openWrongBall(state)!.putBack[0]!.place.x).toBe(20);
    expect(openWrongBall(stateOf(...START))).toBeNull();
  });

  it('in the opening of the 4th edition goes back before the first wrong stroke', () => {
    const state = stateOf(
      { ...BEGUN, edition: '2013' },
      turn('blue', { at: { blue: at(20, 5) } }),
      wrong('yellow', { at: { yellow: at(3, 3), blue: at(2, 2) }, touched: [['yellow', 'blue']] }),
      wrong('blue', { at: { blue: at(5, 5) } }),
    );
    const { ruling, putBack } = openWrongBall(state)!;
    expect([ruling.undone, putBack.map(({ ball, place }) => [ball, place.x])]).toEqual([2, [['blue', 20]]]);
  });
});

describe('help without a log', () => {
  it('asks one thing at a time and then answers', () => {
    const given: Required<WrongBallAnswers> = {
      edition: '2022',
      format: 'doubles',
      colours: 'second',
      lastRight: 'green',
      opening: false,
      strokes: [{ player: 'pink', ball: 'brown' }],
      noMore: true,
    };
    const asked: string[] = [];
    let answers: WrongBallAnswers = {};
    for (let step = wrongBallStep(answers); step.ask !== null; step = wrongBallStep(answers)) {
      expect(step.words).toMatch(/\?$/);
      expect(step.answers.length).toBeGreaterThan(1);
      asked.push(step.ask);
      answers = {
        ...answers,
        [step.ask]: given[step.ask],
        ...(step.ask === 'strokes' ? { noMore: true } : {}),
      };
    }
    expect(asked).toEqual(WRONG_BALL_QUESTIONS);
    expect(wrongBallStep(answers)).toMatchObject({
      ask: null,
      ruling: { outcome: 'replaceAndReplay', next: ['pink'] },
    });
  });

  it('offers the balls of the set that was named', () => {
    const step = wrongBallStep({ edition: '2013', format: 'singles', colours: 'first' });
    expect(step).toMatchObject({ ask: 'lastRight', answers: ['blue', 'red', 'black', 'yellow', null] });
  });
});

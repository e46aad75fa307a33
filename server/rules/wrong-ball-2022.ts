import type { BallColour } from '../lawn/colours.ts';
import { ballAfter, ballDue, partnerOf, sideOf } from './ball-order.ts';
import { clauseName } from './editions.ts';
import { sentence } from './ruling.ts';
import {
  playsOwnBall,
  playsOwnSide,
  type Stroke,
  type WrongBallCase,
  type WrongBallChoice,
  type WrongBallRuling,
} from './wrong-ball-types.ts';

/** Every ground of a ruling under the 6th edition. */
export const WRONG_BALL_2022_CODES = [
  'right',
  'earlierErrorStands',
  'notEntitled',
  'exchangedColours',
  'partnerBall',
  'opponentsBall',
  'partnerStruck',
  'orderUnclear',
] as const;
export type WrongBall2022Code = (typeof WRONG_BALL_2022_CODES)[number];
type Answer = WrongBallRuling<WrongBall2022Code>;

const EDITION = '2022';
const answer = (clause: string, rest: Omit<Answer, 'edition' | 'rule'>): Answer => ({
  ...rest,
  reason: sentence(rest.reason),
  edition: EDITION,
  rule: clauseName(clause, EDITION),
});

const stands = (erred: boolean, next: BallColour): Answer =>
  answer(erred ? '10.2' : '10', {
    code: erred ? 'earlierErrorStands' : 'right',
    wrong: erred,
    outcome: 'stands',
    choices: [],
    putBack: false,
    pointsCount: true,
    next: [next],
    undone: 0,
    reason: erred
      ? `A further stroke has been played since the wrong ball, so the error stands; ${next} plays next.`
      : `Every ball was played in its turn by its own side; ${next} plays next.`,
  });

const undo = (
  code: 'notEntitled' | 'opponentsBall' | 'partnerStruck',
  clause: string,
  due: BallColour,
  reason: string,
): Answer =>
  answer(clause, {
    code,
    wrong: true,
    outcome: code === 'notEntitled' ? 'annulled' : 'replaceAndReplay',
    choices: [],
    putBack: true,
    pointsCount: false,
    next: [due],
    undone: 1,
    reason,
  });

const referee = (code: 'exchangedColours' | 'orderUnclear', clause: string, reason: string): Answer =>
  answer(clause, {
    code,
    wrong: true,
    outcome: 'referee',
    choices: [],
    putBack: false,
    pointsCount: false,
    next: [],
    undone: 0,
    reason,
  });

/** The partner ball was played: the opponents choose. After a ball swap the game goes on as if the right ball had been played. */
const partnerBall = (played: BallColour, due: BallColour): Answer => {
  const replay: WrongBallChoice = {
    option: 'replaceAndReplay',
    putBack: true,
    pointsCount: false,
    next: [due],
  };
  const swap: WrongBallChoice = {
    option: 'ballSwap',
    putBack: false,
    pointsCount: true,
    next: [ballAfter(due)],
  };
  return answer('10.5', {
    code: 'partnerBall',
    wrong: true,
    outcome: 'opponentsChoose',
    choices: [replay, swap],
    putBack: true,
    pointsCount: false,
    next: [due, ballAfter(due)],
    undone: 1,
    reason: `${played} was played instead of its partner ball ${due}: the opponents choose whether the balls are put back and ${due} is played, or ${played} and ${due} change places and ${ballAfter(due)} plays.`,
  });
};

/** The last stroke against the ball due, when the order of play before it is certain. Classes 10.3 and 10.5, in that order. */
const againstDue = (stroke: Stroke, due: BallColour, given: WrongBallCase, erred: boolean): Answer => {
  if (sideOf(stroke.player) !== sideOf(due))
    return undo(
      'notEntitled',
      '10.3',
      due,
      `The side of ${stroke.player} was not entitled to play, so its stroke is annulled without penalty and ${due} plays.`,
    );
  if (stroke.ball === partnerOf(due)) return partnerBall(stroke.ball, due);
  if (stroke.ball !== due)
    return undo(
      'opponentsBall',
      '10.5',
      due,
      `${stroke.ball}, an opponent's ball, was played instead of ${due}: the balls are put back and ${due} is played.`,
    );
  if (!playsOwnBall(stroke, given.format))
    return undo(
      'partnerStruck',
      '10.5',
      due,
      `${due} was struck by its owner's partner: the balls are put back and the owner plays ${due}.`,
    );
  return stands(erred, ballAfter(due));
};

/**
 * The last stroke after one that its side played with an opponents' ball and that stands. Whether the order then follows the colour last
 * played or the sides in turn is not told by the text to hand, so only a stroke that is right by the sides' turns is let stand: the other
 * side plays the ball it would have played had there been no error. Each side playing the other's balls in sequence is the case of
 * exchanged colours (10.4); its text is not to hand either.
 */
const afterForeignBall = (
  stroke: Stroke,
  previous: Stroke,
  dueBefore: BallColour,
  given: WrongBallCase,
): Answer => {
  const sidesAlternate = sideOf(stroke.player) !== sideOf(previous.player);
  if (sidesAlternate && !playsOwnSide(stroke) && stroke.ball === ballAfter(previous.ball))
    return referee(
      'exchangedColours',
      '10.4',
      "Both sides are playing each other's balls: exchanged colours are rule 10.4, whose text is not to hand; ask a referee.",
    );
  const dueBySides = sideOf(dueBefore) === sideOf(stroke.player) ? dueBefore : ballAfter(dueBefore);
  if (sidesAlternate && stroke.ball === dueBySides && playsOwnBall(stroke, given.format))
    return stands(true, ballAfter(stroke.ball));
  return referee(
    'orderUnclear',
    '10.6–10.7',
    `${previous.ball} was played by a side that does not own it, and the text that says which ball is due after such an error stands is not to hand; ask a referee.`,
  );
};

/** Order of play after the strokes that were followed by another, and so stand. */
type Before = {
  readonly last: BallColour | null;
  readonly dueBefore: BallColour;
  readonly foreign: Stroke | null;
  readonly erred: boolean;
};

const passOver =
  (given: WrongBallCase) =>
  (before: Before, stroke: Stroke): Before => {
    const due = ballDue(given.set, before.last);
    return {
      last: stroke.ball,
      dueBefore: due,
      foreign: playsOwnSide(stroke) ? null : stroke,
      erred: before.erred || stroke.ball !== due || !playsOwnBall(stroke, given.format),
    };
  };

/**
 * Wrong balls under the 6th edition (2022). A stroke that was followed by another stands, and the order goes on from the ball it played;
 * only the last stroke is judged, by three classes in order: 10.3 a side not entitled to play, 10.4 exchanged colours, 10.5 another ball
 * than the striker's. Sources: "Resolving wrong ball plays" (croquet.org.uk) for 10.2–10.5; players' discussion (r/croquet, May 2022) for
 * the annulled stroke, the ball swap and the order after an error that stands. Where the text is not to hand: a referee.
 */
export const judgeWrongBall2022 = (given: WrongBallCase): Answer => {
  const start: Before = {
    last: given.lastRight,
    dueBefore: ballDue(given.set, given.lastRight),
    foreign: null,
    erred: false,
  };
  const stroke = given.strokes.at(-1);
  if (stroke === undefined) return stands(false, start.dueBefore);
  const before = given.strokes.slice(0, -1).reduce(passOver(given), start);
  return before.foreign === null
    ? againstDue(stroke, ballDue(given.set, before.last), given, before.erred)
    : afterForeignBall(stroke, before.foreign, before.dueBefore, given);
};

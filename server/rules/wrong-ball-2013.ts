import type { BallColour } from '../lawn/colours.ts';
import { BALL_ORDER, ballDue, ballsOf, orderOf, otherSide, type PlayingSide, sideOf } from './ball-order.ts';
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

/** Every ground of a ruling under the 4th edition. */
export const WRONG_BALL_2013_CODES = [
  'right',
  'opponentsPlayedOn',
  'partnerBall',
  'outOfTurn',
  'partnersSwapped',
  'opponentsBall',
  'sidePlayedOn',
  'opening',
  'openingExchanged',
] as const;
export type WrongBall2013Code = (typeof WRONG_BALL_2013_CODES)[number];
type Answer = WrongBallRuling<WrongBall2013Code>;

const EDITION = '2013';
const answer = (clause: string, rest: Omit<Answer, 'edition' | 'rule'>): Answer => ({
  ...rest,
  reason: sentence(rest.reason),
  edition: EDITION,
  rule: clauseName(clause, EDITION),
});

/** Turns of the opening: each ball is played once. */
const OPENING_TURNS = 4;

const stands = (
  code: 'right' | 'opponentsPlayedOn' | 'openingExchanged',
  next: BallColour,
  reason: string,
): Answer =>
  answer(code === 'openingExchanged' ? '5 (official ruling 5.1)' : '11', {
    code,
    wrong: code !== 'right',
    outcome: 'stands',
    choices: [],
    putBack: false,
    pointsCount: true,
    next: [next],
    undone: 0,
    reason,
  });

type ReplayCode = 'partnerBall' | 'outOfTurn' | 'partnersSwapped' | 'opening';
const replay = (code: ReplayCode, due: BallColour, undone: number, reason: string): Answer =>
  answer(code === 'opening' ? '5(f)' : '11', {
    code,
    wrong: true,
    outcome: 'replaceAndReplay',
    choices: [],
    putBack: true,
    pointsCount: false,
    next: [due],
    undone,
    reason,
  });

/** The penalty: no point counts, the opponents leave all balls or have them put back, and play either of their balls. */
const penalty = (
  code: 'opponentsBall' | 'sidePlayedOn',
  given: WrongBallCase,
  offender: PlayingSide,
  undone: number,
  reason: string,
): Answer => {
  const next = ballsOf(given.set, otherSide(offender));
  const choice = (option: 'leave' | 'putBack'): WrongBallChoice => ({
    option,
    putBack: option === 'putBack',
    pointsCount: false,
    next,
  });
  return answer('11', {
    code,
    wrong: true,
    outcome: 'opponentsChoose',
    choices: [choice('leave'), choice('putBack')],
    putBack: true,
    pointsCount: false,
    next,
    undone,
    reason: `${reason} No point counts; the opponents leave all balls or have them put back, and play ${next.join(' or ')}.`,
  });
};

/** An error that the opponents have not yet passed over by playing on. */
type Pending = {
  readonly code: 'partnerBall' | 'outOfTurn' | 'partnersSwapped' | 'opponentsBall' | 'sidePlayedOn';
  readonly side: PlayingSide;
  readonly due: BallColour;
  /** Index of the stroke with which the error began. */
  readonly from: number;
};
type Progress = {
  readonly last: BallColour | null;
  readonly pending: Pending | null;
  readonly erred: boolean;
};

/** The class of one stroke taken by itself, or null when it is right. */
const classOf = (stroke: Stroke, due: BallColour, given: WrongBallCase): Pending['code'] | null => {
  if (!playsOwnSide(stroke)) return 'opponentsBall';
  if (sideOf(stroke.player) !== sideOf(due)) return 'outOfTurn';
  if (stroke.ball !== due) return 'partnerBall';
  return playsOwnBall(stroke, given.format) ? null : 'partnersSwapped';
};

/** A stroke by the opponents of a side in error: the error stands, and the order goes on from the ball they played. */
const playedOnByOpponents = (stroke: Stroke, index: number, given: WrongBallCase): Progress => {
  // Whichever of their own balls they played, it is the ball last played that counts; only the player can still be wrong.
  const code = classOf(stroke, stroke.ball, given);
  const pending = code && { code, side: sideOf(stroke.player), due: stroke.ball, from: index };
  return { last: stroke.ball, pending, erred: true };
};

const step =
  (given: WrongBallCase) =>
  (progress: Progress, stroke: Stroke, index: number): Progress => {
    const { pending } = progress;
    const side = sideOf(stroke.player);
    if (pending && pending.side !== side) return playedOnByOpponents(stroke, index, given);
    if (pending) return { ...progress, last: stroke.ball, pending: { ...pending, code: 'sidePlayedOn' } };
    const due = ballDue(given.set, progress.last);
    const code = classOf(stroke, due, given);
    return {
      last: stroke.ball,
      pending: code && { code, side, due, from: index },
      erred: progress.erred || code !== null,
    };
  };

const REPLAY_REASONS: Readonly<Record<'partnerBall' | 'outOfTurn' | 'partnersSwapped', string>> = {
  partnerBall: "The side's other ball was played out of order",
  outOfTurn: 'A side played one of its own balls out of turn',
  partnersSwapped: "The ball due was struck by its owner's partner",
};

const remedy = (pending: Pending, given: WrongBallCase): Answer => {
  const undone = given.strokes.length - pending.from;
  const { code, side, due } = pending;
  if (code === 'opponentsBall') return penalty(code, given, side, undone, "An opponent's ball was played.");
  if (code === 'sidePlayedOn')
    return penalty(code, given, side, undone, 'A side in error played on before the error was put right.');
  return replay(
    code,
    due,
    undone,
    `${REPLAY_REASONS[code]}, and the opponents have not played since: the balls are put back without penalty and ${due} plays.`,
  );
};

/** Rule 11, for anything noticed from the fifth turn on. */
const afterOpening = (given: WrongBallCase): Answer => {
  const start: Progress = { last: given.lastRight, pending: null, erred: false };
  const { last, pending, erred } = given.strokes.reduce(step(given), start);
  if (pending) return remedy(pending, given);
  const next = ballDue(given.set, last);
  return erred
    ? stands(
        'opponentsPlayedOn',
        next,
        `The opponents played on, so the error stands and the order goes on from ${last}: ${next} plays next.`,
      )
    : stands('right', next, `Every ball was played in its turn by its own side; ${next} plays next.`);
};

/** Whether all first four turns were played in order, each ball by the side that does not own it. */
const isExchangedOpening = (given: WrongBallCase): boolean =>
  given.strokes.length === OPENING_TURNS &&
  given.strokes.every((stroke, turn) => stroke.ball === BALL_ORDER[given.set][turn] && !playsOwnSide(stroke));

/** The first four turns: all strokes from the first wrong one on are brought back, also those that followed correctly. */
const inOpening = (given: WrongBallCase, turnsBefore: number): Answer => {
  if (turnsBefore === 0 && isExchangedOpening(given))
    return stands(
      'openingExchanged',
      ballDue(given.set, null),
      'All four balls were played in order by the other side: the turns stand, and each side keeps the balls it has played.',
    );
  const order = BALL_ORDER[given.set];
  const isWrong = (stroke: Stroke, index: number) =>
    stroke.ball !== order[turnsBefore + index] || !playsOwnBall(stroke, given.format);
  const first = given.strokes.findIndex(isWrong);
  if (first < 0) return afterOpening(given);
  const due = order[turnsBefore + first]!;
  const undone = given.strokes.length - first;
  return replay(
    'opening',
    due,
    undone,
    `A wrong ball among the first four turns is put right without penalty: ${undone === 1 ? 'the stroke is' : `the last ${undone} strokes are`} brought back and ${due} plays.`,
  );
};

/** Turns played rightly before the strokes in question, in the opening. */
const turnsBefore = (lastRight: BallColour | null): number =>
  lastRight === null ? 0 : orderOf(lastRight) + 1;

/**
 * Wrong balls under the 4th edition (2013). Put back and replay without penalty: a side's own ball out of order, or the ball due struck by
 * the owner's partner, noticed before the opponents play; any wrong order among the first four turns. Penalty: an opponent's ball, or a
 * side that plays on after its error. Stands: the opponents played on; the order goes on from the ball they played. Sources: common
 * practice as taught; "Simplified rules" (hameastcroquet) for own and opponents' balls; WCF official rulings on the 2013 rules, 5.1 and
 * 5.2 (worldcroquet.org) for the opening and its end with the fourth turn.
 */
export const judgeWrongBall2013 = (given: WrongBallCase): Answer => {
  const before = turnsBefore(given.lastRight);
  const opening = given.opening || given.lastRight === null;
  return opening && before + given.strokes.length <= OPENING_TURNS
    ? inOpening(given, before)
    : afterOpening(given);
};

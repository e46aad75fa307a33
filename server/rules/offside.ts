import type { BallColour } from '../lawn/colours.ts';
import type { HalfwayLine } from '../lawn/halfway-lines.ts';
import type { PenaltySide } from '../lawn/penalty-area.ts';
import { type BallCall, callBall, type PlacedBall } from './all-across.ts';
import { isOpponent, setOf } from './ball-order.ts';
import { type Edition, ruleOf } from './editions.ts';
import { type Ruling, sentence } from './ruling.ts';

/**
 * How a ball came to rest where it is. `strokeOf`: the ball struck in that stroke; `touched`: the balls that touched this ball in it;
 * `thisTurn`: it was the scoring stroke itself; `faultOf`: a ball of the side whose fault or wrong play put it there; `directedTo`: the
 * penalty area to which it was directed.
 */
export type Arrival = {
  readonly strokeOf?: BallColour | undefined;
  readonly touched?: readonly BallColour[] | undefined;
  readonly thisTurn?: boolean | undefined;
  readonly faultOf?: BallColour | undefined;
  readonly directedTo?: PenaltySide | undefined;
};

/** A ball at the end of a scoring turn. */
export type RestingBall = PlacedBall & { readonly arrivedBy?: Arrival | undefined };

/** What can be said of a ball at the end of a scoring turn. */
export const OFFSIDE_VERDICTS = ['onside', 'offside', 'excused', 'tooClose', 'historyNeeded'] as const;
/** Whether a ball is offside. */
export type OffsideVerdict = (typeof OFFSIDE_VERDICTS)[number];

/** Every ground on which a verdict can rest. */
export const OFFSIDE_CODES = [
  'short',
  'thisStroke',
  'strikersBall',
  'directed',
  'opponentsStroke',
  'opponentsFault',
  'opponentsContact',
  'ownStroke',
  'ownFault',
  'noHistory',
  'strikerUnknown',
  'contactUnknown',
  'tooClose',
  'tooCloseButExcused',
] as const;
export type OffsideCode = (typeof OFFSIDE_CODES)[number];

/** The ruling on one ball. */
export type OffsideRuling = Ruling<OffsideCode> &
  BallCall & { readonly colour: BallColour; readonly verdict: OffsideVerdict };

type Ground = { readonly verdict: OffsideVerdict; readonly code: OffsideCode; readonly reason: string };
const excused = (code: OffsideCode, reason: string): Ground => ({
  verdict: 'excused',
  code,
  reason: sentence(reason),
});
const unknown = (code: OffsideCode, reason: string): Ground => ({
  verdict: 'historyNeeded',
  code,
  reason: sentence(reason),
});
const offside = (code: OffsideCode, reason: string): Ground => ({
  verdict: 'offside',
  code,
  reason: sentence(reason),
});

/** Excuse 1. The striker's ball lies where the scoring stroke left it, whatever else is known. */
const byThisStroke = (
  ball: BallColour,
  striker: BallColour | undefined,
  by: Arrival | undefined,
): Ground | null => {
  if (ball === striker)
    return excused(
      'strikersBall',
      `${ball} was struck in the scoring stroke, which brought it where it lies.`,
    );
  if (by?.thisTurn) return excused('thisStroke', `The scoring stroke itself brought ${ball} where it lies.`);
  return null;
};

/** Excuses 4, 2 and 3 in the order in which they are quickest to see. */
const byEarlierPlay = (ball: BallColour, by: Arrival): Ground | null => {
  if (by.directedTo) return excused('directed', `${ball} was directed to the ${by.directedTo} penalty area.`);
  if (by.faultOf && isOpponent(ball, by.faultOf))
    return excused(
      'opponentsFault',
      `A fault or wrong play of the opponents (${by.faultOf}) put ${ball} there.`,
    );
  if (by.strokeOf && isOpponent(ball, by.strokeOf))
    return excused('opponentsStroke', `A stroke of the opponents (${by.strokeOf}) put ${ball} there.`);
  const opponent = by.touched?.find((other) => isOpponent(ball, other));
  if (opponent)
    return excused(
      'opponentsContact',
      `${ball} touched ${opponent}, an opponent's ball, in the stroke that put it there.`,
    );
  return null;
};

/** What follows when no excuse was found: offside, if enough is known to exclude the excuses. */
const withoutExcuse = (ball: BallColour, by: Arrival): Ground => {
  if (by.faultOf && by.strokeOf === undefined)
    return offside('ownFault', `A fault of its own side put ${ball} there, which excuses nothing.`);
  // A ball of another game is an interference, not a stroke of either side.
  if (by.strokeOf === undefined || setOf(by.strokeOf) !== setOf(ball))
    return unknown(
      'strikerUnknown',
      `It is not known whose stroke put ${ball} there: say which ball was struck.`,
    );
  if (by.touched === undefined)
    return unknown(
      'contactUnknown',
      `It is not known whether ${ball} touched an opponent's ball in that stroke.`,
    );
  return offside(
    'ownStroke',
    `${ball} is past the halfway line by a stroke of its own side (${by.strokeOf}) without touching an opponent's ball.`,
  );
};

/** Whether a ball that is past the line is offside, and on what ground. */
const groundBeyond = (ball: BallColour, striker: BallColour | undefined, by: Arrival | undefined): Ground => {
  const now = byThisStroke(ball, striker, by);
  if (now) return now;
  if (by === undefined)
    return unknown('noHistory', `${ball} is past the halfway line, and how it came there is not known.`);
  return byEarlierPlay(ball, by) ?? withoutExcuse(ball, by);
};

/**
 * A ball too close to call stays too close even when an excuse would cover it, because excused says that it is past the line; the code
 * and the reason then say that nothing hangs on it.
 */
const groundTooClose = (beyond: Ground): Ground =>
  beyond.verdict === 'excused'
    ? {
        verdict: 'tooClose',
        code: 'tooCloseButExcused',
        reason: `Too close to call, but not offside either way. ${beyond.reason}`,
      }
    : {
        verdict: 'tooClose',
        code: 'tooClose',
        reason: 'Whether all of the ball is past the halfway line is too close to call.',
      };

const groundOf = (
  call: BallCall,
  colour: BallColour,
  striker: BallColour | undefined,
  by: Arrival | undefined,
): Ground => {
  if (call.lies === 'short')
    return {
      verdict: 'onside',
      code: 'short',
      reason: sentence(`${colour} is not wholly past the halfway line.`),
    };
  const beyond = groundBeyond(colour, striker, by);
  return call.lies === 'beyond' ? beyond : groundTooClose(beyond);
};

/**
 * Whether `ball` of colour `colour` is offside at the end of the turn in which `striker` was played and a point scored (left out when it is not known). Offside: all of
 * it past the line, unless it came there by (1) the stroke just played, (2) a stroke, wrong play or fault of the opponents, also when its
 * own side chose to leave the balls where a fault put them, (3) its own contact with an opponent's ball in that stroke, or (4) a direction
 * to a penalty area. Sources: "Essential rules simplified" no. 1 (hpcc.ie); "Simplified rules" (hameastcroquet) for 3; common practice for
 * 1, 2 and 4; that only the ball's own contact counts is from memory. Balls of both sides can be offside.
 */
export const judgeOffside = (
  ball: RestingBall,
  colour: BallColour,
  context: {
    readonly line: HalfwayLine;
    readonly striker?: BallColour | undefined;
    readonly edition: Edition;
    readonly certainty: number;
  },
): OffsideRuling => {
  const call = callBall(ball, context.line, context.certainty);
  const ground = groundOf(call, colour, context.striker, ball.arrivedBy);
  return { colour, ...call, ...ground, rule: ruleOf('offside', context.edition), edition: context.edition };
};

import type { BallColour } from '../lawn/colours.ts';
import type { PenaltySide } from '../lawn/penalty-area.ts';
import { otherSide, type PlayingSide, sideOf } from './ball-order.ts';
import { type Edition, ruleOf } from './editions.ts';
import { type Ruling, sentence } from './ruling.ts';

/** What the opponents may say of an offside ball: play it from the west or the east penalty area, or leave it. */
export const DIRECTION_CHOICES = ['west', 'east', 'leave'] as const;
export type DirectionChoice = (typeof DIRECTION_CHOICES)[number];

/** Where a direction stands: still to be given, given, left where it is, lapsed, or a matter for a referee. */
export const DIRECTION_STATES = ['pending', 'west', 'east', 'left', 'lapsed', 'referee'] as const;
export type DirectionState = (typeof DIRECTION_STATES)[number];

/** The direction of one offside ball; `chooser` is the side that gives it, the opponents of its owner. */
export type Direction = {
  readonly ball: BallColour;
  readonly chooser: PlayingSide;
  readonly state: DirectionState;
};

/** Every ground of a ruling on directions. */
export const DIRECTION_CODES = [
  'given',
  'left',
  'stands',
  'gone',
  'notOffside',
  'lapsed',
  'kept',
  'offsideBallPlayed',
] as const;
export type DirectionCode = (typeof DIRECTION_CODES)[number];

/** The outcome: whether anything was accepted, the ruling, and all directions afterwards. */
export type DirectionRuling = Ruling<DirectionCode> & {
  readonly accepted: boolean;
  readonly directions: readonly Direction[];
};

/** A pending direction for each offside ball; both sides' balls can be among them. */
export const openDirections = (offside: readonly BallColour[]): Direction[] =>
  offside.map((ball) => ({ ball, chooser: otherSide(sideOf(ball)), state: 'pending' }));

const ruling = (
  edition: Edition,
  directions: readonly Direction[],
  code: DirectionCode,
  reason: string,
): DirectionRuling => ({
  accepted: code === 'given' || code === 'left',
  directions,
  code,
  edition,
  rule: ruleOf('offside', edition),
  reason: sentence(reason),
});

/** The penalty area that a choice names; null for leaving the ball. */
export const areaOf = (choice: DirectionChoice): PenaltySide | null => (choice === 'leave' ? null : choice);

/**
 * Gives the direction for `ball`. A direction once given stands (common practice); the right is gone when the next stroke has been played
 * ("Simplified rules", hameastcroquet). Each offside ball is directed by itself; the order of play does not change ("Essential rules
 * simplified" no. 1, hpcc.ie).
 */
export const giveDirection = (
  directions: readonly Direction[],
  ball: BallColour,
  choice: DirectionChoice,
  edition: Edition,
): DirectionRuling => {
  const found = directions.find((direction) => direction.ball === ball);
  if (found === undefined)
    return ruling(edition, directions, 'notOffside', `${ball} is not offside, so it cannot be directed.`);
  if (found.state === 'lapsed' || found.state === 'referee')
    return ruling(
      edition,
      directions,
      'gone',
      `A stroke has been played since, so ${ball} can no longer be directed.`,
    );
  if (found.state !== 'pending')
    return ruling(
      edition,
      directions,
      'stands',
      `The direction for ${ball} was given before, and a direction stands.`,
    );
  const state: DirectionState = choice === 'leave' ? 'left' : choice;
  const after = directions.map((direction) => (direction === found ? { ...direction, state } : direction));
  return choice === 'leave'
    ? ruling(edition, after, 'left', `The opponents leave ${ball} where it lies.`)
    : ruling(
        edition,
        after,
        'given',
        `${ball} is played from the ${choice} penalty area and is moved there at once.`,
      );
};

/** What the next stroke makes of one pending direction. */
const lapseOne = (direction: Direction, played: BallColour, by: PlayingSide, edition: Edition) => {
  if (edition === '2022' || by === direction.chooser) return 'lapsed' as const;
  return played === direction.ball ? ('offsideBallPlayed' as const) : ('kept' as const);
};

const LAPSE_REASONS = {
  lapsed: 'the next stroke has been played, so the right to direct is gone',
  kept: 'its own side has played another ball first, which before the 5th edition does not end the right to direct',
  offsideBallPlayed:
    'the offside ball itself was played before the opponents could direct it; the text for this is not to hand, ask a referee',
} as const;

/**
 * What becomes of pending directions when side `by` plays `played`. Since the 5th edition any next stroke ends the right; before it, a side
 * that played its onside ball first could still have the offside one called back ("Golf croquet rules updated",
 * tunbridgewellscroquet.org.uk). What follows in the 4th edition when the offside ball itself is played first is not to hand: a referee.
 */
export const directionsAfterStroke = (
  directions: readonly Direction[],
  played: BallColour,
  by: PlayingSide,
  edition: Edition,
): readonly DirectionRuling[] => {
  const after = directions.map((direction): Direction => {
    if (direction.state !== 'pending') return direction;
    const code = lapseOne(direction, played, by, edition);
    if (code === 'kept') return direction;
    return { ...direction, state: code === 'lapsed' ? 'lapsed' : 'referee' };
  });
  return directions
    .filter((direction) => direction.state === 'pending')
    .map((direction) => {
      const code = lapseOne(direction, played, by, edition);
      return ruling(edition, after, code, `${direction.ball}: ${LAPSE_REASONS[code]}.`);
    });
};

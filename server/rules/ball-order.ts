import { type BallColour, FIRST_COLOURS, SECOND_COLOURS } from '../lawn/colours.ts';

/** The two sets of ball colours. */
export const COLOUR_SETS = ['first', 'second'] as const;
/** A set of ball colours: one game plays with one set. */
export type ColourSet = (typeof COLOUR_SETS)[number];

/** Balls of each set in order of play (WCF Golf Croquet Rules 2013, rule 1). */
export const BALL_ORDER: Readonly<Record<ColourSet, readonly BallColour[]>> = {
  first: FIRST_COLOURS,
  second: SECOND_COLOURS,
};

/**
 * A side: 0 plays the first and third ball in order (blue and black, or green and brown), 1 the second and fourth (red and yellow, or
 * pink and white) (WCF Golf Croquet Rules 2013, rule 1).
 */
export type PlayingSide = 0 | 1;
/** Both sides, the one that begins first. */
export const PLAYING_SIDES = [0, 1] as const;

/** The set to which `ball` belongs. */
export const setOf = (ball: BallColour): ColourSet => (BALL_ORDER.first.includes(ball) ? 'first' : 'second');

/** Place of `ball` in the order of its set, 0 to 3. */
export const orderOf = (ball: BallColour): number => BALL_ORDER[setOf(ball)].indexOf(ball);

/** The side to which `ball` belongs. */
export const sideOf = (ball: BallColour): PlayingSide => (orderOf(ball) % 2 === 0 ? 0 : 1);

/** The other side. */
export const otherSide = (side: PlayingSide): PlayingSide => (side === 0 ? 1 : 0);

/** The two balls of a side in order of play. */
export const ballsOf = (set: ColourSet, side: PlayingSide): readonly [BallColour, BallColour] => [
  BALL_ORDER[set][side]!,
  BALL_ORDER[set][side + 2]!,
];

/** The ball that is played after `ball`; after the last the first again. */
export const ballAfter = (ball: BallColour): BallColour => BALL_ORDER[setOf(ball)][(orderOf(ball) + 1) % 4]!;

/** The ball due after `last`; the first of the set when nothing has been played. */
export const ballDue = (set: ColourSet, last: BallColour | null): BallColour =>
  last === null ? BALL_ORDER[set][0]! : ballAfter(last);

/** The other ball of the same side. */
export const partnerOf = (ball: BallColour): BallColour => BALL_ORDER[setOf(ball)][(orderOf(ball) + 2) % 4]!;

/** Whether `other` is an opponent's ball of the same game as `ball`. A ball of the other set is nobody's opponent. */
export const isOpponent = (ball: BallColour, other: BallColour): boolean =>
  setOf(ball) === setOf(other) && sideOf(ball) !== sideOf(other);

/** A side by the names of its balls: "blue and black". */
export const sideName = (set: ColourSet, side: PlayingSide): string => ballsOf(set, side).join(' and ');

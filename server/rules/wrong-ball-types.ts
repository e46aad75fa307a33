import type { BallColour } from '../lawn/colours.ts';
import { type ColourSet, sideOf } from './ball-order.ts';
import type { Edition } from './editions.ts';
import type { Ruling } from './ruling.ts';

/** Whether each player plays both balls of a side or one. */
export const FORMATS = ['singles', 'doubles'] as const;
/** Singles or doubles. */
export type Format = (typeof FORMATS)[number];

/** One stroke: `ball` was struck by the player whose ball is `player` (in singles either ball of that player's side). */
export type Stroke = { readonly player: BallColour; readonly ball: BallColour };

/** What was played since the ball last played rightly, in order, noticed before any further stroke. All balls are of `set`. */
export type WrongBallCase = {
  readonly edition: Edition;
  readonly format: Format;
  readonly set: ColourSet;
  /** The ball last played rightly; null at the start. */
  readonly lastRight: BallColour | null;
  /** Whether the game is in its first four turns. */
  readonly opening: boolean;
  readonly strokes: readonly Stroke[];
};

/** What happens after a wrong ball. */
export const WRONG_BALL_OUTCOMES = [
  'replaceAndReplay',
  'opponentsChoose',
  'annulled',
  'stands',
  'referee',
] as const;
export type WrongBallOutcome = (typeof WRONG_BALL_OUTCOMES)[number];

/** Ways between which the opponents choose: the first two in the 6th edition, the last two in the 4th. */
export const WRONG_BALL_OPTIONS = ['replaceAndReplay', 'ballSwap', 'leave', 'putBack'] as const;
export type WrongBallOption = (typeof WRONG_BALL_OPTIONS)[number];

/** What one of the opponents' choices brings. */
export type WrongBallChoice = {
  readonly option: WrongBallOption;
  readonly putBack: boolean;
  readonly pointsCount: boolean;
  readonly next: readonly BallColour[];
};

/**
 * A ruling on wrong balls. `putBack`: balls go back, or go back if the opponents so choose; `pointsCount`: the points of the last strokes
 * count whatever is chosen; `next`: the balls one of which is played next; `undone`: how many of the last strokes a putting back undoes.
 */
export type WrongBallRuling<Code extends string = string> = Ruling<Code> & {
  readonly wrong: boolean;
  readonly outcome: WrongBallOutcome;
  readonly choices: readonly WrongBallChoice[];
  readonly putBack: boolean;
  readonly pointsCount: boolean;
  readonly next: readonly BallColour[];
  readonly undone: number;
};

/** Whether the player of `stroke` may play its ball: in singles the side's, in doubles only the player's own. */
export const playsOwnBall = (stroke: Stroke, format: Format): boolean =>
  format === 'singles' ? sideOf(stroke.player) === sideOf(stroke.ball) : stroke.player === stroke.ball;

/** Whether `stroke` was played by the side that owns its ball. */
export const playsOwnSide = (stroke: Stroke): boolean => sideOf(stroke.player) === sideOf(stroke.ball);

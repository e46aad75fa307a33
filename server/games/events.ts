import type { BallColour } from '../lawn/colours.ts';
import type { StartArea } from '../lawn/start-area.ts';
import type { ColourSet, PlayingSide } from '../rules/ball-order.ts';
import type { DirectionChoice } from '../rules/directions.ts';
import type { Edition } from '../rules/editions.ts';
import type { FaultChoice } from '../rules/fault.ts';
import type { GameLength, HoopSequence } from '../rules/hoop-order.ts';
import type { Format } from '../rules/wrong-ball-types.ts';

/** Where a ball rests: its centre on the lawn in metres, standard deviations and correlation, and whether a reading or a hand put it there. */
export type Placement = {
  readonly x: number;
  readonly y: number;
  readonly sdX: number;
  readonly sdY: number;
  readonly correlation: number;
  readonly origin: 'reading' | 'placed';
};
/** Places by colour; a colour left out says nothing about that ball. */
export type Placements = { readonly [ball in BallColour]?: Placement | undefined };

/** Two balls that touched each other in a stroke. */
export type Contact = readonly [BallColour, BallColour];

/** A game begins: how it is played. Names go by ball; in singles either ball of a side may carry the player's name. */
export type Begun = {
  readonly type: 'begun';
  readonly colours: ColourSet;
  readonly format: Format;
  readonly points: GameLength;
  readonly edition: Edition;
  /** Size of the lawn, metres. */
  readonly lawn: { readonly width: number; readonly length: number };
  /** Certainty at which a ball is called beyond or short of a halfway line. */
  readonly certainty: number;
  /** Radius of the penalty areas, metres. */
  readonly penaltyRadius: number;
  readonly startArea: StartArea;
  /** Order of hoops where it differs from the usual one, each point by the point of the 13-point game with its hoop and direction. */
  readonly hoops?: HoopSequence | undefined;
  readonly names?: { readonly [ball in BallColour]?: string | undefined } | undefined;
  readonly title?: string | undefined;
  readonly lawnName?: string | undefined;
  readonly spot?: string | undefined;
};

/** What a stroke did. Without `touched` it is not known which balls touched; `moved` then names the balls that moved. */
type Play = {
  readonly player: BallColour;
  readonly ball: BallColour;
  readonly positions: Placements;
  readonly touched?: readonly Contact[] | undefined;
  readonly moved?: readonly BallColour[] | undefined;
  /** Balls that scored in it, in order of the points. */
  readonly scored: readonly BallColour[];
  /** Id of the reading that showed where the balls rest. */
  readonly reading?: string | undefined;
};
/** A turn played rightly. */
export type Turn = Play & { readonly type: 'turn' };
/** A stroke with a wrong ball or by a wrong player. */
export type WrongBall = Play & { readonly type: 'wrongBall' };

/** What is done about a wrong ball. */
export const REMEDIES = ['replaceAndReplay', 'annul', 'ballSwap', 'leave', 'putBack'] as const;
export type RemedyChoice = (typeof REMEDIES)[number];
/** The remedy of the wrong ball just played; `positions`: where the balls rest after it, when they were measured again. */
export type Remedy = {
  readonly type: 'remedy';
  readonly choice: RemedyChoice;
  readonly positions?: Placements | undefined;
};

/** The opponents' word on an offside ball. `place`: where in the penalty area it was put. */
export type DirectionGiven = {
  readonly type: 'direction';
  readonly ball: BallColour;
  readonly choice: DirectionChoice;
  readonly by?: BallColour | undefined;
  readonly place?: Placement | undefined;
};

/** A fault of the side of `by` in the stroke just played, and what the opponents chose. */
export type Fault = {
  readonly type: 'fault';
  readonly by: BallColour;
  readonly choice: FaultChoice;
  readonly positions?: Placements | undefined;
};

/** Balls put back or measured again without a stroke: an interference, a gust, a ball lifted. How they arrived does not change. */
export type BallsPutBack = {
  readonly type: 'ballsPutBack';
  readonly positions: Placements;
  readonly reason?: string | undefined;
};

/** A referee decides otherwise. The reason is part of the log. */
export type Overrule = { readonly type: 'overrule'; readonly reason: string } & (
  | { readonly subject: 'offside'; readonly ball: BallColour; readonly verdict: 'offside' | 'onside' }
  | {
      readonly subject: 'wrongBall';
      readonly putBack: boolean;
      readonly pointsCount: boolean;
      readonly next: readonly BallColour[];
    }
  | { readonly subject: 'other'; readonly decision: string }
);

/** Play stops, to be taken up another day. */
export type Suspended = {
  readonly type: 'suspended';
  readonly reason?: string | undefined;
  readonly positions?: Placements | undefined;
};
/** Play goes on; `positions` when the balls were set out again. */
export type Resumed = { readonly type: 'resumed'; readonly positions?: Placements | undefined };

/** Why a game ended. */
export const END_REASONS = ['points', 'time', 'conceded', 'abandoned'] as const;
/** The game is over. `winner` null: nobody won. */
export type Ended = {
  readonly type: 'ended';
  readonly reason: (typeof END_REASONS)[number];
  readonly winner: PlayingSide | null;
};

/** Everything that happens in a game. */
export type PlayEvent =
  | Begun
  | Turn
  | WrongBall
  | Remedy
  | DirectionGiven
  | Fault
  | BallsPutBack
  | Overrule
  | Suspended
  | Resumed
  | Ended;

/**
 * An earlier entry was wrong: `event` takes its place, or is put in after it, or the entry is taken out. Everything after it is played
 * again. An event put in carries this entry's number.
 */
export type Correction = { readonly type: 'correction'; readonly reason?: string | undefined } & (
  | { readonly how: 'replace' | 'insertAfter'; readonly entry: number; readonly event: PlayEvent }
  | { readonly how: 'remove'; readonly entry: number }
);

/** Anything that can be added to a log. */
export type GameEvent = PlayEvent | Correction;
/** Kinds of events. */
export const EVENT_TYPES = [
  'begun',
  'turn',
  'wrongBall',
  'remedy',
  'direction',
  'fault',
  'ballsPutBack',
  'overrule',
  'suspended',
  'resumed',
  'ended',
  'correction',
] as const satisfies readonly GameEvent['type'][];

/** One entry of a log: its number from 1, the instant it was made (ISO 8601), and the event. */
export type Entry = { readonly number: number; readonly at: string; readonly event: GameEvent };

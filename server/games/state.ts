import type { BallColour } from '../lawn/colours.ts';
import type { Court } from '../lawn/court.ts';
import type { PlacedBall } from '../rules/all-across.ts';
import { type PlayingSide, sideOf } from '../rules/ball-order.ts';
import type { Direction } from '../rules/directions.ts';
import { HOOP_SEQUENCES, type HoopSequence } from '../rules/hoop-order.ts';
import type { Arrival, OffsideRuling } from '../rules/offside.ts';
import { addPoint, NO_POINTS, type Score, type Standings, standings } from '../rules/score.ts';
import type { Stroke, WrongBallRuling } from '../rules/wrong-ball-types.ts';
import { metres } from '../units/numbers.ts';
import { lawnPoint } from '../units/points.ts';
import type { Begun, Ended, Overrule, Placement } from './events.ts';

/** A ball at rest: its place, how it came there (not known when the log does not say), and the entry with which it came. */
export type RestingPlace = Placement & {
  readonly arrivedBy: Arrival | null;
  readonly since: number;
};
/** Where each ball rests; a ball that is not on the lawn or whose place is not known is left out. */
export type Resting = { readonly [ball in BallColour]?: RestingPlace | undefined };

/** A point: its place in the order of the game, the ball that scored it, and the entry. */
export type PointScored = { readonly point: number; readonly ball: BallColour; readonly entry: number };

/** What a stroke can be undone to. */
export type Position = {
  readonly points: readonly PointScored[];
  readonly balls: Resting;
  readonly offside: readonly OffsideRuling[];
  readonly directions: readonly Direction[];
  /** Strokes that count as turns so far. */
  readonly turns: number;
};

/** A stroke that has not yet been settled as right or as standing, with the position before it. */
export type OpenStroke = Stroke & { readonly entry: number; readonly before: Position };

/** The order of play: the ball last played rightly, strokes since that are not settled, and the balls between which its player may choose. */
export type OrderState = {
  readonly lastRight: BallColour | null;
  readonly strokes: readonly OpenStroke[];
  readonly choice: readonly BallColour[] | null;
};

/** The latest stroke, as long as a fault in it can still be claimed. */
export type LastStroke = Stroke & {
  readonly entry: number;
  readonly moved: readonly BallColour[];
  readonly scored: readonly BallColour[];
  readonly before: Position;
};

/** Whether play goes on. `won`: a side has the points that win, and the end has not been logged. */
export type GameStatus = 'playing' | 'won' | 'suspended' | 'ended';

/** A referee's decision as kept. */
export type OverruleKept = { readonly entry: number; readonly overrule: Overrule };

/** A game after some of its events. Everything follows from the events alone. */
export type GameState = Position & {
  readonly setup: Begun;
  readonly suspended: boolean;
  readonly ended: Ended | null;
  readonly order: OrderState;
  /** Under the 4th edition: each side plays the other's balls since the opening. */
  readonly exchanged: boolean;
  readonly lastStroke: LastStroke | null;
  readonly wrongBall: WrongBallRuling | null;
  readonly overrules: readonly OverruleKept[];
  /** Where the balls rested after each entry that moved or measured them. */
  readonly history: readonly { readonly entry: number; readonly balls: Resting }[];
};

/** The lawn of a game. */
export const courtOf = ({ lawn }: Begun): Court => ({
  width: metres(lawn.width),
  length: metres(lawn.length),
});

/** The order of hoops of a game. */
export const hoopsOf = (setup: Begun): HoopSequence => setup.hoops ?? HOOP_SEQUENCES[setup.points];

/** The score: points of each side. */
export const scoreOf = (points: readonly PointScored[]): Score =>
  points.reduce((score, { ball }) => addPoint(score, sideOf(ball)), NO_POINTS);

/** How the game stands by its points. */
export const standingsOf = (state: Pick<GameState, 'setup' | 'points'>): Standings =>
  standings(scoreOf(state.points), state.setup.points);

/** Whether play goes on. */
export const statusOf = (state: GameState): GameStatus => {
  if (state.ended) return 'ended';
  if (state.suspended) return 'suspended';
  return standingsOf(state).code === 'won' ? 'won' : 'playing';
};

/** The clips: which side scored each point, in order. */
export const clipsOf = (state: GameState): { readonly point: number; readonly side: PlayingSide }[] =>
  state.points.map(({ point, ball }) => ({ point, side: sideOf(ball) }));

/** A resting place as the rules see it. */
export const placedBall = (place: Placement): PlacedBall => ({
  point: lawnPoint(place.x, place.y),
  covariance: {
    xx: place.sdX * place.sdX,
    xy: place.correlation * place.sdX * place.sdY,
    yy: place.sdY * place.sdY,
  },
});

/** What a stroke played from this state can be undone to. */
export const positionOf = ({ points, balls, offside, directions, turns }: Position): Position => ({
  points,
  balls,
  offside,
  directions,
  turns,
});

/** The state when the game has begun. */
export const beginning = (setup: Begun): GameState => ({
  setup,
  points: [],
  balls: {},
  offside: [],
  directions: [],
  turns: 0,
  suspended: false,
  ended: null,
  order: { lastRight: null, strokes: [], choice: null },
  exchanged: false,
  lastStroke: null,
  wrongBall: null,
  overrules: [],
  history: [],
});

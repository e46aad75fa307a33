import type { BallColour } from '../lawn/colours.ts';
import type { HalfwayLine } from '../lawn/halfway-lines.ts';
import { ballsOf, PLAYING_SIDES, type PlayingSide } from '../rules/ball-order.ts';
import type { Direction } from '../rules/directions.ts';
import { type Leg, legOf, lineAfter } from '../rules/hoop-order.ts';
import type { OffsideRuling } from '../rules/offside.ts';
import { penaltyRadius } from '../rules/penalty-areas.ts';
import type { WrongBallRuling } from '../rules/wrong-ball-types.ts';
import { metres } from '../units/numbers.ts';
import { remediesOf } from './apply-remedy.ts';
import type { Ended, RemedyChoice } from './events.ts';
import { expectation, nextBalls } from './order.ts';
import { advisePenaltyArea, type PenaltyAdvice } from './penalty-advice.ts';
import {
  clipsOf,
  courtOf,
  type GameState,
  type GameStatus,
  hoopsOf,
  type OverruleKept,
  type Resting,
  scoreOf,
  standingsOf,
  statusOf,
} from './state.ts';

/** A game as it is shown: everything that follows from its log, in plain data. */
export type GameView = {
  readonly status: GameStatus;
  /** Points of side 0 and side 1, with each side's balls. */
  readonly sides: readonly {
    readonly side: PlayingSide;
    readonly balls: readonly BallColour[];
    readonly name: string | null;
    readonly points: number;
  }[];
  readonly winner: PlayingSide | null;
  readonly ended: Ended | null;
  /** The hoop contested now and the one after it; null when there is none. */
  readonly hoop: Leg | null;
  readonly hoopAfter: Leg | null;
  /** The halfway line that will be used when the hoop contested now is scored. */
  readonly nextLine: HalfwayLine | null;
  readonly clips: readonly { readonly point: number; readonly side: PlayingSide }[];
  /** Balls one of which plays next, and the same in words. */
  readonly next: { readonly balls: readonly BallColour[]; readonly words: string };
  readonly turns: number;
  readonly balls: Resting;
  readonly offside: readonly OffsideRuling[];
  readonly directions: readonly Direction[];
  /** Which penalty area leaves a directed ball worse, while a direction is to be given. */
  readonly advice: PenaltyAdvice | null;
  readonly wrongBall: (WrongBallRuling & { readonly remedies: readonly RemedyChoice[] }) | null;
  readonly overrules: readonly OverruleKept[];
  readonly exchanged: boolean;
};

const nameOfSide = (state: GameState, side: PlayingSide): string | null => {
  const { colours, names } = state.setup;
  const given = ballsOf(colours, side).map((ball) => names?.[ball]);
  const named = [...new Set(given)].filter((name) => name !== undefined);
  return named.length > 0 ? named.join(' and ') : null;
};

/** Which penalty area leaves a ball directed now worse. */
export const adviceOf = (state: GameState): PenaltyAdvice => {
  const { setup } = state;
  const hoops = hoopsOf(setup);
  const due = standingsOf(state).pointDue ?? Number.POSITIVE_INFINITY;
  const ways = { next: legOf(hoops, due), after: legOf(hoops, due + 1) };
  return advisePenaltyArea(courtOf(setup), ways, penaltyRadius(setup.edition, metres(setup.penaltyRadius)));
};

/** The state of a game as data to show. */
export const viewGame = (state: GameState): GameView => {
  const { setup, points, wrongBall } = state;
  const score = scoreOf(points);
  const { winner, pointDue } = standingsOf(state);
  const hoops = hoopsOf(setup);
  const due = pointDue ?? Number.POSITIVE_INFINITY;
  return {
    status: statusOf(state),
    sides: PLAYING_SIDES.map((side) => ({
      side,
      balls: ballsOf(setup.colours, side),
      name: nameOfSide(state, side),
      points: score[side],
    })),
    winner: state.ended ? state.ended.winner : winner,
    ended: state.ended,
    hoop: legOf(hoops, due),
    hoopAfter: legOf(hoops, due + 1),
    nextLine: lineAfter(courtOf(setup), hoops, due),
    clips: clipsOf(state),
    next: { balls: nextBalls(state), words: expectation(state) },
    turns: state.turns,
    balls: state.balls,
    offside: state.offside,
    directions: state.directions,
    advice: state.directions.some((direction) => direction.state === 'pending') ? adviceOf(state) : null,
    wrongBall: wrongBall && { ...wrongBall, remedies: remediesOf(wrongBall) },
    overrules: state.overrules,
    exchanged: state.exchanged,
  };
};

/** One line of a list of games. */
export type GameSummary = {
  readonly status: GameStatus;
  readonly score: readonly [number, number];
  readonly sides: readonly (readonly BallColour[])[];
  readonly names: readonly (string | null)[];
  readonly turns: number;
  readonly edition: string;
  readonly points: number;
};

/** What a list shows of a game. */
export const summariseGame = (state: GameState): GameSummary => ({
  status: statusOf(state),
  score: scoreOf(state.points),
  sides: PLAYING_SIDES.map((side) => ballsOf(state.setup.colours, side)),
  names: PLAYING_SIDES.map((side) => nameOfSide(state, side)),
  turns: state.turns,
  edition: state.setup.edition,
  points: state.setup.points,
});

/** The game's title: as given, or the names of its sides, or its balls. */
export const titleOf = (state: GameState): string => {
  if (state.setup.title) return state.setup.title;
  const sides = PLAYING_SIDES.map(
    (side) => nameOfSide(state, side) ?? ballsOf(state.setup.colours, side).join(' and '),
  );
  return sides.join(' v ');
};

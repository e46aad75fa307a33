import { otherSide, PLAYING_SIDES, type PlayingSide } from './ball-order.ts';
import type { GameLength } from './hoop-order.ts';

/** Points of side 0 and side 1. */
export type Score = readonly [number, number];

/** The score before the first point. */
export const NO_POINTS: Score = [0, 0];

/** Points that win: more than half of the game's (WCF Golf Croquet Rules 2013, rule 1: 4 of 7, 7 of 13, 10 of 19). */
export const pointsToWin = (length: GameLength): number => (length + 1) / 2;

/** The score with one point more for `side`. */
export const addPoint = (score: Score, side: PlayingSide): Score =>
  side === 0 ? [score[0] + 1, score[1]] : [score[0], score[1] + 1];

/** How a game stands: `open`; `lastHoop` when the last point decides; `won` by a side, by `ahead` points. */
export const SCORE_CODES = ['open', 'lastHoop', 'won'] as const;
/** How a game stands by its score. */
export type Standings = {
  readonly code: (typeof SCORE_CODES)[number];
  readonly winner: PlayingSide | null;
  /** Point contested now, 1 to the length of the game; null when the game is won. */
  readonly pointDue: number | null;
};

/**
 * How the game stands at `score`. It ends when a side has more than half of the points; every hoop is contested by both sides and scored
 * once, so the point contested is the sum of the points plus one.
 */
export const standings = (score: Score, length: GameLength): Standings => {
  const winner = PLAYING_SIDES.find((side) => score[side] >= pointsToWin(length)) ?? null;
  if (winner !== null) return { code: 'won', winner, pointDue: null };
  const pointDue = score[0] + score[1] + 1;
  return { code: pointDue === length ? 'lastHoop' : 'open', winner: null, pointDue };
};

/** Points by which `side` leads; negative when it is behind. */
export const lead = (score: Score, side: PlayingSide): number => score[side] - score[otherSide(side)];

import type { Court } from '../lawn/court.ts';
import { lineBetween } from '../lawn/halfway-between.ts';
import type { HalfwayLine } from '../lawn/halfway-lines.ts';
import { type HoopNumber, type HoopPoint, hoopOfPoint, runDirection } from '../lawn/hoops.ts';

/** Lengths of a game: to 4 of 7, 7 of 13 or 10 of 19 points (WCF Golf Croquet Rules 2013, rule 1). */
export const GAME_LENGTHS = [7, 13, 19] as const;
/** Points for which a game is played at most. */
export type GameLength = (typeof GAME_LENGTHS)[number];

/** How the order of hoops came to be known: published, or remembered and so to be checked against the club's own rule book. */
export type Standing = 'published' | 'fromMemory';

/** One point of a game: the hoop, the direction in which it is run (1 northward, −1 southward), and how that is known. */
export type Leg = {
  readonly point: number;
  readonly hoop: HoopNumber;
  readonly direction: 1 | -1;
  readonly standing: Standing;
};

/** Each point of a game given by the point of the 13-point game whose hoop and direction it has. */
export type HoopSequence = readonly HoopPoint[];

/** 1 to 6 as numbered, 7 to 12 their return. From memory from 7 on. */
const FIRST_TWELVE: HoopSequence = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];

/**
 * Order of hoops for each length. The last hoop of 13 is hoop 3 again (published golf croquet outline, epsom-remuera), the last of 7 is
 * hoop 1 again ("Commentary on changes in the GC rules in the 2013 edition", 1(d), worldcroquet.org). Points 13 to 19 of a 19-point game
 * are from memory: a setting.
 */
export const HOOP_SEQUENCES: Readonly<Record<GameLength, HoopSequence>> = {
  7: [1, 2, 3, 4, 5, 6, 1],
  13: [...FIRST_TWELVE, 13],
  19: [...FIRST_TWELVE, 3, 4, 1, 2, 11, 12, 4],
};

/** Points whose place in the order is published: 1 to 6 of every game, the last of 7 and of 13. */
const isPublished = (sequence: HoopSequence, point: number): boolean =>
  point <= 6 || (sequence.length === 7 && point === 7) || (sequence.length === 13 && point === 13);

/** The hoop of point `point` (1 to the length of the game), or null past the end or before the beginning. */
export const legOf = (sequence: HoopSequence, point: number): Leg | null => {
  const like = sequence[point - 1];
  if (like === undefined) return null;
  return {
    point,
    hoop: hoopOfPoint(like),
    direction: runDirection(like),
    standing: isPublished(sequence, point) ? 'published' : 'fromMemory',
  };
};

/** The halfway line after point `scored` of the game, or null when the game is over with it or no line is known between the two hoops. */
export const lineAfter = (court: Court, sequence: HoopSequence, scored: number): HalfwayLine | null => {
  const from = legOf(sequence, scored);
  const to = legOf(sequence, scored + 1);
  return from === null || to === null ? null : lineBetween(court, from.hoop, to.hoop);
};

import { type Metres, metres } from '../units/numbers.ts';
import type { LawnPoint } from '../units/points.ts';
import { type Court, courtPoint } from './court.ts';

/** The six hoops by the number they bear. */
export const HOOP_NUMBERS = [1, 2, 3, 4, 5, 6] as const;
/** The number of a hoop on the lawn, 1 to 6. */
export type HoopNumber = (typeof HOOP_NUMBERS)[number];

/** Places of the hoops in yards from corner 1 on the standard court (Law 2; Western Australia's sports dimensions guide). */
const HOOP_YARDS: Readonly<Record<HoopNumber, readonly [number, number]>> = {
  1: [7, 7],
  2: [7, 28],
  3: [21, 28],
  4: [21, 7],
  5: [14, 10.5],
  6: [14, 24.5],
};

/** Place of the peg in yards from corner 1: the centre (Law 2). */
const PEG_YARDS = [14, 17.5] as const;

/** Middle between the feet of hoop `hoop`. */
export const hoopPlace = (court: Court, hoop: HoopNumber): LawnPoint =>
  courtPoint(court, ...HOOP_YARDS[hoop]);
/** Foot of the peg. */
export const pegPlace = (court: Court): LawnPoint => courtPoint(court, ...PEG_YARDS);

/** Thickness of a hoop's uprights. From memory. */
export const HOOP_UPRIGHT: Metres = metres(0.016);
/** Height of a hoop. From memory. */
export const HOOP_HEIGHT: Metres = metres(0.3);
/** Clear width between the uprights. From memory; clubs set their own. */
export const HOOP_OPENING: Metres = metres(0.095);
/** Height of the peg (Western Australia's sports dimensions guide). */
export const PEG_HEIGHT: Metres = metres(0.45);
/** Diameter of the peg (Western Australia's sports dimensions guide). */
export const PEG_DIAMETER: Metres = metres(0.038);

/** The points of a 13-point game in order. */
export const HOOP_POINTS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13] as const;
/** The point in the order of the game, 1 to 13. */
export type HoopPoint = (typeof HOOP_POINTS)[number];

/** Hoop contested for each point: 7 to 12 are the places of 2, 1, 4, 3, 6, 5 (from memory); 13 is hoop 3 again (published golf croquet outline). */
const HOOP_OF_POINT: Readonly<Record<HoopPoint, HoopNumber>> = {
  1: 1,
  2: 2,
  3: 3,
  4: 4,
  5: 5,
  6: 6,
  7: 2,
  8: 1,
  9: 4,
  10: 3,
  11: 6,
  12: 5,
  13: 3,
};
/** Points whose hoop is run northward; the others are run southward. From memory. */
const NORTHWARD: ReadonlySet<HoopPoint> = new Set<HoopPoint>([1, 2, 5, 6, 9, 10]);

/** The hoop that is contested for point `point`. */
export const hoopOfPoint = (point: HoopPoint): HoopNumber => HOOP_OF_POINT[point];
/** Direction in which the hoop of `point` is run: 1 northward, −1 southward. */
export const runDirection = (point: HoopPoint): 1 | -1 => (NORTHWARD.has(point) ? 1 : -1);

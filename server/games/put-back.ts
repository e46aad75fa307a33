import { toBoundary } from '../lawn/boundary-distance.ts';
import { BALL_COLOURS, type BallColour } from '../lawn/colours.ts';
import type { Court, Side } from '../lawn/court.ts';
import { CORNER_NAMES, HOOP_NAMES, namedPlace, type PointName } from '../lawn/named-points.ts';
import { type Metres, metres } from '../units/numbers.ts';
import type { LawnPoint } from '../units/points.ts';
import type { Placement } from './events.ts';
import type { Resting } from './state.ts';

/** A distance from the ball's centre, with its standard deviation. */
export type Measure = { readonly distance: Metres; readonly sd: Metres };
/** What it takes to put a ball back with a tape. */
export type PutBack = {
  /** The nearer of the west and east and of the south and north boundary, nearest first, to their inner edge: two that cross. */
  readonly boundaries: readonly (Measure & { readonly side: Side })[];
  /** Two fixed points whose distances cross best, nearest first. */
  readonly points: readonly (Measure & { readonly name: PointName })[];
};

/** Points a tape can be held to. */
const FIXED_POINTS: readonly PointName[] = [...CORNER_NAMES, ...HOOP_NAMES, 'peg'];
/** A tape laid by hand: 5 mm at its ends and one part in a thousand of its length. No source. */
const tapeVariance = (length: number): number => 0.005 ** 2 + (length / 1000) ** 2;
/** A point nearer than this gives no direction to speak of, metres: about a hoop's width and a half. */
const NEAREST_POINT = 0.15;

type Line = {
  readonly name: PointName;
  readonly length: number;
  readonly ux: number;
  readonly uy: number;
};

const lineTo = (court: Court, name: PointName, { x, y }: LawnPoint): Line => {
  const place = namedPlace(court, name);
  const length = Math.hypot(x - place.x, y - place.y);
  return { name, length, ux: (x - place.x) / (length || 1), uy: (y - place.y) / (length || 1) };
};

/** Variance of a place found by two tapes: the sum of theirs over the square of the sine at which they cross. */
const crossingVariance = (a: Line, b: Line): number => {
  const sine = a.ux * b.uy - a.uy * b.ux;
  return (tapeVariance(a.length) + tapeVariance(b.length)) / (sine * sine || Number.MIN_VALUE);
};

const pairsOf = <T>(items: readonly T[]): (readonly [T, T])[] =>
  items.flatMap((one, i) => items.slice(i + 1).map((other) => [one, other] as const));

/** Standard deviation of the ball's place in the direction (`ux`, `uy`), of length 1. */
const sdAlong = ({ sdX, sdY, correlation }: Placement, ux: number, uy: number): Metres =>
  metres(Math.sqrt(Math.max(0, (ux * sdX) ** 2 + (uy * sdY) ** 2 + 2 * correlation * ux * uy * sdX * sdY)));

const bestPair = (court: Court, place: Placement): readonly Line[] => {
  const lines = FIXED_POINTS.map((name) => lineTo(court, name, place)).filter(
    ({ length }) => length >= NEAREST_POINT,
  );
  const pairs = pairsOf(lines).map((pair) => ({ pair, variance: crossingVariance(...pair) }));
  const best = pairs.reduce((least, pair) => (pair.variance < least.variance ? pair : least));
  return best.pair.toSorted((a, b) => a.length - b.length);
};

/**
 * Distances by which a ball is put back: to the nearest boundary of each pair (two parallel ones would not fix a
 * place), and to the two fixed points (corners, hoops, peg) whose tapes cross
 * so that the place comes out best. Measured on the ground from under the ball's centre, with the standard deviation of the place along
 * each. A ball outside the court has a negative distance to that boundary.
 */
export const putBackDistances = (place: Placement, court: Court): PutBack => {
  const nearest = (one: Side, other: Side): Side =>
    toBoundary(court, one, place) <= toBoundary(court, other, place) ? one : other;
  const boundaries = [nearest('west', 'east'), nearest('south', 'north')]
    .map((side) => ({
      side,
      distance: toBoundary(court, side, place),
      sd: metres(side === 'west' || side === 'east' ? place.sdX : place.sdY),
    }))
    .toSorted((a, b) => a.distance - b.distance);
  const points = bestPair(court, place).map(({ name, length, ux, uy }) => ({
    name,
    distance: metres(length),
    sd: sdAlong(place, ux, uy),
  }));
  return { boundaries, points };
};

/** One line of a put-back card. */
export type PutBackLine = { readonly ball: BallColour; readonly place: Placement } & PutBack;

/** A put-back card: every ball whose place is known, in the order of the colours. */
export const putBackCard = (balls: Resting, court: Court): PutBackLine[] =>
  BALL_COLOURS.flatMap((ball) => {
    const place = balls[ball];
    return place ? [{ ball, place, ...putBackDistances(place, court) }] : [];
  });

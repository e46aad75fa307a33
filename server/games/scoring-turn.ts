import { BALL_COLOURS, type BallColour } from '../lawn/colours.ts';
import { sideOf } from '../rules/ball-order.ts';
import { type Direction, directionsAfterStroke, openDirections } from '../rules/directions.ts';
import { lineAfter } from '../rules/hoop-order.ts';
import { judgeOffside, type OffsideRuling } from '../rules/offside.ts';
import type { Stroke } from '../rules/wrong-ball-types.ts';
import {
  courtOf,
  type GameState,
  hoopsOf,
  type PointScored,
  placedBall,
  type RestingPlace,
  standingsOf,
} from './state.ts';

/** How a ball arrived, told at the end of the turn of entry `entry`. */
const arrivalAtTurnEnd = (place: RestingPlace, entry: number) => {
  if (place.arrivedBy === null) return undefined;
  return place.since === entry ? { ...place.arrivedBy, thisTurn: true } : place.arrivedBy;
};

/** The ruling on every ball at the end of a scoring turn; none when the game is won or no line is known. */
const rulings = (state: GameState, striker: BallColour, entry: number): OffsideRuling[] => {
  const { setup, points, balls } = state;
  const line = lineAfter(courtOf(setup), hoopsOf(setup), points.length);
  if (line === null || standingsOf(state).code === 'won') return [];
  const { edition, certainty } = setup;
  return BALL_COLOURS.flatMap((ball) => {
    const place = balls[ball];
    if (place === undefined) return [];
    const resting = { ...placedBall(place), arrivedBy: arrivalAtTurnEnd(place, entry) };
    return [judgeOffside(resting, ball, { line, striker, edition, certainty })];
  });
};

/** Whether a point was scored with entry `entry`. */
const scoredIn = (points: readonly PointScored[], entry: number): boolean =>
  points.some((point) => point.entry === entry);

/**
 * The state with its offside balls and their pending directions, at the end of the turn of entry `entry`. When nothing was scored in it,
 * earlier rulings and directions stay.
 */
export const atTurnEnd = (state: GameState, striker: BallColour, entry: number): GameState => {
  if (!scoredIn(state.points, entry)) return state;
  const offside = rulings(state, striker, entry);
  const balls = offside.filter(({ verdict }) => verdict === 'offside').map(({ colour }) => colour);
  return { ...state, offside, directions: openDirections(balls) };
};

/** The directions after a further stroke. */
export const directionsAfter = (state: GameState, stroke: Stroke, directions: readonly Direction[]) =>
  directionsAfterStroke(directions, stroke.ball, sideOf(stroke.player), state.setup.edition).at(-1)
    ?.directions ?? directions;

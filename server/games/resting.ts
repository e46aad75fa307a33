import { BALL_COLOURS, type BallColour } from '../lawn/colours.ts';
import type { Arrival } from '../rules/offside.ts';
import type { Placement, Placements, Turn, WrongBall } from './events.ts';
import type { Resting, RestingPlace } from './state.ts';

/** The balls that a stroke moved: the one struck, those said to have moved, and those that touched another. */
export const movedIn = (play: Turn | WrongBall): BallColour[] => {
  const moved = new Set([play.ball, ...(play.moved ?? []), ...(play.touched ?? []).flat()]);
  return BALL_COLOURS.filter((ball) => moved.has(ball));
};

/** How a stroke brought `ball` where it rests. Which balls touched it is left out when the log does not know. */
const arrivalBy = (play: Turn | WrongBall, ball: BallColour): Arrival => {
  if (play.touched === undefined) return { strokeOf: play.ball };
  const touched = play.touched
    .filter((pair) => pair.includes(ball))
    .map(([one, other]) => (one === ball ? other : one));
  return { strokeOf: play.ball, touched: BALL_COLOURS.filter((colour) => touched.includes(colour)) };
};

type Change = (ball: BallColour, before: RestingPlace | undefined) => RestingPlace | undefined;

/** Every ball's place after `change`; balls without a place are left out. */
export const changeBalls = (balls: Resting, change: Change): Resting =>
  Object.fromEntries(
    BALL_COLOURS.map((ball) => [ball, change(ball, balls[ball])] as const).filter(([, place]) => place),
  );

/** A place as a new measurement of a ball that has not moved: the arrival stays. */
const measured = (place: Placement, before: RestingPlace | undefined, entry: number): RestingPlace => ({
  ...place,
  arrivedBy: before?.arrivedBy ?? null,
  since: before?.since ?? entry,
});

/** Places after a stroke. A ball that moved and was not seen has no known place; one that did not move keeps the last known. */
export const afterPlay = (balls: Resting, play: Turn | WrongBall, entry: number): Resting => {
  const moved = movedIn(play);
  return changeBalls(balls, (ball, before) => {
    const place = play.positions[ball];
    if (moved.includes(ball)) return place && { ...place, arrivedBy: arrivalBy(play, ball), since: entry };
    return place ? measured(place, before, entry) : before;
  });
};

/** Places measured again or put back, without a stroke. */
export const afterMeasuring = (balls: Resting, positions: Placements | undefined, entry: number): Resting =>
  positions === undefined
    ? balls
    : changeBalls(balls, (ball, before) => {
        const place = positions[ball];
        return place ? measured(place, before, entry) : before;
      });

/** Balls that came with entry `from` or later lie where a fault or wrong play of the side of `by` put them. */
export const afterWrong = (balls: Resting, from: number, by: BallColour): Resting =>
  changeBalls(
    balls,
    (_ball, place) =>
      place && (place.since >= from ? { ...place, arrivedBy: { ...place.arrivedBy, faultOf: by } } : place),
  );

const exchange = (one: BallColour, other: BallColour) => (ball: BallColour) => {
  if (ball === one) return other;
  return ball === other ? one : ball;
};

/** The two balls change places, each place with its story; in what entry `entry` did, each stands for the other. */
export const afterSwap = (balls: Resting, one: BallColour, other: BallColour, entry: number): Resting => {
  const swap = exchange(one, other);
  const retold = (by: Arrival): Arrival => ({
    ...by,
    ...(by.strokeOf && { strokeOf: swap(by.strokeOf) }),
    ...(by.touched && { touched: by.touched.map(swap) }),
  });
  return changeBalls(balls, (ball) => {
    const place = balls[swap(ball)];
    return place && place.since === entry && place.arrivedBy
      ? { ...place, arrivedBy: retold(place.arrivedBy) }
      : place;
  });
};

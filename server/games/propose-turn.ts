import type { BallColour } from '../lawn/colours.ts';
import { hoopPlace } from '../lawn/hoops.ts';
import { BALL_ORDER, isOpponent } from '../rules/ball-order.ts';
import { legOf } from '../rules/hoop-order.ts';
import { chiSquareCdf } from '../units/statistics.ts';
import type { Contact, Placement, Placements } from './events.ts';
import { nextBalls } from './order.ts';
import { courtOf, type GameState, hoopsOf, standingsOf } from './state.ts';

/** Certainty at which a ball is said to have moved. A setting. */
export const MOVED_CERTAINTY = 0.99;

/** What two pictures say of a ball: moved by `distance` metres, at rest, come into sight, gone from sight, or seen in neither. */
export type BallChange = {
  readonly ball: BallColour;
  readonly change: 'moved' | 'atRest' | 'appeared' | 'notSeen' | 'absent';
  readonly distance: number | null;
  /** Probability that a ball at rest would show a smaller difference; near 1 for one that moved. */
  readonly probability: number | null;
};

/** What only people can say. */
export type TurnQuestion =
  | { readonly ask: 'whoPlayed'; readonly balls: readonly BallColour[] }
  | { readonly ask: 'touchedOpponent'; readonly ball: BallColour }
  | { readonly ask: 'scored'; readonly ball: BallColour; readonly point: number }
  | { readonly ask: 'where'; readonly ball: BallColour };

/** A turn as two pictures suggest it. `ball` null: the pictures do not tell which was played. */
export type TurnProposal = {
  readonly ball: BallColour | null;
  /** Whether the ball proposed is one that was due. */
  readonly due: boolean;
  readonly changes: readonly BallChange[];
  readonly moved: readonly BallColour[];
  readonly touched: readonly Contact[];
  readonly positions: Placements;
  readonly mayHaveScored: readonly BallColour[];
  readonly questions: readonly TurnQuestion[];
};

const covariance = ({ sdX, sdY, correlation }: Placement) => ({
  xx: sdX * sdX,
  xy: correlation * sdX * sdY,
  yy: sdY * sdY,
});

/**
 * How unlikely the difference of two places of one ball at rest is: the chi-square probability, with two degrees of freedom, of a smaller
 * one. Readings are taken as independent; errors they share make it cautious. Without uncertainty any difference is certain.
 */
export const probabilityMoved = (before: Placement, after: Placement): number => {
  const [a, b] = [covariance(before), covariance(after)];
  const [xx, xy, yy] = [a.xx + b.xx, a.xy + b.xy, a.yy + b.yy];
  const [dx, dy] = [after.x - before.x, after.y - before.y];
  const determinant = xx * yy - xy * xy;
  if (determinant <= 0) return dx === 0 && dy === 0 ? 0 : 1;
  const square = (yy * dx * dx - 2 * xy * dx * dy + xx * dy * dy) / determinant;
  return chiSquareCdf(square, 2);
};

const changeOf = (
  ball: BallColour,
  before: Placement | undefined,
  after: Placement | undefined,
  certainty: number,
): BallChange => {
  const nothing = { distance: null, probability: null };
  if (before === undefined) return { ball, change: after ? 'appeared' : 'absent', ...nothing };
  if (after === undefined) return { ball, change: 'notSeen', ...nothing };
  const probability = probabilityMoved(before, after);
  const distance = Math.hypot(after.x - before.x, after.y - before.y);
  return { ball, change: probability >= certainty ? 'moved' : 'atRest', distance, probability };
};

/** The ball that was played: one that was due if it moved or nothing else did, otherwise the only one that moved. */
const ballPlayed = (due: readonly BallColour[], moved: readonly BallColour[]): BallColour | null => {
  const dueMoved = due.filter((ball) => moved.includes(ball));
  if (dueMoved.length === 1) return dueMoved[0]!;
  if (dueMoved.length === 0 && moved.length === 1) return moved[0]!;
  return moved.length === 0 && due.length === 1 ? due[0]! : null;
};

/** Contacts that follow from what moved: with two balls, the one played touched the other. With more the pictures do not tell the order. */
const contactsIn = (played: BallColour | null, moved: readonly BallColour[]): Contact[] => {
  const other = moved.filter((ball) => ball !== played);
  return played !== null && other.length === 1 ? [[played, other[0]!]] : [];
};

/** Moved balls that were before the plane of the hoop contested, or not on the lawn, and have come through or past it. */
const mayScore = (state: GameState, moved: readonly BallColour[], seen: Placements): BallColour[] => {
  const leg = legOf(hoopsOf(state.setup), standingsOf(state).pointDue ?? 0);
  if (leg === null) return [];
  const { y } = hoopPlace(courtOf(state.setup), leg.hoop);
  const past = (place: Placement) => leg.direction * (place.y - y) > 0;
  return moved.filter((ball) => {
    const [before, after] = [state.balls[ball], seen[ball]];
    return after !== undefined && past(after) && !(before && past(before));
  });
};

const touchQuestions = (moved: readonly BallColour[], touched: readonly Contact[]): TurnQuestion[] =>
  moved
    .filter(
      (ball) => !touched.some((pair) => pair.includes(ball) && pair.some((other) => isOpponent(ball, other))),
    )
    .map((ball) => ({ ask: 'touchedOpponent', ball }));

/**
 * The turn that the places seen after it suggest: which balls moved by more than their uncertainty, which was played, and what only people
 * can say. `seen` holds the balls of the game that the picture shows.
 */
export const proposeTurn = (
  state: GameState,
  seen: Placements,
  certainty: number = MOVED_CERTAINTY,
): TurnProposal => {
  const balls = BALL_ORDER[state.setup.colours];
  const changes = balls.map((ball) => changeOf(ball, state.balls[ball], seen[ball], certainty));
  const moved = changes
    .filter(({ change }) => change === 'moved' || change === 'appeared')
    .map(({ ball }) => ball);
  const due = nextBalls(state);
  const ball = ballPlayed(due, moved);
  const touched = contactsIn(ball, moved);
  const mayHaveScored = mayScore(state, moved, seen);
  const point = standingsOf(state).pointDue ?? 0;
  const questions: TurnQuestion[] = [
    ...(ball === null ? [{ ask: 'whoPlayed', balls: moved.length > 0 ? moved : due } as const] : []),
    ...changes
      .filter(({ change }) => change === 'notSeen')
      .map((change) => ({ ask: 'where', ball: change.ball }) as const),
    ...mayHaveScored.map((scorer) => ({ ask: 'scored', ball: scorer, point }) as const),
    ...touchQuestions(moved, touched),
  ];
  const positions = Object.fromEntries(
    balls.flatMap((colour) => (seen[colour] ? [[colour, seen[colour]]] : [])),
  );
  return {
    ball,
    due: ball !== null && due.includes(ball),
    changes,
    moved,
    touched,
    positions,
    mayHaveScored,
    questions,
  };
};

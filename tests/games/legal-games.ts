import { remediesOf } from '../../server/games/apply-remedy.ts';
import type { Begun, GameEvent, Placements, PlayEvent } from '../../server/games/events.ts';
import { appendEvent, type GameLog } from '../../server/games/log.ts';
import { judgeNext, nextBalls } from '../../server/games/order.ts';
import { type GameState, statusOf } from '../../server/games/state.ts';
import { type BallColour, isBallColour } from '../../server/lawn/colours.ts';
import { BALL_ORDER } from '../../server/rules/ball-order.ts';
import { BEGUN } from './builder.ts';

/** Instants do not matter to the rules. */
const INSTANT = '2024-05-04T10:00:00.000Z';

/** A repeatable source of choices: numbers from 0 to 1 by the mulberry32 generator. */
export const choices = (seed: number) => {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const of = <T>(items: readonly T[]): T => items[Math.floor(next() * items.length)]!;
  return { next, of, chance: (share: number) => next() < share };
};
export type Choices = ReturnType<typeof choices>;

const placements = (from: Choices, balls: readonly BallColour[]): Placements =>
  Object.fromEntries(
    balls.map((ball) => [
      ball,
      {
        x: from.next() * 25.6,
        y: from.next() * 32,
        sdX: 0.005 + from.next() * 0.02,
        sdY: 0.005 + from.next() * 0.02,
        correlation: from.next() - 0.5,
        origin: 'reading' as const,
      },
    ]),
  );

const stroke = (
  from: Choices,
  state: GameState,
  type: 'turn' | 'wrongBall',
  player: BallColour,
  ball: BallColour,
): PlayEvent => {
  const balls = BALL_ORDER[state.setup.colours];
  const other = from.of(balls.filter((colour) => colour !== ball));
  const third = from.of(balls.filter((colour) => colour !== ball && colour !== other));
  const touched = from.of([
    [],
    [],
    [[ball, other]],
    [
      [ball, other],
      [other, third],
    ],
  ] as const);
  return {
    type,
    player,
    ball,
    positions: placements(from, from.chance(0.2) ? balls : [ball, ...touched.flat()]),
    ...(from.chance(0.1) ? {} : { touched: touched.map(([one, two]) => [one!, two!] as const) }),
    // Rare enough for a game of 19 points to last.
    scored: from.chance(0.02) ? [from.of(balls)] : [],
  };
};

const wrongStroke = (from: Choices, state: GameState): PlayEvent | null => {
  const balls = BALL_ORDER[state.setup.colours];
  const [player, ball] = [from.of(balls), from.of(balls)];
  return judgeNext(state, { player, ball }).outcome === 'stands'
    ? null
    : stroke(from, state, 'wrongBall', player, ball);
};

/** The next right turn, or null while a referee has to say who plays or a wrong ball would have to be undone. */
const rightTurn = (from: Choices, state: GameState): PlayEvent | null => {
  const balls = BALL_ORDER[state.setup.colours].filter(
    (ball) => judgeNext(state, { player: ball, ball }).outcome === 'stands',
  );
  return balls.length === 0
    ? null
    : stroke(from, state, 'turn', ...(Array(2).fill(from.of(balls)) as [BallColour, BallColour]));
};

const remedy = (from: Choices, state: GameState): PlayEvent => {
  const allowed = remediesOf(state.wrongBall!);
  if (allowed.length > 0) return { type: 'remedy', choice: from.of(allowed) };
  const next = [from.of(BALL_ORDER[state.setup.colours])];
  return {
    type: 'overrule',
    subject: 'wrongBall',
    putBack: from.chance(0.5),
    pointsCount: from.chance(0.5),
    next,
    reason: 'so decided',
  };
};

const direction = (from: Choices, state: GameState): PlayEvent | null => {
  const pending = state.directions.filter((given) => given.state === 'pending');
  return pending.length === 0
    ? null
    : { type: 'direction', ball: from.of(pending).ball, choice: from.of(['west', 'east', 'leave']) };
};

const ruling = (from: Choices, state: GameState): PlayEvent | null =>
  state.offside.length === 0
    ? null
    : {
        type: 'overrule',
        subject: 'offside',
        ball: from.of(state.offside).colour,
        verdict: from.of(['offside', 'onside']),
        reason: 'tested on the lawn',
      };

/** One thing that may be logged now. It may still be refused; then another is tried. */
const suggestion = (from: Choices, state: GameState): PlayEvent | null => {
  const status = statusOf(state);
  if (status === 'suspended') return { type: 'resumed' };
  if (status === 'won')
    return state.wrongBall
      ? remedy(from, state)
      : { type: 'overrule', subject: 'other', decision: 'tea', reason: 'the game is won' };
  if (state.wrongBall && from.chance(0.7)) return remedy(from, state);
  const kind = from.next();
  if (kind < 0.08) return wrongStroke(from, state);
  if (kind < 0.3) return direction(from, state);
  if (kind < 0.33)
    return {
      type: 'fault',
      by: from.of(BALL_ORDER[state.setup.colours]),
      choice: from.of(['leave', 'putBack']),
    };
  if (kind < 0.36)
    return { type: 'ballsPutBack', positions: placements(from, BALL_ORDER[state.setup.colours]) };
  if (kind < 0.4) return ruling(from, state);
  if (kind < 0.41) return { type: 'suspended' };
  return rightTurn(from, state);
};

/** A correction of a random entry that is in force: the places of a stroke change. */
const correction = (from: Choices, log: GameLog): GameEvent | null => {
  const strokes = log.effective.filter(({ event }) => event.type === 'turn' || event.type === 'wrongBall');
  if (strokes.length === 0) return null;
  const { number, event } = from.of(strokes);
  if (event.type !== 'turn' && event.type !== 'wrongBall') return null;
  return {
    type: 'correction',
    how: 'replace',
    entry: number,
    event: { ...event, positions: placements(from, [event.ball]) },
  };
};

/** How a game begins, drawn at random. */
export const beginnings = (from: Choices): Begun => ({
  ...BEGUN,
  points: 19,
  colours: from.of(['first', 'second']),
  format: from.of(['singles', 'doubles']),
  edition: from.of(['2013', '2022']),
  names: {},
});

/** A log of `length` legal entries drawn from `seed`; with `corrections` some of them correct earlier ones. */
export const legalGame = (seed: number, length: number, corrections = true): GameLog => {
  const from = choices(seed);
  let log: GameLog | null = null;
  const grow = (event: GameEvent): boolean => {
    const added = appendEvent(log, event, INSTANT);
    if (added.ok) log = added.value;
    return added.ok;
  };
  grow(beginnings(from));
  while (log!.version < length) {
    const now: GameLog = log!;
    const event = corrections && from.chance(0.01) ? correction(from, now) : suggestion(from, now.state);
    if (event !== null && grow(event)) continue;
    // What was drawn does not fit: the next turn, or a remedy, always does.
    grow(
      rightTurn(from, now.state) ?? (now.state.wrongBall ? remedy(from, now.state) : { type: 'suspended' }),
    );
  }
  return log!;
};

/** The state of a game in which nothing is due any more has no next ball; every other has one, two or, for a referee, none. */
export const dueIsSound = (state: GameState): boolean =>
  nextBalls(state).every(isBallColour) && nextBalls(state).length <= 4;

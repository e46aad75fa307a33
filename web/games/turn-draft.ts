import type { PhotoRecord } from '../../server/contract/record.ts';
import type { Contact, Placement, Placements, Turn, WrongBall } from '../../server/games/events.ts';
import { judgeNext, nextBalls } from '../../server/games/order.ts';
import { proposeTurn, type TurnProposal } from '../../server/games/propose-turn.ts';
import { movedIn } from '../../server/games/resting.ts';
import { type GameState, standingsOf } from '../../server/games/state.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { BALL_ORDER, ballsOf, isOpponent, sideOf } from '../../server/rules/ball-order.ts';
import { ballName } from '../words/balls.ts';

/** What is said of two balls that may have touched. */
export type PairAnswer = 'yes' | 'no' | 'unseen';

/** What a turn is entered upon: the game before it, and what a picture shows after it. */
export type TurnBase = {
  readonly state: GameState;
  /** Places of the game's balls in the picture; empty without one. */
  readonly seen: Placements;
  readonly reading: string | null;
  /** Whether the picture was taken for the call after the hoop that is contested. */
  readonly pointSeen: boolean;
};

/** What people said of a turn while it is being entered; null where nothing was said, so that the proposal stands. */
export type TurnDraft = {
  readonly ball: BallColour | null;
  readonly player: BallColour | null;
  /** Balls put on the plan by hand. */
  readonly put: Placements;
  readonly moved: readonly BallColour[] | null;
  /** By pair, in the order of play: "blue red". */
  readonly touches: Readonly<Record<string, PairAnswer>>;
  readonly scored: readonly BallColour[] | null;
};

/** Nothing said yet. */
export const BLANK_TURN: TurnDraft = {
  ball: null,
  player: null,
  put: {},
  moved: null,
  touches: {},
  scored: null,
};

/** Name of a pair in a draft. */
export const pairName = ([one, other]: Contact): string => `${one} ${other}`;

/** Every two balls of opposite sides. */
export const opponentPairs = (balls: readonly BallColour[]): Contact[] =>
  balls.flatMap((one, i) =>
    balls
      .slice(i + 1)
      .filter((other) => isOpponent(one, other))
      .map((other): Contact => [one, other]),
  );

/** The draft of a turn that is in the log. */
export const draftOf = (event: Turn | WrongBall, balls: readonly BallColour[]): TurnDraft => {
  const said = (pair: Contact): PairAnswer => {
    if (!event.touched) return 'unseen';
    return event.touched.some((one) => pair.every((ball) => one.includes(ball))) ? 'yes' : 'no';
  };
  return {
    ball: event.ball,
    player: event.player,
    put: event.positions,
    moved: movedIn(event),
    touches: Object.fromEntries(opponentPairs(balls).map((pair) => [pairName(pair), said(pair)])),
    scored: event.scored,
  };
};

/** What a reading shows of a game's balls. */
export const baseOfReading = (record: PhotoRecord, state: GameState): TurnBase => {
  if (record.kind !== 'lawn') return { state, seen: {}, reading: null, pointSeen: false };
  const ours = BALL_ORDER[state.setup.colours];
  const places = record.balls
    .filter(({ colour }) => ours.includes(colour))
    .map(({ colour, x, y, sdX, sdY, correlation }): [BallColour, Placement] => [
      colour,
      { x, y, sdX, sdY, correlation, origin: 'reading' },
    ]);
  const point = standingsOf(state).pointDue;
  return {
    state,
    seen: Object.fromEntries(places),
    reading: record.id,
    pointSeen: point !== null && record.call?.hoopScored === point,
  };
};

/** A place with its uncertainty left out: a hand that moves a ball says that it moved. */
const certain = (places: Placements): Placements =>
  Object.fromEntries(
    Object.entries(places).map(([ball, place]) => [ball, place && { ...place, sdX: 0, sdY: 0 }]),
  );

/** What picture and hands suggest. */
const proposalOf = ({ state, seen, reading }: TurnBase, { put }: TurnDraft): TurnProposal => {
  if (reading) return proposeTurn(state, { ...seen, ...put });
  const balls = certain(state.balls) as GameState['balls'];
  return proposeTurn({ ...state, balls }, certain({ ...state.balls, ...put }));
};

/** Two balls of opposite sides, whether they touched, and whether that has to be asked. */
export type PairQuestion = {
  readonly pair: Contact;
  readonly answer: PairAnswer | null;
  /** `ask`: both moved and it does not follow; `known`: it follows from what moved; `rare`: at most one moved. */
  readonly kind: 'ask' | 'known' | 'rare';
};

/** A turn as far as it is understood. `event` null while something must still be said; `open` says what. */
export type TurnUnderstood = {
  readonly proposal: TurnProposal;
  readonly ball: BallColour | null;
  readonly player: BallColour | null;
  readonly moved: readonly BallColour[];
  readonly places: Placements;
  readonly pairs: readonly PairQuestion[];
  readonly scored: readonly BallColour[] | null;
  readonly event: Turn | WrongBall | null;
  readonly open: readonly string[];
};

/** Who struck `ball` when nobody says: its own player when it or its partner was due; unknown when the other side's ball was. */
const playerFor = (state: GameState, ball: BallColour | null): BallColour | null => {
  if (ball === null) return null;
  const due = nextBalls(state);
  if (due.includes(ball)) return ball;
  return due.find((other) => sideOf(other) === sideOf(ball)) ?? null;
};

const questionOf = (
  pair: Contact,
  moved: readonly BallColour[],
  ball: BallColour | null,
  touches: TurnDraft['touches'],
): PairQuestion => {
  const said = touches[pairName(pair)] ?? null;
  if (!pair.every((one) => moved.includes(one))) return { pair, answer: said ?? 'no', kind: 'rare' };
  const follows = moved.length === 2 && ball !== null && pair.includes(ball);
  return follows ? { pair, answer: said ?? 'yes', kind: 'known' } : { pair, answer: said, kind: 'ask' };
};

/** Balls that touched; undefined when nobody saw it. The partner ball was touched when it alone moved with the one played. */
const touchedOf = (
  pairs: readonly PairQuestion[],
  moved: readonly BallColour[],
  ball: BallColour,
): Contact[] | undefined => {
  if (pairs.some(({ answer }) => answer === 'unseen')) return undefined;
  const other = moved.filter((one) => one !== ball);
  const partner: Contact[] =
    other.length === 1 && sideOf(other[0]!) === sideOf(ball) ? [[ball, other[0]!]] : [];
  return [...pairs.filter(({ answer }) => answer === 'yes').map(({ pair }) => pair), ...partner];
};

type Said = Pick<TurnUnderstood, 'ball' | 'player' | 'pairs' | 'scored'>;

const openIn = ({ ball, player, pairs, scored }: Said, point: number | null): string[] => [
  ...(ball === null ? ['which ball was played'] : []),
  ...(ball !== null && player === null ? ['who struck it'] : []),
  ...pairs
    .filter(({ answer }) => answer === null)
    .map(({ pair }) => `whether ${ballName(pair[0])} and ${ballName(pair[1])} touched`),
  ...(scored === null ? [`whether hoop ${point} was scored`] : []),
];

/** Places that the log is told: what the picture shows, what was put by hand, and the ball played with those that moved. */
const told = (base: TurnBase, draft: TurnDraft, moved: readonly BallColour[], places: Placements) => {
  const balls = moved.filter((ball) => places[ball]);
  const now = Object.fromEntries(balls.map((ball) => [ball, plain(places[ball]!)]));
  return { ...base.seen, ...now, ...draft.put };
};

const plain = ({ x, y, sdX, sdY, correlation, origin }: Placement): Placement => ({
  x,
  y,
  sdX,
  sdY,
  correlation,
  origin,
});

const eventOf = (base: TurnBase, draft: TurnDraft, said: Omit<TurnUnderstood, 'event' | 'open'>) => {
  const { ball, player, moved, places, pairs, scored } = said;
  if (ball === null || player === null || scored === null) return null;
  const touched = touchedOf(pairs, moved, ball);
  return {
    type: judgeNext(base.state, { player, ball }).outcome === 'stands' ? 'turn' : 'wrongBall',
    player,
    ball,
    positions: told(base, draft, moved, places),
    moved,
    ...(touched && { touched }),
    scored,
    ...(base.reading && { reading: base.reading }),
  } satisfies Turn | WrongBall;
};

/** What a draft says, completed by what picture and order of play suggest. */
export const understand = (base: TurnBase, draft: TurnDraft): TurnUnderstood => {
  const { state, seen, pointSeen } = base;
  const balls = BALL_ORDER[state.setup.colours];
  const proposal = proposalOf(base, draft);
  const due = nextBalls(state);
  const guess = proposal.ball ?? (proposal.moved.length === 0 && due.length === 1 ? due[0]! : null);
  const ball = draft.ball ?? guess;
  const player = draft.player ?? playerFor(state, ball);
  const said = draft.moved ?? proposal.moved;
  const moved = balls.filter((one) => one === ball || said.includes(one));
  const pairs = opponentPairs(balls).map((pair) => questionOf(pair, moved, ball, draft.touches));
  const mayScore = proposal.mayHaveScored.length > 0 || pointSeen;
  const scored = draft.scored ?? (mayScore ? null : []);
  const places = { ...state.balls, ...seen, ...draft.put };
  const all = { proposal, ball, player, moved, places, pairs, scored };
  const open = openIn(all, standingsOf(state).pointDue);
  return { ...all, open, event: open.length > 0 ? null : eventOf(base, draft, all) };
};

/** Who may have struck a ball: each side in singles, each player in doubles, named by a ball of theirs. */
export const strikersOf = ({ colours, format }: GameState['setup'], ball: BallColour): BallColour[] => {
  if (format === 'doubles') return [...BALL_ORDER[colours]];
  return ([0, 1] as const).map((side) => (sideOf(ball) === side ? ball : ballsOf(colours, side)[0]));
};

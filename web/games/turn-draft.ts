import type { PhotoRecord } from '../../server/contract/record.ts';
import type { Contact, Placement, Placements, Turn, WrongBall } from '../../server/games/events.ts';
import { judgeNext, nextBalls } from '../../server/games/order.ts';
import { proposeTurn, type TurnProposal } from '../../server/games/propose-turn.ts';
import type { GameState } from '../../server/games/state.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { BALL_ORDER } from '../../server/rules/ball-order.ts';

/** A turn while it is being entered. `touched` null: not known which balls touched. */
export type TurnDraft = {
  readonly ball: BallColour | null;
  readonly player: BallColour | null;
  readonly positions: Placements;
  readonly touched: readonly Contact[] | null;
  readonly scored: readonly BallColour[];
  readonly reading: string | null;
};

/** A turn with nothing said yet but who is due. */
export const blankTurn = (state: GameState): TurnDraft => {
  const due = nextBalls(state);
  const only = due.length === 1 ? due[0]! : null;
  return { ball: only, player: only, positions: {}, touched: [], scored: [], reading: null };
};

/** The draft of a turn that is in the log. */
export const turnFrom = ({
  ball,
  player,
  positions,
  touched,
  scored,
  reading,
}: Turn | WrongBall): TurnDraft => ({
  ball,
  player,
  positions,
  touched: touched ?? null,
  scored,
  reading: reading ?? null,
});

/** Places of a game's balls as a reading shows them. */
export const placesIn = (record: PhotoRecord, state: GameState): Placements => {
  if (record.kind !== 'lawn') return {};
  const ours: readonly BallColour[] = BALL_ORDER[state.setup.colours];
  return Object.fromEntries(
    record.balls
      .filter(({ colour }) => ours.includes(colour))
      .map(({ colour, x, y, sdX, sdY, correlation }): [BallColour, Placement] => [
        colour,
        { x, y, sdX, sdY, correlation, origin: 'reading' },
      ]),
  );
};

/** The draft that a reading suggests. */
export const turnFromReading = (
  record: PhotoRecord,
  state: GameState,
): { draft: TurnDraft; proposal: TurnProposal } => {
  const proposal = proposeTurn(state, placesIn(record, state));
  const { ball, positions, touched, mayHaveScored } = proposal;
  const draft = {
    ...blankTurn(state),
    ball,
    player: ball,
    positions,
    touched,
    scored: mayHaveScored.slice(0, 1),
    reading: record.id,
  };
  return { draft, proposal };
};

/** Where every ball of the game lies by the draft: placed in it, or as before. */
export const placesNow = (state: GameState, draft: TurnDraft): Placements => ({
  ...state.balls,
  ...draft.positions,
});

/** Balls that the draft says have moved. */
export const movedBalls = (state: GameState, { ball, positions }: TurnDraft): BallColour[] =>
  BALL_ORDER[state.setup.colours].filter((colour) => {
    const place = positions[colour];
    if (colour === ball) return true;
    if (!place) return false;
    const before = state.balls[colour];
    if (!before) return true;
    const slack =
      2.6 * Math.hypot(place.sdX + before.sdX, place.sdY + before.sdY) * (place.origin === 'placed' ? 0 : 1);
    return Math.hypot(place.x - before.x, place.y - before.y) > slack;
  });

/** The event that a draft makes; whether it is a right turn or a wrong ball follows from the order of play. Null while it is not said which ball was played. */
export const eventOf = (state: GameState, draft: TurnDraft): Turn | WrongBall | null => {
  const { ball, positions, touched, scored, reading } = draft;
  if (ball === null) return null;
  const player = draft.player ?? ball;
  const right = judgeNext(state, { player, ball }).outcome === 'stands';
  return {
    type: right ? 'turn' : 'wrongBall',
    player,
    ball,
    positions,
    ...(touched === null ? { moved: movedBalls(state, draft) } : { touched }),
    scored,
    ...(reading && { reading }),
  };
};

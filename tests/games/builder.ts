import { expect } from 'vitest';
import type {
  Begun,
  Contact,
  GameEvent,
  Placement,
  Placements,
  Turn,
  WrongBall,
} from '../../server/games/events.ts';
import { appendEvent, type GameLog } from '../../server/games/log.ts';
import type { RefusalCode } from '../../server/games/refusal.ts';
import type { GameState } from '../../server/games/state.ts';
import type { BallColour } from '../../server/lawn/colours.ts';

/** An invented club's game: Ida Holm with blue and black, Tomas Reyl with red and yellow. */
export const BEGUN: Begun = {
  type: 'begun',
  colours: 'first',
  format: 'singles',
  points: 13,
  edition: '2022',
  lawn: { width: 25.6032, length: 32.004 },
  certainty: 0.99,
  penaltyRadius: 0.9144,
  startArea: 'corner',
  names: { blue: 'Ida Holm', red: 'Tomas Reyl' },
};

/** A ball at (x, y) metres, known to 10 mm. */
export const at = (x: number, y: number, origin: Placement['origin'] = 'reading'): Placement => ({
  x,
  y,
  sdX: 0.01,
  sdY: 0.01,
  correlation: 0,
  origin,
});

type Told = {
  readonly player?: BallColour;
  readonly at?: Placements;
  readonly touched?: readonly Contact[] | null;
  readonly scored?: readonly BallColour[];
};
const play = <T extends 'turn' | 'wrongBall'>(type: T, ball: BallColour, told: Told) => ({
  type,
  player: told.player ?? ball,
  ball,
  positions: told.at ?? {},
  ...(told.touched === null ? {} : { touched: told.touched ?? [] }),
  scored: told.scored ?? [],
});
/** A turn of `ball` by its owner, touching nothing, unless told otherwise. */
export const turn = (ball: BallColour, told: Told = {}): Turn => play('turn', ball, told);
/** A stroke with the wrong ball `ball`. */
export const wrong = (ball: BallColour, told: Told = {}): WrongBall => play('wrongBall', ball, told);

const INSTANT = '2024-05-04T10:00:00.000Z';

/** The log of `events`; fails the test with the refusal when one does not fit. */
export const logOf = (...events: readonly GameEvent[]): GameLog => {
  let log: GameLog | null = null;
  for (const event of events) {
    const added: ReturnType<typeof appendEvent> = appendEvent(log, event, INSTANT);
    if (!added.ok) expect.fail(`${event.type}: ${added.error.code}: ${added.error.message}`);
    log = added.value;
  }
  return log!;
};

/** The state after `events`. */
export const stateOf = (...events: readonly GameEvent[]): GameState => logOf(...events).state;

/** The log with one more event. */
export const add = (log: GameLog, ...events: readonly GameEvent[]): GameLog => {
  let grown = log;
  for (const event of events) {
    const added = appendEvent(grown, event, INSTANT);
    if (!added.ok) expect.fail(`${event.type}: ${added.error.code}: ${added.error.message}`);
    grown = added.value;
  }
  return grown;
};

/** The refusal of `event` after `log`. */
export const refusalOf = (
  log: GameLog | null,
  event: GameEvent,
): { code: RefusalCode; message: string; expected?: readonly BallColour[]; entry?: number } => {
  const added = appendEvent(log, event, INSTANT);
  if (added.ok) expect.fail(`${event.type} was taken`);
  return added.error;
};

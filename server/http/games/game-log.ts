import { BegunSchema, GameEventSchema, GameFileSchema } from '../../contract/game.ts';
import { AdditionSchema } from '../../contract/game-request.ts';
import { parseInput } from '../../contract/parse.ts';
import type { Settings } from '../../contract/settings.ts';
import { InputError } from '../../errors.ts';
import type { Entry, GameEvent } from '../../games/events.ts';
import { checkGameFile, type FileRefusal, type GameFile, importGame } from '../../games/game-file.ts';
import { appendEvent, type GameLog, replay } from '../../games/log.ts';
import type { Refusal } from '../../games/refusal.ts';
import { summariseGame, titleOf } from '../../games/view-game.ts';
import type { KeptGame } from '../../store/store.ts';

const kebab = (code: string): string => code.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

/** What the log refused, for the client: with the balls it expected, or the entry that does not fit. */
const refused = ({ code, message, ...more }: Refusal | FileRefusal, status: number): InputError => {
  const { expected, entry } = more as Partial<Refusal>;
  const details = { ...(expected && { expected }), ...(entry !== undefined && { entry }) };
  return new InputError(kebab(code), message, status, details);
};

const added = (log: GameLog | null, event: GameEvent, at: string): GameLog => {
  const outcome = appendEvent(log, event, at);
  if (!outcome.ok) throw refused(outcome.error, 409);
  return outcome.value;
};

/** What a list shows of a game, and what a search looks at. */
export const headOf = ({ state }: GameLog): { title: string; summary: unknown } => ({
  title: titleOf(state),
  summary: summariseGame(state),
});

/** A new game as a request describes it; what it leaves out is as the club's settings say. */
export const beginLog = (input: unknown, settings: Settings, at: string): GameLog => {
  const { edition, certainty, penaltyRadius, lawn } = settings;
  const { width, length } = lawn;
  const club = { edition, certainty, penaltyRadius, lawn: { width, length }, lawnName: lawn.name };
  const given = input !== null && typeof input === 'object' ? input : {};
  return added(null, parseInput(BegunSchema, { ...club, ...given, type: 'begun' }, 'game'), at);
};

/** The log of a kept game. What was kept was checked before; a log that does not replay is a fault of the program. */
export const logOf = ({ id, events }: KeptGame): GameLog => {
  const outcome = replay(events as readonly Entry[]);
  if (!outcome.ok) throw new Error(`The log of game ${id} does not replay: ${outcome.error.message}`);
  return outcome.value;
};

/** The log with the events of a request added, and the version the request counted on. */
export const addToLog = (log: GameLog, input: unknown, at: string): GameLog => {
  const { events } = parseInput(AdditionSchema, input, 'request');
  return events.reduce<GameLog>((grown, event, index) => {
    const checked = parseInput(GameEventSchema, event, events.length > 1 ? `events[${index}]` : 'event');
    return added(grown, checked, at);
  }, log);
};

/** The log of an exported file. Its kind and version are looked at first, so that the sentence names them. */
export const logOfFile = (file: unknown): GameLog => {
  const wrong = checkGameFile(file);
  if (wrong) throw refused(wrong, 422);
  const outcome = importGame(parseInput(GameFileSchema, file, 'file') as GameFile);
  if (!outcome.ok) throw refused(outcome.error, 422);
  return outcome.value;
};

import { err, ok, type Result } from '../units/result.ts';
import type { Entry } from './events.ts';
import { type GameLog, replay } from './log.ts';
import type { Refusal } from './refusal.ts';

/** Mark of an exported game. */
export const GAME_FILE_KIND = 'sward-game';
/** Version of the exported form; another version is refused by name. */
export const GAME_FILE_VERSION = 1;

/** A game as a file of its own. */
export type GameFile = {
  readonly kind: typeof GAME_FILE_KIND;
  readonly version: typeof GAME_FILE_VERSION;
  readonly entries: readonly Entry[];
};

/** Why a file was not taken. */
export type FileRefusal = { readonly code: 'notAGame' | 'otherVersion'; readonly message: string } | Refusal;

/** The game as a file. */
export const exportGame = (log: Pick<GameLog, 'entries'>): GameFile => ({
  kind: GAME_FILE_KIND,
  version: GAME_FILE_VERSION,
  entries: log.entries,
});

const described = (value: unknown): string =>
  value === undefined ? 'no version' : `version ${String(value)}`;

/** Refuses what is not an exported game of this version; says nothing of the entries. To be asked before the entries' form is checked. */
export const checkGameFile = (document: unknown): FileRefusal | null => {
  const file = document as { kind?: unknown; version?: unknown } | null;
  if (typeof file !== 'object' || file === null || file.kind !== GAME_FILE_KIND)
    return {
      code: 'notAGame',
      message: 'This file is not an exported game; choose a file that was exported from a game.',
    };
  if (file.version === GAME_FILE_VERSION) return null;
  return {
    code: 'otherVersion',
    message: `This game file has ${described(file.version)}, but this program reads version ${GAME_FILE_VERSION}; export it again from the program that wrote it, or use that program.`,
  };
};

/** The log of an exported game whose form has been checked. Replays every entry; the first that does not fit is named. */
export const importGame = (file: GameFile): Result<GameLog, FileRefusal> => {
  const refused = checkGameFile(file);
  if (refused) return err(refused);
  const log = replay(file.entries);
  return log.ok ? ok(log.value) : err(log.error);
};

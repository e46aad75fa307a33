import type { Settings } from '../../contract/settings.ts';
import type { KeptGame } from '../../store/store.ts';

/** Checked events with what the list of games shows of them. */
export type CheckedLog = {
  readonly title: string;
  readonly summary: unknown;
  /** The events to keep, in order. */
  readonly events: readonly unknown[];
};

/** The room of games as the HTTP service uses it. Each function throws an InputError for events that the log does not admit. */
export interface Games {
  /** The first events of a new game from a request. */
  begin(input: unknown, settings: Settings): CheckedLog;
  /** The events of a request after those of the log; 409 with what the log expected when they are illegal. */
  add(game: KeptGame, input: unknown): CheckedLog;
  /** The replayed state, with what the log expects next. */
  state(game: KeptGame): unknown;
  /** The game as a file of its own. */
  exportGame(game: KeptGame): unknown;
  /** The events of such a file; another version of the file is refused by name. */
  importGame(file: unknown): CheckedLog & { readonly times: readonly (string | null)[] };
  positionsCsv(game: KeptGame): string;
  /** `turn` counts from 1; null is the present. */
  planSvg(game: KeptGame, turn: number | null, settings: Settings): string;
  planPng(game: KeptGame, turn: number | null, settings: Settings): Promise<Uint8Array>;
  scorePdf(game: KeptGame, settings: Settings): Promise<Uint8Array>;
  putBackPdf(game: KeptGame, turn: number | null, settings: Settings): Promise<Uint8Array>;
}

import { err, ok, type Result } from '../units/result.ts';
import { applyEvent } from './apply-event.ts';
import type { Correction, Entry, GameEvent, PlayEvent } from './events.ts';
import { type Refusal, refusal } from './refusal.ts';
import type { GameState } from './state.ts';

/** A log with the state that its entries lead to. `version` is the number of its entries. */
export type GameLog = {
  readonly version: number;
  readonly entries: readonly Entry[];
  /** The events in force, corrections carried out, each with the number of the entry it stands for. */
  readonly effective: readonly Effective[];
  readonly state: GameState;
};

/** An event in force. */
export type Effective = { readonly number: number; readonly event: PlayEvent };

/** The events in force after `correction`, entry `number`. */
const correct = (
  effective: readonly Effective[],
  correction: Correction,
  number: number,
): Result<readonly Effective[], Refusal> => {
  const at = effective.findIndex((entry) => entry.number === correction.entry);
  if (at < 0)
    return err(
      refusal(
        'noSuchEntry',
        `Entry ${correction.entry} is not in force, so it cannot be corrected; it was taken out, is itself a correction, or does not exist.`,
      ),
    );
  if (at === 0 && correction.how === 'remove')
    return err(
      refusal(
        'notCorrectable',
        "The game's beginning cannot be taken out; put another beginning in its place.",
      ),
    );
  if (correction.how === 'remove') return ok(effective.toSpliced(at, 1));
  const { event } = correction;
  return ok(
    correction.how === 'replace'
      ? effective.with(at, { number: correction.entry, event })
      : effective.toSpliced(at + 1, 0, { number, event }),
  );
};

/** The state after all of `effective`; the first that does not fit is named. */
const play = (effective: readonly Effective[]): Result<GameState | null, Refusal> => {
  let state: GameState | null = null;
  for (const { number, event } of effective) {
    const applied: Result<GameState, Refusal> = applyEvent(state, event, number);
    if (!applied.ok) return err({ ...applied.error, entry: number });
    state = applied.value;
  }
  return ok(state);
};

/** A correction replays everything; when a later entry no longer fits, it is refused and that entry is named. */
const applyCorrection = (
  log: GameLog | null,
  correction: Correction,
  number: number,
): Result<{ effective: readonly Effective[]; state: GameState }, Refusal> => {
  if (log === null) return err(refusal('notBegun', 'There is no entry yet that could be corrected.'));
  const corrected = correct(log.effective, correction, number);
  if (!corrected.ok) return corrected;
  const played = play(corrected.value);
  if (played.ok) return ok({ effective: corrected.value, state: played.value! });
  const { entry, message } = played.error;
  const own = entry === correction.entry || entry === number;
  return err(
    own
      ? played.error
      : {
          ...played.error,
          code: 'laterEntryFails',
          message: `After this correction entry ${entry} no longer fits: ${message} Correct or take out that entry first.`,
        },
  );
};

/**
 * The log with `event` added at the instant `at` (ISO 8601); `log` null for a new game. Refused when it does not fit; the log is never
 * changed in place.
 */
export const appendEvent = (log: GameLog | null, event: GameEvent, at: string): Result<GameLog, Refusal> => {
  const number = (log?.version ?? 0) + 1;
  const entries = [...(log?.entries ?? []), { number, at, event }];
  if (event.type === 'correction') {
    const corrected = applyCorrection(log, event, number);
    return corrected.ok ? ok({ version: number, entries, ...corrected.value }) : corrected;
  }
  const applied = applyEvent(log?.state ?? null, event, number);
  if (!applied.ok) return applied;
  const effective = [...(log?.effective ?? []), { number, event }];
  return ok({ version: number, entries, effective, state: applied.value });
};

/** The log that `entries` make. Entries are numbered from 1 without gaps; the first that does not fit is named. */
export const replay = (entries: readonly Entry[]): Result<GameLog, Refusal> => {
  let log: GameLog | null = null;
  for (const [index, { number, at, event }] of entries.entries()) {
    if (number !== index + 1)
      return err({
        ...refusal(
          'numberGap',
          `Entry ${index + 1} was expected, but entry ${number} follows; the log is not whole.`,
        ),
        entry: number,
      });
    const added: Result<GameLog, Refusal> = appendEvent(log, event, at);
    if (!added.ok) return err({ ...added.error, entry: added.error.entry ?? number });
    log = added.value;
  }
  return log
    ? ok(log)
    : err(refusal('notBegun', 'The log has no entries; a game starts with its beginning.'));
};

import { z } from 'zod';
import { IdSchema, InstantSchema } from './identifiers.ts';

/** Most events added at once: a turn with its directions, faults and remedies has fewer. */
const MOST_EVENTS = 50;

/**
 * A request to add to a game's log, on the condition that the log has `expectedVersion` events. Each event is checked by its own schema
 * (`GameEvent`) one after another, so that the sentence about a faulty one names it.
 */
export const AdditionSchema = z.object({
  expectedVersion: z.int().min(0),
  events: z.array(z.unknown()).min(1).max(MOST_EVENTS),
});

/** Which moment of a game is meant: after the entry of this number, or the last one before it at which balls rested; none is the present. */
export const MomentSchema = z.object({ turn: z.coerce.number().int().min(1).max(10_000).optional() });

/** One line of the list of games. */
export const GameHeadSchema = z.object({
  id: IdSchema,
  title: z.string(),
  createdAt: InstantSchema,
  updatedAt: InstantSchema,
  /** Number of events in its log. */
  version: z.int().min(0),
  summary: z.unknown(),
});

/** A game: its log and the state that the log replays to. */
export const GameSchema = GameHeadSchema.extend({
  events: z.array(z.object({ number: z.int().positive(), at: InstantSchema, event: z.unknown() })),
  state: z.unknown(),
});

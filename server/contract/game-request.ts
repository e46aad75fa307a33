import { z } from 'zod';
import { IdSchema, InstantSchema } from './identifiers.ts';

/** A request to add to a game's log, on the condition that the log has `expectedVersion` events. The events' form is the log's own. */
export const AdditionSchema = z.looseObject({
  expectedVersion: z.int().min(0),
});

/** Which moment of a game is meant: the turn after which, from 1; 0 is the start, none is the present. */
export const MomentSchema = z.object({ turn: z.coerce.number().int().min(0).max(10_000).optional() });

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

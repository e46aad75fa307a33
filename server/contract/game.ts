import { z } from 'zod';
import { HOOP_POINTS } from '../lawn/hoops.ts';
import { METRES_PER_YARD } from '../units/numbers.ts';
import { IdSchema, InstantSchema, plainText } from './identifiers.ts';
import { EditionSchema, GameLengthSchema } from './judge.ts';
import { ColourSchema, DEFAULT_CERTAINTY, LawnSchema } from './marks.ts';

/** Where a ball rests, metres; `correlation` between its two coordinates. */
export const PlacementSchema = z.object({
  x: z.number(),
  y: z.number(),
  sdX: z.number().min(0).default(0),
  sdY: z.number().min(0).default(0),
  correlation: z.number().min(-1).max(1).default(0),
  origin: z.enum(['reading', 'placed']).default('placed'),
});
/** Places by colour. */
export const PlacementsSchema = z.partialRecord(ColourSchema, PlacementSchema);

/** A side: 0 plays the first and third ball in order, 1 the second and fourth. */
export const PlayingSideSchema = z.union([z.literal(0), z.literal(1)]);
const HoopPointSchema = z.literal([...HOOP_POINTS]);

/** Longest name, title or place. */
const LONGEST_NAME = 80;
/** Longest reason. */
const LONGEST_REASON = 500;
const name = plainText(LONGEST_NAME);
const reason = plainText(LONGEST_REASON);

/** A game begins. */
export const BegunSchema = z
  .object({
    type: z.literal('begun'),
    colours: z.enum(['first', 'second']).default('first'),
    format: z.enum(['singles', 'doubles']).default('singles'),
    points: GameLengthSchema.default(13),
    edition: EditionSchema.default('2022'),
    lawn: LawnSchema.pick({ width: true, length: true }).prefault({}),
    certainty: z.number().min(0.5).lt(1).default(DEFAULT_CERTAINTY),
    penaltyRadius: z.number().min(0.1).max(3).default(METRES_PER_YARD),
    startArea: z.enum(['corner', 'strip']).default('corner'),
    hoops: z.array(HoopPointSchema).min(7).max(19).optional(),
    names: z.partialRecord(ColourSchema, name).optional(),
    title: name.optional(),
    lawnName: name.optional(),
    spot: IdSchema.optional(),
  })
  .refine(({ hoops, points }) => hoops === undefined || hoops.length === points, {
    path: ['hoops'],
    message: 'as many hoops as the game has points',
  });

const playShape = {
  player: ColourSchema,
  ball: ColourSchema,
  positions: PlacementsSchema.default({}),
  touched: z
    .array(z.tuple([ColourSchema, ColourSchema]))
    .max(28)
    .optional(),
  moved: z.array(ColourSchema).max(8).optional(),
  scored: z.array(ColourSchema).max(19).default([]),
  reading: IdSchema.optional(),
};
/** A turn played rightly. */
export const TurnSchema = z.object({ type: z.literal('turn'), ...playShape });
/** A stroke with a wrong ball or by a wrong player. */
export const WrongBallSchema = z.object({ type: z.literal('wrongBall'), ...playShape });

/** The remedy of the wrong ball just played. */
export const RemedySchema = z.object({
  type: z.literal('remedy'),
  choice: z.enum(['replaceAndReplay', 'annul', 'ballSwap', 'leave', 'putBack']),
  positions: PlacementsSchema.optional(),
});
/** The opponents' word on an offside ball. */
export const DirectionSchema = z.object({
  type: z.literal('direction'),
  ball: ColourSchema,
  choice: z.enum(['west', 'east', 'leave']),
  by: ColourSchema.optional(),
  place: PlacementSchema.optional(),
});
/** A fault in the stroke just played, and the opponents' choice. */
export const FaultSchema = z.object({
  type: z.literal('fault'),
  by: ColourSchema,
  choice: z.enum(['leave', 'putBack']),
  positions: PlacementsSchema.optional(),
});
/** Balls put back or measured again without a stroke. */
export const BallsPutBackSchema = z.object({
  type: z.literal('ballsPutBack'),
  positions: PlacementsSchema,
  reason: reason.optional(),
});

const overrule = { type: z.literal('overrule'), reason };
/** A referee decides otherwise. */
export const OverruleSchema = z.discriminatedUnion('subject', [
  z.object({
    ...overrule,
    subject: z.literal('offside'),
    ball: ColourSchema,
    verdict: z.enum(['offside', 'onside']),
  }),
  z.object({
    ...overrule,
    subject: z.literal('wrongBall'),
    putBack: z.boolean(),
    pointsCount: z.boolean(),
    next: z.array(ColourSchema).min(1).max(4),
  }),
  z.object({ ...overrule, subject: z.literal('other'), decision: reason }),
]);

/** Play stops, to be taken up another day. */
export const SuspendedSchema = z.object({
  type: z.literal('suspended'),
  reason: reason.optional(),
  positions: PlacementsSchema.optional(),
});
/** Play goes on. */
export const ResumedSchema = z.object({
  type: z.literal('resumed'),
  positions: PlacementsSchema.optional(),
});
/** The game is over. */
export const EndedSchema = z.object({
  type: z.literal('ended'),
  reason: z.enum(['points', 'time', 'conceded', 'abandoned']),
  winner: PlayingSideSchema.nullable(),
});

/** Everything that happens in a game. */
export const PlayEventSchema = z.discriminatedUnion('type', [
  BegunSchema,
  TurnSchema,
  WrongBallSchema,
  RemedySchema,
  DirectionSchema,
  FaultSchema,
  BallsPutBackSchema,
  OverruleSchema,
  SuspendedSchema,
  ResumedSchema,
  EndedSchema,
]);
export type PlayEventInput = z.input<typeof PlayEventSchema>;

const correction = { type: z.literal('correction'), reason: reason.optional(), entry: z.int().min(1) };
/** An earlier entry was wrong. */
export const CorrectionSchema = z.discriminatedUnion('how', [
  z.object({ ...correction, how: z.enum(['replace', 'insertAfter']), event: PlayEventSchema }),
  z.object({ ...correction, how: z.literal('remove') }),
]);

/** Anything that can be added to a log. */
export const GameEventSchema = z.discriminatedUnion('type', [...PlayEventSchema.options, CorrectionSchema]);
export type GameEventInput = z.input<typeof GameEventSchema>;

/** One entry of a log. */
export const EntrySchema = z.object({ number: z.int().min(1), at: InstantSchema, event: GameEventSchema });

/** Most entries of a game: fifty times as many as a long game has. */
const MOST_ENTRIES = 10_000;
/** A game as a file of its own; its kind and version are checked before. */
export const GameFileSchema = z.object({
  kind: z.literal('sward-game'),
  version: z.literal(1),
  entries: z.array(EntrySchema).min(1).max(MOST_ENTRIES),
});

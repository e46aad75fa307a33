import { z } from 'zod';
import { CourtCheckSchema } from './court-check.ts';
import { DaySchema, IdSchema, InstantSchema, plainText } from './identifiers.ts';
import { ArrivedBySchema, BallVerdictSchema, EditionSchema } from './judge.ts';
import { ColourSchema, HoopScoredSchema, ImagePairSchema, MarksSchema } from './marks.ts';
import { LIES, ReadingSchema } from './reading.ts';
import { SightingSchema } from './sight.ts';

/** Kinds of stored answers: a lawn-wide reading, a picture along the line, a check of the court. */
export const RECORD_KINDS = ['lawn', 'sighting', 'check'] as const;
export type RecordKind = (typeof RECORD_KINDS)[number];

/** Version of the stored form of a record; a record of another version is refused by name. */
export const RECORD_VERSION = 1;

/** What a person may say about a record. */
export const LabelsSchema = z.object({
  /** Id of the game it belongs to. */
  game: IdSchema.nullable().default(null),
  /** Id of the spot from which it was taken. */
  spot: IdSchema.nullable().default(null),
  note: plainText(500).nullable().default(null),
});

/** What every record carries beside its answer. */
const headShape = {
  id: IdSchema,
  /** Counts up with each correction, from 1. */
  revision: z.int().positive(),
  createdAt: InstantSchema,
  updatedAt: InstantSchema,
  photoId: IdSchema,
  marks: MarksSchema,
  game: IdSchema.nullable(),
  spot: IdSchema.nullable(),
  note: z.string().nullable(),
  /** The answer in one short sentence. */
  sentence: z.string(),
};

/** How balls came to rest where they are, by colour. */
export const ArrivalsSchema = z.partialRecord(ColourSchema, ArrivedBySchema);
export type Arrivals = z.output<typeof ArrivalsSchema>;

/** A stored lawn-wide reading. */
export const LawnRecordSchema = z.object({
  ...headShape,
  kind: z.literal('lawn'),
  ...ReadingSchema.shape,
  arrivedBy: ArrivalsSchema.default({}),
  /** The rules' verdict on each ball after the point scored, from what is known of how it arrived; null without a call. */
  verdict: z.object({ edition: EditionSchema, balls: z.array(BallVerdictSchema) }).nullable(),
});
export type LawnRecord = z.output<typeof LawnRecordSchema>;

/** A stored sighting. */
export const SightingRecordSchema = z.object({
  ...headShape,
  kind: z.literal('sighting'),
  ...SightingSchema.shape,
});
export type SightingRecord = z.output<typeof SightingRecordSchema>;

/** A stored check of the court. */
export const CheckRecordSchema = z.object({
  ...headShape,
  kind: z.literal('check'),
  ...CourtCheckSchema.shape,
});
export type CheckRecord = z.output<typeof CheckRecordSchema>;

/** Any stored answer. Named after the list it is kept in: a reading of a photograph. */
export const RecordSchema = z.discriminatedUnion('kind', [
  LawnRecordSchema,
  SightingRecordSchema,
  CheckRecordSchema,
]);
export type PhotoRecord = z.output<typeof RecordSchema>;

/** One line of the list of records. */
export const RecordSummarySchema = z.object({
  id: IdSchema,
  kind: z.enum(RECORD_KINDS),
  revision: z.int().positive(),
  createdAt: InstantSchema,
  photoId: IdSchema,
  game: IdSchema.nullable(),
  spot: IdSchema.nullable(),
  note: z.string().nullable(),
  sentence: z.string(),
  hoopScored: HoopScoredSchema.nullable(),
  balls: z.array(
    z.object({
      colour: ColourSchema,
      /** Place on the lawn, metres; null where only the distance from the line was measured. */
      x: z.number().nullable(),
      y: z.number().nullable(),
      lies: z.enum(LIES).nullable(),
    }),
  ),
});
export type RecordSummary = z.output<typeof RecordSummarySchema>;

/** A request to read a stored photo. */
export const ReadingRequestSchema = z.object({
  photoId: IdSchema,
  marks: MarksSchema,
  ...LabelsSchema.shape,
});

/** Which records to list; the newest come first. */
export const RecordQuerySchema = z.object({
  /** A day in UTC; `from` and `to` serve a day elsewhere. */
  day: DaySchema.optional(),
  /** First instant included. */
  from: InstantSchema.optional(),
  /** First instant no longer included. */
  to: InstantSchema.optional(),
  kind: z.enum(RECORD_KINDS).optional(),
  game: IdSchema.optional(),
  spot: IdSchema.optional(),
  /** Words to look for in the note, the spot's name and the game's title. */
  q: z.string().trim().max(80).optional(),
  limit: z.coerce.number().int().min(1).max(100).default(30),
  /** The `next` of the page before. */
  before: z.string().max(80).optional(),
});
export type RecordQuery = z.output<typeof RecordQuerySchema>;

/** One page of the list; `next` asks for the following one. */
export const RecordPageSchema = z.object({
  readings: z.array(RecordSummarySchema),
  next: z.string().nullable(),
});
export type RecordPage = z.output<typeof RecordPageSchema>;

/** A correction of one ball: another place in the photo or on the lawn, another colour, a ball added by hand, or one taken away. */
export const BallCorrectionSchema = z.object({
  colour: ColourSchema,
  /** New place of the ball's centre in the photo, px. */
  image: ImagePairSchema.optional(),
  /** New place on the lawn, metres; both or neither. */
  x: z.number().min(-20).max(80).optional(),
  y: z.number().min(-20).max(80).optional(),
  recolour: ColourSchema.optional(),
  remove: z.literal(true).optional(),
  /** A ball that was not found, at its place in the photo, px. */
  place: ImagePairSchema.optional(),
});
export type BallCorrection = z.output<typeof BallCorrectionSchema>;

/** Corrections of a stored record; what is left out stays. Null empties a label. */
export const CorrectionsSchema = z.object({
  balls: z.array(BallCorrectionSchema).min(1).max(16).optional(),
  hoopScored: HoopScoredSchema.nullable().optional(),
  certainty: z.number().min(0.5).lt(1).optional(),
  /** A sighting: the one ball to be judged, where a finger tapped it; null forgets the tap. */
  tap: ImagePairSchema.nullable().optional(),
  /** How balls arrived, by colour; null forgets it, colours left out stay as they are. */
  arrivedBy: z.partialRecord(ColourSchema, ArrivedBySchema.nullable()).optional(),
  /** Colours that are in play: the others are left out of the answer. */
  inPlay: z.array(ColourSchema).min(1).optional(),
  /** Number of an earlier revision whose balls and question come back, exactly, as a new revision. */
  restore: z.int().positive().optional(),
  game: IdSchema.nullable().optional(),
  spot: IdSchema.nullable().optional(),
  note: plainText(500).nullable().optional(),
  /** The revision the correction was made on; another one is a conflict (409). */
  revision: z.int().positive().optional(),
});
export type Corrections = z.output<typeof CorrectionsSchema>;

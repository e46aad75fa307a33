import { z } from 'zod';
import { ColourSchema, DEFAULT_CERTAINTY, HoopScoredSchema, LawnSchema } from './marks.ts';
import { LIES, LineSchema } from './reading.ts';

/** Editions of the rules that Sward knows: the 6th of 2022 and the 4th of 2013. */
export const EDITIONS = ['2022', '2013'] as const;
export type EditionName = (typeof EDITIONS)[number];
export const EditionSchema = z.enum(EDITIONS);

/** The two sides of a game, named by the first ball each plays. */
const SideOfBallSchema = z.union([z.boolean(), z.string()]);

/** How a ball came to rest where it is. Everything unknown is left out. */
export const ArrivedBySchema = z.object({
  /** The ball that was struck in the stroke. */
  strokeOf: ColourSchema.optional(),
  /** Balls that touched this ball in it. */
  touched: z.array(ColourSchema).optional(),
  /** Whether that stroke was the scoring stroke itself. */
  thisTurn: z.boolean().optional(),
  /** The side, or its ball, whose fault or wrong play put it there. */
  faultOf: SideOfBallSchema.optional(),
  /** The penalty area to which it was directed. */
  directedTo: z.enum(['west', 'east']).optional(),
});
export type ArrivedBy = z.output<typeof ArrivedBySchema>;

/** A ball at rest: metres on the lawn, one standard deviation `sd` of its place across the line. */
export const RestingBallSchema = z.object({
  x: z.number(),
  y: z.number(),
  sd: z.number().min(0).default(0),
  arrivedBy: ArrivedBySchema.optional(),
});

/** The question whether balls are offside. */
export const OffsideQuestionSchema = z.object({
  kind: z.literal('offside'),
  edition: EditionSchema.default('2022'),
  hoopScored: HoopScoredSchema,
  striker: ColourSchema.optional(),
  certainty: z.number().min(0.5).lt(1).default(DEFAULT_CERTAINTY),
  lawn: LawnSchema.prefault({}),
  balls: z.partialRecord(ColourSchema, RestingBallSchema),
});

/** The question what follows when a wrong ball was played. */
export const WrongBallQuestionSchema = z.object({
  kind: z.literal('wrongBall'),
  edition: EditionSchema.default('2022'),
  format: z.enum(['singles', 'doubles']),
  colours: z.enum(['primary', 'secondary']),
  lastRight: ColourSchema.nullable(),
  opening: z.boolean().default(false),
  strokes: z.array(z.object({ player: ColourSchema, ball: ColourSchema })).min(1),
});

/** A question to the rules alone. */
export const QuestionSchema = z.discriminatedUnion('kind', [OffsideQuestionSchema, WrongBallQuestionSchema]);
export type Question = z.output<typeof QuestionSchema>;

/** Verdicts on one ball after a point was scored. */
export const OFFSIDE_VERDICTS = ['onside', 'offside', 'excused', 'tooClose', 'historyNeeded'] as const;

/** Verdict on one ball, with its measured margin, the rule and the reason. */
export const BallVerdictSchema = z.object({
  colour: ColourSchema,
  beyond: z.number(),
  sd: z.number(),
  lies: z.enum(LIES),
  verdict: z.enum(OFFSIDE_VERDICTS),
  reason: z.string(),
  rule: z.string(),
});
export type BallVerdict = z.output<typeof BallVerdictSchema>;

/** Answer to the question whether balls are offside. */
export const OffsideAnswerSchema = z.object({ line: LineSchema, balls: z.array(BallVerdictSchema) });
export type OffsideAnswer = z.output<typeof OffsideAnswerSchema>;

/** What may follow a wrong ball. */
export const WRONG_BALL_OUTCOMES = [
  'replaceAndReplay',
  'opponentsChoose',
  'annulled',
  'stands',
  'referee',
] as const;

/** Answer to the question what follows when a wrong ball was played. */
export const WrongBallAnswerSchema = z.looseObject({
  wrong: z.boolean(),
  outcome: z.enum(WRONG_BALL_OUTCOMES).nullish(),
  options: z.array(z.unknown()),
  putBack: z.boolean(),
  pointsCount: z.boolean(),
  next: z.looseObject({ balls: z.array(ColourSchema) }),
  rule: z.string(),
  explanation: z.string(),
});

/** The answer to either question. */
export const AnswerSchema = z.union([OffsideAnswerSchema, WrongBallAnswerSchema]);
export type Answer = z.output<typeof AnswerSchema>;

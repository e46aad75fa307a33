import { z } from 'zod';
import { type BallColour, FIRST_COLOURS, SECOND_COLOURS } from '../lawn/colours.ts';
import { ColourSchema, DEFAULT_CERTAINTY, LawnSchema } from './marks.ts';
import { LIES, LineSchema } from './reading.ts';

/** Editions of the rules that Sward knows: the 6th of 2022 and the 4th of 2013. */
export const EDITIONS = ['2022', '2013'] as const;
export type EditionName = (typeof EDITIONS)[number];
export const EditionSchema = z.enum(EDITIONS);

/** How a ball came to rest where it is. Everything unknown is left out. */
export const ArrivedBySchema = z.object({
  /** The ball that was struck in the stroke. */
  strokeOf: ColourSchema.optional(),
  /** Balls that touched this ball in it. */
  touched: z.array(ColourSchema).optional(),
  /** Whether that stroke was the scoring stroke itself. */
  thisTurn: z.boolean().optional(),
  /** A ball of the side whose fault or wrong play put it there. */
  faultOf: ColourSchema.optional(),
  /** The penalty area to which it was directed. */
  directedTo: z.enum(['west', 'east']).optional(),
});
export type ArrivedBy = z.output<typeof ArrivedBySchema>;

/** A ball at rest: metres on the lawn, one standard deviation `sd` of its place across the line; without `sd` the place counts as exact. */
export const RestingBallSchema = z.object({
  x: z.number(),
  y: z.number(),
  sd: z.number().min(0).default(0),
  arrivedBy: ArrivedBySchema.optional(),
});

/** Points for which a game is played at most. */
export const GameLengthSchema = z.union([z.literal(7), z.literal(13), z.literal(19)]);

const isFirst = (ball: BallColour): boolean => (FIRST_COLOURS as readonly BallColour[]).includes(ball);
const oneSet = (balls: readonly BallColour[]): boolean => new Set(balls.map(isFirst)).size <= 1;

/** The question whether balls are offside. Without `striker` the scoring stroke excuses only the balls marked `thisTurn`. */
export const OffsideQuestionSchema = z
  .object({
    kind: z.literal('offside'),
    edition: EditionSchema.default('2022'),
    hoopScored: z.int().min(1).max(19),
    points: GameLengthSchema.default(13),
    striker: ColourSchema.optional(),
    certainty: z.number().min(0.5).lt(1).default(DEFAULT_CERTAINTY),
    lawn: LawnSchema.prefault({}),
    balls: z.partialRecord(ColourSchema, RestingBallSchema),
  })
  .superRefine((question, context) => {
    const { hoopScored, points, striker, balls } = question;
    const refuse = (path: string, code: string, message: string) =>
      context.addIssue({ code: 'custom', path: [path], message, params: { code } });
    if (hoopScored > points)
      refuse(
        'hoopScored',
        'no-such-hoop',
        `Hoop ${hoopScored} was named as scored, but the points of this game are 1 to ${points}; give the point that was scored.`,
      );
    if (hoopScored === points)
      refuse(
        'hoopScored',
        'last-hoop',
        `Hoop ${hoopScored} is the last of a game of ${points} points: the game is over, no halfway line follows, and no ball is offside; give a point from 1 to ${points - 1}.`,
      );
    const named = Object.keys(balls) as BallColour[];
    if (!oneSet(striker ? [...named, striker] : named))
      refuse(
        'balls',
        'mixed-colours',
        'The balls are of both sets, but a game is played with the first or the second colours; ask about one game at a time.',
      );
  });

/** Names of the two sets of colours: `primary` is the same as `first`, `secondary` as `second`. */
export const COLOUR_SET_NAMES = ['primary', 'secondary', 'first', 'second'] as const;

/** The question what follows when a wrong ball was played. */
export const WrongBallQuestionSchema = z
  .object({
    kind: z.literal('wrongBall'),
    edition: EditionSchema.default('2022'),
    format: z.enum(['singles', 'doubles']),
    colours: z.enum(COLOUR_SET_NAMES),
    /** The ball last played rightly; null at the start. */
    lastRight: ColourSchema.nullable(),
    /** Whether the game is in its first four turns. */
    opening: z.boolean().default(false),
    /** What was played since, in order; a player is named by the ball that is theirs. */
    strokes: z.array(z.object({ player: ColourSchema, ball: ColourSchema })),
  })
  .superRefine(({ colours, lastRight, strokes }, context) => {
    const first = colours === 'primary' || colours === 'first';
    const named = [
      ...(lastRight ? [lastRight] : []),
      ...strokes.flatMap(({ player, ball }) => [player, ball]),
    ];
    const foreign = named.find((ball) => isFirst(ball) !== first);
    if (foreign)
      context.addIssue({
        code: 'custom',
        path: ['colours'],
        message: `${foreign} is not one of the ${first ? 'first' : 'second'} colours (${(first ? FIRST_COLOURS : SECOND_COLOURS).join(', ')}) that "colours" names; use one set throughout.`,
        params: { code: 'mixed-colours' },
      });
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
  probability: z.number().optional(),
  lies: z.enum(LIES),
  verdict: z.enum(OFFSIDE_VERDICTS),
  /** The ground of the verdict, stable. */
  code: z.string().optional(),
  reason: z.string(),
  rule: z.string(),
});
export type BallVerdict = z.output<typeof BallVerdictSchema>;

/** Answer to the question whether balls are offside. */
export const OffsideAnswerSchema = z.object({
  edition: EditionSchema.optional(),
  line: LineSchema,
  balls: z.array(BallVerdictSchema),
});
export type OffsideAnswer = z.output<typeof OffsideAnswerSchema>;

/** What may follow a wrong ball. */
export const WRONG_BALL_OUTCOMES = [
  'replaceAndReplay',
  'opponentsChoose',
  'annulled',
  'stands',
  'referee',
] as const;

/** Ways between which the opponents choose: the first two in the 6th edition, the last two in the 4th. */
export const WRONG_BALL_OPTIONS = ['replaceAndReplay', 'ballSwap', 'leave', 'putBack'] as const;

/** What one choice brings. */
export const WrongBallChoiceSchema = z.object({
  option: z.enum(WRONG_BALL_OPTIONS),
  putBack: z.boolean(),
  pointsCount: z.boolean(),
  next: z.array(ColourSchema),
});

/**
 * Answer to the question what follows when a wrong ball was played. `putBack`: balls go back, or go back if the opponents so choose;
 * `pointsCount`: points count whatever is chosen; `next`: the balls one of which is played next, empty when a referee decides.
 */
export const WrongBallAnswerSchema = z.object({
  edition: EditionSchema.optional(),
  wrong: z.boolean(),
  outcome: z.enum(WRONG_BALL_OUTCOMES),
  options: z.array(z.enum(WRONG_BALL_OPTIONS)),
  choices: z.array(WrongBallChoiceSchema).optional(),
  putBack: z.boolean(),
  pointsCount: z.boolean(),
  next: z.object({ balls: z.array(ColourSchema) }),
  code: z.string().optional(),
  rule: z.string(),
  explanation: z.string(),
});
export type WrongBallAnswer = z.output<typeof WrongBallAnswerSchema>;

/** The answer to either question. */
export const AnswerSchema = z.union([OffsideAnswerSchema, WrongBallAnswerSchema]);
export type Answer = z.output<typeof AnswerSchema>;

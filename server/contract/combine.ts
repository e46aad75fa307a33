import { z } from 'zod';
import { IdSchema } from './identifiers.ts';
import { ColourSchema, HoopScoredSchema, ImagePairSchema } from './marks.ts';
import { CallSchema, FoundBallSchema, WarningSchema } from './reading.ts';

/** Most pictures of one position that are combined. */
export const MOST_PICTURES = 8;

/** Asks for one answer from several stored readings of balls that have not moved. */
export const CombinationRequestSchema = z.object({
  readings: z.array(IdSchema).min(2).max(MOST_PICTURES),
  /** The point just scored; what the readings agree on when it is left out, no call when null. */
  hoopScored: HoopScoredSchema.nullable().optional(),
});

/** How far a ball's image in one picture lies from where all pictures together put it: px, and standard deviations. */
export const MisfitSchema = z.object({
  /** Number of the picture in the order given, from 0. */
  picture: z.int().min(0),
  colour: ColourSchema,
  px: z.number(),
  deviations: z.number(),
  /** Whether it is beyond what chance explains. */
  fits: z.boolean(),
});
export type CombinedMisfit = z.output<typeof MisfitSchema>;

/** A ball placed from all pictures that show it: metres on the lawn. */
export const CombinedBallSchema = FoundBallSchema.pick({
  colour: true,
  x: true,
  y: true,
  sdX: true,
  sdY: true,
  correlation: true,
  confidence: true,
  visible: true,
}).extend({
  /** Where each picture shows its centre, px of that picture. */
  seen: z.array(z.object({ picture: z.int().min(0), image: ImagePairSchema })).min(1),
  /** False when the pictures contradict each other about this ball. */
  fits: z.boolean(),
});
export type CombinedBall = z.output<typeof CombinedBallSchema>;

/** Several pictures of one position, read together. */
export const CombinationSchema = z.object({
  pictures: z.array(
    z.object({
      /** What the picture is called in warnings. */
      name: z.string(),
      kind: z.enum(['lawn', 'sighting']),
      reading: IdSchema.optional(),
    }),
  ),
  /** Probability from which a call is firm: the largest that the pictures were read with. */
  certainty: z.number(),
  balls: z.array(CombinedBallSchema),
  missing: z.array(ColourSchema),
  call: CallSchema.optional(),
  misfits: z.array(MisfitSchema),
  /** Sum of the weighted squares of what does not fit, its degrees of freedom and the probability of a larger one by chance. */
  agreement: z.object({ chiSquare: z.number(), degrees: z.number(), probability: z.number() }),
  warnings: z.array(WarningSchema),
});
export type Combination = z.output<typeof CombinationSchema>;

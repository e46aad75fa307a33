import { z } from 'zod';
import { CheckedPlaceSchema } from './checked-places.ts';
import { InstantSchema } from './identifiers.ts';
import { ColourSchema, ImagePairSchema } from './marks.ts';
import { BallCallSchema, BudgetSchema, LineSchema, PoseSchema, WarningSchema } from './reading.ts';

const SpreadSchema = z.object({ sdX: z.number(), sdY: z.number() });
const ContributionSchema = z.object({ sd: z.number(), shift: z.number() });
/**
 * What the height of the phone, its offset aside, its roll and its lens do to one ball's `beyond`, metres. `sd`: how far it follows one standard deviation of the
 * quantity; `shift`: how far off it would be if the quantity were neglected.
 */
export const ContributionsSchema = z.object({
  height: ContributionSchema,
  aside: ContributionSchema,
  roll: ContributionSchema,
  lens: ContributionSchema,
});
export type Contributions = z.output<typeof ContributionsSchema>;

/** Answer of a sighting picture: taken behind one end of the halfway line towards the other. */
export const SightingSchema = z.object({
  line: LineSchema,
  balls: z.array(
    BallCallSchema.extend({
      image: ImagePairSchema,
      /** Place on the lawn, metres; along the line it is far less certain than across it. */
      x: z.number().optional(),
      y: z.number().optional(),
      /** Distance from the camera along the line, metres. */
      distance: z.number().optional(),
      sdX: z.number().optional(),
      sdY: z.number().optional(),
      correlation: z.number().optional(),
      /** Covariance of `image` from the fit alone: xx, xy, yy in px². */
      imageCovariance: z.tuple([z.number(), z.number(), z.number()]).optional(),
      confidence: z.number().optional(),
      /** Share of the outline that was seen. */
      visible: z.number().optional(),
      /** How the place was obtained: found in the picture, or put there by the user. */
      origin: z.enum(['found', 'placed']).optional(),
      budget: BudgetSchema.optional(),
      /**
       * A sighting follows no lines: the budget's `trace` is what is known without marks, here apart: how people hold a phone (`stance`), and the known size of the balls (`balls`). Standard
       * deviations of the two lawn coordinates, metres.
       */
      known: z.object({ stance: SpreadSchema, balls: SpreadSchema }).optional(),
      contributions: ContributionsSchema.optional(),
    }),
  ),
  /** Where the phone was: metres behind the near end, metres beside the line (towards the next hoop positive), metres above the ground, roll in degrees. */
  camera: z
    .object({
      end: z.string(),
      behind: z.number(),
      aside: z.number(),
      height: z.number(),
      roll: z.number(),
      focal: z.number(),
      residual: z.number(),
      rotation: z.array(z.number()).length(9),
      position: z.tuple([z.number(), z.number(), z.number()]),
      radial: z.tuple([z.number(), z.number()]),
      /** Distance in px from each mark, as measured, to where the solved camera sees that point. */
      marks: z.array(z.object({ name: z.string(), residual: z.number() })).optional(),
    })
    .optional(),
  photo: z.object({ width: z.number(), height: z.number() }).optional(),
  /** The court check by which the two ends were placed, when one was used. */
  checked: z.object({ at: InstantSchema, ends: z.array(CheckedPlaceSchema) }).optional(),
  missing: z.array(ColourSchema).optional(),
  warnings: z.array(WarningSchema),
  pose: PoseSchema.optional(),
});
export type Sighting = z.output<typeof SightingSchema>;

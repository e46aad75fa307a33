import { z } from 'zod';
import { ImagePairSchema } from './marks.ts';
import { BallCallSchema, BudgetSchema, LineSchema, WarningSchema } from './reading.ts';

/** Answer of a sighting picture: taken behind one end of the halfway line towards the other. */
export const SightingSchema = z.object({
  line: LineSchema,
  balls: z.array(
    BallCallSchema.extend({
      image: ImagePairSchema,
      /** Distance from the camera along the line, metres. */
      distance: z.number().optional(),
      confidence: z.number().optional(),
      budget: BudgetSchema.optional(),
    }),
  ),
  warnings: z.array(WarningSchema),
});
export type Sighting = z.output<typeof SightingSchema>;

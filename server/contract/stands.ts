import { z } from 'zod';
import { LawnSchema } from './marks.ts';
import { LineSchema } from './reading.ts';

/** Asks from where a call on the line after `hoopScored` can be settled, with the camera `height` metres above the lawn. */
export const StandsRequestSchema = z.object({
  hoopScored: z.int().min(1).max(12),
  height: z.number().min(0.5).max(60),
  lawn: LawnSchema.prefault({}),
});
export type StandsRequest = z.output<typeof StandsRequestSchema>;

/** A place to stand (metres) and the standard deviation of `beyond` to expect there for the worst ball on the line, metres. */
export const StandSchema = z.object({ x: z.number(), y: z.number(), sd: z.number() });

/** Places around the lawn on a grid of `step` metres, and the best of them. */
export const StandsSchema = z.object({
  line: LineSchema,
  height: z.number(),
  step: z.number(),
  cells: z.array(StandSchema),
  best: StandSchema,
});
export type Stands = z.output<typeof StandsSchema>;

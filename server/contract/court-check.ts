import { z } from 'zod';
import { WarningSchema } from './reading.ts';

/** Default tolerance of a court's setting, metres. From memory; clubs and events set their own. */
export const DEFAULT_TOLERANCE = 0.15;

/** One boundary marker: `along` its boundary, metres, east or north positive. */
export const MarkerCheckSchema = z.object({
  name: z.string(),
  along: z.number().nullable(),
  sd: z.number().nullable(),
  within: z.boolean().nullable(),
});
/** A hoop or the peg: displacement east (`dx`) and north (`dy`), metres. */
export const PlaceCheckSchema = z.object({
  dx: z.number().nullable(),
  dy: z.number().nullable(),
  sd: z.number().nullable(),
  within: z.boolean().nullable(),
});
/** Answer of a court check. */
export const CourtCheckSchema = z.object({
  tolerance: z.number(),
  markers: z.array(MarkerCheckSchema),
  hoops: z.array(PlaceCheckSchema.extend({ name: z.string() })),
  peg: PlaceCheckSchema,
  warnings: z.array(WarningSchema),
});
export type CourtCheck = z.output<typeof CourtCheckSchema>;

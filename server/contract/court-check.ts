import { z } from 'zod';
import { SIDES } from '../lawn/court.ts';
import { CameraSchema, WarningSchema } from './reading.ts';

/** Default tolerance of a court's setting, metres. From memory; clubs and events set their own. */
export const DEFAULT_TOLERANCE = 0.15;

/** One boundary marker: `along` its boundary, metres, east or north positive. */
export const MarkerCheckSchema = z.object({
  name: z.string(),
  along: z.number().nullable(),
  sd: z.number().nullable(),
  within: z.boolean().nullable(),
});
/** A hoop or the peg: displacement east (`dx`) and north (`dy`), metres; `sd` is that of the least certain direction. */
export const PlaceCheckSchema = z.object({
  dx: z.number().nullable(),
  dy: z.number().nullable(),
  sd: z.number().nullable(),
  sdX: z.number().optional(),
  sdY: z.number().optional(),
  distance: z.number().optional(),
  sdDistance: z.number().optional(),
  within: z.boolean().nullable(),
});
/** Answer of a court check. */
export const CourtCheckSchema = z.object({
  tolerance: z.number(),
  markers: z.array(MarkerCheckSchema),
  hoops: z.array(
    PlaceCheckSchema.extend({
      name: z.string(),
      /** Out of the parallel to the short boundaries, anticlockwise from above, and out of the upright towards the north: degrees. */
      turn: z.number().optional(),
      sdTurn: z.number().optional(),
      lean: z.number().optional(),
      sdLean: z.number().optional(),
    }),
  ),
  peg: PlaceCheckSchema,
  /** Width of the paint where both its edges were seen, metres. */
  paint: z.array(z.object({ side: z.enum(SIDES), width: z.number() })).optional(),
  /**
   * Whether the boundary is a true rectangle: diagonal from corner 1 to 3 minus that from 2 to 4, and the width's excess over the stated one when the length
   * is right, metres, with their standard deviations. Null when the picture does not tell.
   */
  squareness: z
    .object({ diagonals: z.number(), diagonalsSd: z.number(), width: z.number(), widthSd: z.number() })
    .nullable()
    .optional(),
  /** What a taped distance says of the scale: measured in the picture ÷ taped, with its standard deviation. */
  scale: z.object({ ratio: z.number(), sd: z.number() }).nullable().optional(),
  /** Size of the upright photo in px, and the camera that sees the court's proper places and what was found on it. */
  photo: z.object({ width: z.number(), height: z.number() }).optional(),
  camera: CameraSchema.optional(),
  warnings: z.array(WarningSchema),
});
export type CourtCheck = z.output<typeof CourtCheckSchema>;

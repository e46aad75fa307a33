import { z } from 'zod';
import { BALL_COLOURS } from '../lawn/colours.ts';
import { STANDARD_COURT } from '../lawn/court.ts';
import { POINT_NAMES } from '../lawn/named-points.ts';
import { CheckedPlacesSchema } from './checked-places.ts';
import { IdSchema } from './identifiers.ts';

/** A position in the upright photo: [x, y] in px, origin at the top-left corner of the top-left pixel. */
export const ImagePairSchema = z.tuple([z.number(), z.number()]);

/** A ball's colour by name. */
export const ColourSchema = z.enum(BALL_COLOURS);

/** The point just scored, 1 to 13. */
export const HoopScoredSchema = z.int().min(1).max(13);

/** Default certainty above which a call is firm. */
export const DEFAULT_CERTAINTY = 0.99;
/** Default unevenness of the lawn, one standard deviation of its height, metres. */
export const DEFAULT_UNEVENNESS = 0.005;

/** Size of the lawn between the inner edges of its boundary and its unevenness, metres. */
export const LawnSchema = z.object({
  width: z.number().min(5).max(60).default(STANDARD_COURT.width),
  length: z.number().min(5).max(60).default(STANDARD_COURT.length),
  unevenness: z.number().min(0).max(0.1).default(DEFAULT_UNEVENNESS),
});

/** What the user marked on a photo, and what is asked of it. */
export const MarksSchema = z.object({
  points: z.partialRecord(z.enum(POINT_NAMES), ImagePairSchema),
  hoopScored: HoopScoredSchema.optional(),
  balls: z
    .array(ColourSchema)
    .min(1)
    .default([...BALL_COLOURS]),
  certainty: z.number().min(0.5).lt(1).default(DEFAULT_CERTAINTY),
  /** `id`: which of the club's lawns it is. */
  lawn: LawnSchema.extend({ id: IdSchema.optional() }).prefault({}),
  /** A sighting: where a court check found the markers. The service fills it in for a lawn with a kept check. */
  checked: CheckedPlacesSchema.optional(),
  /** A sighting: false takes the two marked ends for the line, whatever a check found. */
  useChecked: z.boolean().optional(),
  /** A sighting: the ball to be judged, where a finger tapped it. */
  tap: ImagePairSchema.optional(),
  /** Tolerance of a court check, metres. */
  tolerance: z.number().min(0.001).max(2).optional(),
  /** A distance taped on the lawn between two things of a court check, metres. */
  taped: z
    .object({ from: z.enum(POINT_NAMES), to: z.enum(POINT_NAMES), distance: z.number().min(0.5).max(80) })
    .optional(),
});
/** Checked marks, with every default filled in. */
export type Marks = z.output<typeof MarksSchema>;
/** Marks as a file or a request may hold them. */
export type MarksInput = z.input<typeof MarksSchema>;

import { z } from 'zod';
import { SIDES } from '../lawn/court.ts';
import { CORNER_NAMES, POINT_NAMES } from '../lawn/named-points.ts';
import { IdSchema, InstantSchema } from './identifiers.ts';
import { ImagePairSchema, MarksSchema } from './marks.ts';

/** Largest upload in bytes: 60 MB. */
export const LARGEST_UPLOAD = 60_000_000;

/** A stored photo: size in px of the upright picture, and what its own data say about the camera. */
export const PhotoSchema = z.object({
  id: IdSchema,
  createdAt: InstantSchema,
  width: z.int().positive(),
  height: z.int().positive(),
  /** Format of the original file: jpeg, png, webp, tiff, avif or heic. */
  format: z.string(),
  /** Size of the original file. */
  bytes: z.int().positive(),
  /** Focal length as its 35 mm equivalent, mm. */
  focal35: z.number().nullable(),
  /** The same in px of the upright picture. */
  focalPixels: z.number().nullable(),
  /** When the picture was taken by the camera's own clock, which knows no time zone. */
  takenAt: z.string().nullable(),
});
export type Photo = z.output<typeof PhotoSchema>;

/** Asks for the boundary lines near the marks of a stored photo. */
export const TraceRequestSchema = z.object({ photoId: IdSchema, marks: MarksSchema });

/** The boundary lines as found, px: the crossings at the corners, and points along each side. */
export const TraceSchema = z.object({
  corners: z.partialRecord(z.enum(CORNER_NAMES), ImagePairSchema),
  sides: z.partialRecord(
    z.enum(SIDES),
    z.object({
      /** Share of the side's visible length on which its edge was found. */
      share: z.number(),
      points: z.array(ImagePairSchema),
    }),
  ),
});
export type Trace = z.output<typeof TraceSchema>;

/** Asks for the page's own guess of the corners. */
export const GuessRequestSchema = z.object({
  photoId: IdSchema,
  /** The spot from which it was taken: its last picture is followed. */
  spot: IdSchema.optional(),
});

/** A guess of marked points from the white lines alone, px; null when none is worth showing. */
export const GuessSchema = z.object({
  points: z.partialRecord(z.enum(POINT_NAMES), ImagePairSchema).nullable(),
  message: z.string(),
  /** Whether the spot's last picture was followed. */
  followed: z.boolean().default(false),
});
export type Guess = z.output<typeof GuessSchema>;

/** A sample picture with prepared marks. */
export const SampleSchema = z.object({
  name: z.string(),
  title: z.string(),
  kind: z.enum(['lawn', 'sighting', 'check']),
  photo: z.string(),
  marks: MarksSchema,
});
export type Sample = z.output<typeof SampleSchema>;

/** A sample made an ordinary photo. */
export const TakenSampleSchema = z.object({ photoId: IdSchema, marks: MarksSchema });

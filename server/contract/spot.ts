import { z } from 'zod';
import { IdSchema, InstantSchema, plainText } from './identifiers.ts';
import { LawnSchema, MarksSchema } from './marks.ts';

/** A named place from which pictures are taken, with the marks of the last one. */
export const SpotSchema = z.object({
  id: IdSchema,
  name: plainText(80),
  marks: MarksSchema.nullable(),
  /** Size of the photo the marks belong to, px; marks carry over to a photo of the same shape only. */
  photo: z.object({ width: z.int().positive(), height: z.int().positive() }).nullable(),
  createdAt: InstantSchema,
  updatedAt: InstantSchema,
});
export type Spot = z.output<typeof SpotSchema>;

/** What a client may say about a spot. */
export const SpotInputSchema = z.object({
  name: SpotSchema.shape.name,
  marks: SpotSchema.shape.marks.default(null),
  photo: SpotSchema.shape.photo.default(null),
});
/** Changes to a spot; what is left out stays. */
export const SpotChangeSchema = z.object({
  name: SpotSchema.shape.name.optional(),
  marks: SpotSchema.shape.marks.optional(),
  photo: SpotSchema.shape.photo.optional(),
});

/** A lawn of the club: its size between the inner edges and its unevenness, metres, and its last check. */
export const ClubLawnSchema = z.object({
  id: IdSchema,
  name: plainText(80),
  width: LawnSchema.shape.width,
  length: LawnSchema.shape.length,
  unevenness: LawnSchema.shape.unevenness,
  /** The record of its last court check. */
  check: z.object({ id: IdSchema, at: InstantSchema }).nullable(),
  createdAt: InstantSchema,
  updatedAt: InstantSchema,
});
export type ClubLawn = z.output<typeof ClubLawnSchema>;

/** What a client may say about a lawn. */
export const LawnInputSchema = z.object({
  name: ClubLawnSchema.shape.name,
  width: LawnSchema.shape.width,
  length: LawnSchema.shape.length,
  unevenness: LawnSchema.shape.unevenness,
  check: ClubLawnSchema.shape.check.default(null),
});
/** Changes to a lawn; what is left out stays. */
export const LawnChangeSchema = z.object({
  name: ClubLawnSchema.shape.name.optional(),
  width: LawnSchema.shape.width.unwrap().optional(),
  length: LawnSchema.shape.length.unwrap().optional(),
  unevenness: LawnSchema.shape.unevenness.unwrap().optional(),
  check: ClubLawnSchema.shape.check.optional(),
});

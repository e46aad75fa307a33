import { z } from 'zod';
import { InstantSchema } from './identifiers.ts';

/** Names of the boundary markers in a court check: the marks' names without "marker". */
export const CHECKED_NAMES = ['W', 'E', 'S10.5', 'S14', 'S17.5', 'N10.5', 'N14', 'N17.5'] as const;

/** One marker as a court check found it: `along` its boundary from its proper place, metres, east or north positive, with its standard deviation. */
export const CheckedPlaceSchema = z.object({
  name: z.enum(CHECKED_NAMES),
  along: z.number().min(-5).max(5),
  sd: z.number().positive().max(5),
});
export type CheckedPlace = z.output<typeof CheckedPlaceSchema>;

/** Where a court check found the markers, and when. A sighting measures against the proper line from them, instead of taking the two marked ends for the line. */
export const CheckedPlacesSchema = z.object({
  at: InstantSchema,
  markers: z.array(CheckedPlaceSchema).max(CHECKED_NAMES.length),
});
export type CheckedPlaces = z.output<typeof CheckedPlacesSchema>;

import { type Metres, metres } from '../../units/numbers.ts';

/** Width of a painted line before it is measured: 25 to 60 mm, common practice, no source. Mean and standard deviation, m. */
export const PAINT_WIDTH_PRIOR = { mean: 0.042, sd: 0.012 } as const;

/** Standard deviation (m) of the middle of a painted band about its smooth line: each edge is ragged by some ±6 mm (common practice, no source), the two independently. */
export const RAGGED_MIDDLE = 0.006 / Math.SQRT2;

/** Blur of a sharp phone picture in px, one standard deviation, the pixel's own size included, and how far pictures differ. */
export const BLUR_PRIOR = { mean: 0.7, sd: 0.4 } as const;

/** Thickness of a string, m: mean and standard deviation. */
export const STRING_PRIOR = { mean: 0.0035, sd: 0.0015 } as const;

/**
 * Height of the paint that is seen, above the ground on which the balls stand, m. Lawns for this game are mown at some 6 mm (common
 * practice, no source); a ball rides on the tips while paint is seen from the tips down to half the blades' length, so it lies 0 to 3 mm
 * below: half of that, give or take as much. One mm moves a reading by 1 mm × distance / camera height; the allowance for the lawn's unevenness covers what is left.
 */
export const PAINT_HEIGHT: Metres = metres(-0.0015);

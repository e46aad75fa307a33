import { InputError } from '../errors.ts';

/** What a photo may be at most and at least. Sizes in px, bytes as stored. */
export type PhotoLimits = { readonly maxBytes: number; readonly maxPixels: number; readonly minSide: number };

const MEGA = 1e6;

/**
 * Limits of this program: 60 MB keeps an upload within a minute on a club's network, 120 MP is a decoded picture of 360 MB, and under 200 px
 * a side a ball on a whole lawn is smaller than a third of a pixel.
 */
export const PHOTO_LIMITS: PhotoLimits = { maxBytes: 60 * MEGA, maxPixels: 120 * MEGA, minSide: 200 };

const mega = (value: number): string => (value / MEGA).toFixed(1).replace(/\.0$/, '');
const grouped = (value: number): string => value.toLocaleString('en-GB');

/** Refuses a file of no bytes or of more than the limit. */
export const checkBytes = (length: number, limits: PhotoLimits): void => {
  if (length === 0) {
    throw new InputError('photo-empty', 'The photo is empty (0 bytes): choose the file again.');
  }
  if (length > limits.maxBytes) {
    throw new InputError(
      'photo-too-heavy',
      `The photo has ${mega(length)} MB and at most ${mega(limits.maxBytes)} MB are taken: save it with stronger compression or fewer pixels.`,
      413,
    );
  }
};

/** Refuses a picture whose header states too many pixels, or too few. `width` and `height` in px. */
export const checkDimensions = (width: number, height: number, limits: PhotoLimits): void => {
  const size = `${grouped(width)} × ${grouped(height)} px`;
  if (width * height > limits.maxPixels) {
    throw new InputError(
      'photo-too-large',
      `The photo is ${size} (${mega(width * height)} megapixels) and at most ${mega(limits.maxPixels)} are taken: send it with fewer pixels.`,
      413,
    );
  }
  if (Math.min(width, height) < limits.minSide) {
    throw new InputError(
      'photo-too-small',
      `The photo is ${size} and each side needs at least ${limits.minSide} px: send the original instead of a preview.`,
    );
  }
};

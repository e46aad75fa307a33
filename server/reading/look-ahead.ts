import type { Camera } from '../camera/types.ts';
import type { Court } from '../lawn/court.ts';
import type { Raster } from '../units/raster.ts';
import { type FirstLook, firstLook, LOOK_AHEAD } from '../vision/balls/first-look.ts';
import type { ShareFits } from '../vision/balls/fit-work.ts';

/** A first look that has begun. */
export type Looking = {
  /** Tells that all rows of the picture are there. */
  readonly complete: () => void;
  /** Tells that the rest of the picture will never come. */
  readonly giveUp: () => void;
  /** Waits for its end. */
  readonly end: () => FirstLook | null;
  /** Takes a share of the fits that come after it; null when there is nobody to share with. */
  readonly share: ShareFits | null;
};

/** Begins a first look at a picture with a camera that is not final yet. The first `rows` rows of the picture are there, all when not given. */
export type LookAhead = (raster: Raster, camera: Camera, court: Court, rows?: number) => Looking;

/** Looks in this thread, when the look's end is asked for. */
export const lookHere: LookAhead = (raster, camera, court) => ({
  complete: () => {},
  giveUp: () => {},
  end: () => firstLook(raster, camera, court, LOOK_AHEAD),
  share: null,
});

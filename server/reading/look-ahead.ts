import type { Camera } from '../camera/types.ts';
import type { Court } from '../lawn/court.ts';
import type { Raster } from '../units/raster.ts';
import { type FirstLook, firstLook, LOOK_AHEAD } from '../vision/balls/first-look.ts';

/** Begins a first look with a camera that is not final yet; what it returns waits for its end. */
export type LookAhead = (raster: Raster, camera: Camera, court: Court) => () => FirstLook | null;

/** Looks in this thread, when the look is asked for. */
export const lookHere: LookAhead = (raster, camera, court) => () =>
  firstLook(raster, camera, court, LOOK_AHEAD);

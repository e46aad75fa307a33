import type { MessagePort } from 'node:worker_threads';
import type { Camera } from '../camera/types.ts';
import type { Court } from '../lawn/court.ts';
import type { Raster } from '../units/raster.ts';
import type { FirstLook } from '../vision/balls/first-look.ts';

/** What a thread for first looks is opened with: `done` holds the number of the last look that it ended. */
export type LookPost = { readonly port: MessagePort; readonly done: Int32Array<SharedArrayBuffer> };

/** A look to be taken; looks are numbered from 1. The picture's pixels are shared, not copied again. */
export type LookTask = {
  readonly number: number;
  readonly raster: Raster;
  readonly camera: Camera;
  readonly court: Court;
};

/** How a look ended. */
export type LookAnswer =
  | { readonly number: number; readonly ok: true; readonly look: FirstLook | null }
  | { readonly number: number; readonly ok: false };

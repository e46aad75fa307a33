import type { MessagePort } from 'node:worker_threads';
import type { Camera } from '../camera/types.ts';
import type { Court } from '../lawn/court.ts';
import type { Raster } from '../units/raster.ts';
import type { FirstFit, Sieved } from '../vision/balls/first-look.ts';
import type { FitWork, MadeOf } from '../vision/balls/fit-work.ts';

/** Counters that both threads share. */
export const COUNTERS = {
  /** Messages that the second thread has posted. */
  posted: 0,
  /** The next rank of the sieved places, or index of the balls, that nobody has fitted yet. */
  rank: 1,
  /** Rows of the last look's picture that are there, or GIVEN_UP. */
  rows: 2,
} as const;
/** The rest of the picture will never come. */
export const GIVEN_UP = -1;
export type Counters = Int32Array<SharedArrayBuffer>;

/** What a second thread is opened with. */
export type LookPost = { readonly port: MessagePort; readonly counters: Counters };

/**
 * Something to be done; tasks are numbered from 1. A look is answered twice: by the sieved places, whose first fits both threads then take in turn, and by those
 * fits that the second thread took. Fits are about the picture of the last look. Pixels are shared, not copied again; rows may come while it is looked at.
 */
export type LookTask =
  | {
      readonly kind: 'look';
      readonly number: number;
      readonly raster: Raster;
      readonly camera: Camera;
      readonly court: Court;
    }
  | { readonly kind: 'fits'; readonly number: number; readonly work: FitWork };

/** What a thread answers to task `number`. */
export type LookAnswer = { readonly number: number } & (
  | { readonly kind: 'sieved'; readonly sieved: Sieved | null }
  | { readonly kind: 'first'; readonly firsts: readonly FirstFit[] }
  | { readonly kind: 'fits'; readonly made: readonly MadeOf[] }
  | { readonly kind: 'failed' }
);

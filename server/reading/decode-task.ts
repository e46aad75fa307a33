import type { Raster } from '../units/raster.ts';

/** A photo to be decoded into `raster`'s memory, which threads share; tasks are numbered from 1. */
export type DecodeTask = { readonly number: number; readonly bytes: Uint8Array; readonly raster: Raster };

/** How a photo is at fault: an error loses its code on the way between threads. */
export type Fault = { readonly code: string; readonly message: string; readonly status: number };

/** What a thread answers to task `number`, twice: how many rows of the upper half are there, none when it failed; and that all are, unless the photo is at fault. */
export type DecodeAnswer = { readonly number: number } & (
  | { readonly part: 'upper'; readonly rows: number }
  | { readonly part: 'whole'; readonly fault: Fault | null }
);

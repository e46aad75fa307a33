import { randomUUID } from 'node:crypto';
import { MarksSchema } from '../../server/contract/marks.ts';
import type { Photo } from '../../server/contract/photo.ts';
import type { LawnRecord } from '../../server/contract/record.ts';
import type { Spot } from '../../server/contract/spot.ts';

/** The instant `minutes` after noon of an invented day, UTC. */
export const at = (minutes: number): string => new Date(Date.UTC(2026, 5, 20, 12, minutes)).toISOString();

export const photo = (changes: Partial<Photo> = {}): Photo => ({
  id: randomUUID(),
  createdAt: at(0),
  width: 3264,
  height: 2448,
  format: 'jpeg',
  bytes: 1_242_932,
  focal35: 26,
  focalPixels: 2357.25,
  takenAt: '2026-06-20T14:00:00',
  ...changes,
});

export const lawnRecord = (photoId: string, changes: Partial<LawnRecord> = {}): LawnRecord => ({
  id: randomUUID(),
  revision: 1,
  createdAt: at(1),
  updatedAt: at(1),
  kind: 'lawn',
  photoId,
  marks: MarksSchema.parse({ points: { corner1: [164.2, 1611.5] }, hoopScored: 1 }),
  game: null,
  spot: null,
  note: 'Fernbeck, lawn 2 — Wen Adair’s 7 yd ½ Ł',
  sentence: 'Blue is too close to call.',
  photo: { width: 3264, height: 2448 },
  camera: {
    position: [11.5, -19.5, 7.2],
    focal: 2357.3,
    radial: [0, 0],
    residual: 0.31,
    traced: { south: 0.97, west: 0.91, north: 0.64, east: 0.93 },
    rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
    marks: [],
  },
  balls: [
    {
      colour: 'blue',
      x: 22.24,
      y: 16.08,
      sdX: 0.004,
      sdY: 0.017,
      correlation: -0.1,
      image: [2218.2, 1264],
      confidence: 0.99,
    },
  ],
  missing: [],
  call: {
    hoopScored: 1,
    nextHoop: 2,
    line: { axis: 'y', at: 16.002, nextHoopSide: 1 },
    balls: [{ colour: 'blue', beyond: 0.034, sd: 0.017, probability: 0.977, lies: 'tooClose' }],
  },
  warnings: [],
  arrivedBy: {},
  verdict: null,
  ...changes,
});

export const spot = (name: string): Spot => ({
  id: randomUUID(),
  name,
  marks: null,
  photo: null,
  createdAt: at(0),
  updatedAt: at(0),
});

/** A game of which the beginning is kept. */
export const game = (id: string = randomUUID()) => ({
  id,
  createdAt: at(0),
  updatedAt: at(0),
  version: 1,
  title: 'Holm against Reyl',
  summary: { turns: 0 },
});

/** Its first event. */
export const begun = { number: 1, at: at(0), event: { type: 'begun' } };

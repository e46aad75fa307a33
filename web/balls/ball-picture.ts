import type { Camera } from '../../server/camera/types.ts';
import type { LawnRecord, SightingRecord } from '../../server/contract/record.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import type { Court } from '../../server/lawn/court.ts';
import { pixels } from '../../server/units/numbers.ts';
import { cameraOf, courtOfMarks } from '../perspective/reading-camera.ts';

/** A ball on a photo: px of the photo; place on the lawn, confidence of its colour and share seen where they are known. */
export type PicturedBall = {
  readonly colour: BallColour;
  readonly image: readonly [number, number];
  readonly x?: number | undefined;
  readonly y?: number | undefined;
  readonly origin?: 'found' | 'placed' | undefined;
  readonly confidence?: number | undefined;
  readonly visible?: number | undefined;
};

/** A photo whose balls can be corrected, whichever way it was taken. */
export type BallPicture = {
  readonly record: LawnRecord | SightingRecord;
  readonly size: { readonly width: number; readonly height: number };
  readonly camera: Camera;
  readonly court: Court;
  readonly line: SightingRecord['line'] | null;
  readonly balls: readonly PicturedBall[];
  readonly missing: readonly BallColour[];
  /** Where the way goes on, and what the button says. */
  readonly onward: { readonly to: string; readonly words: string };
};

const ofLawn = (record: LawnRecord): BallPicture => ({
  record,
  size: record.photo,
  camera: cameraOf(record),
  court: courtOfMarks(record.marks.lawn),
  line: record.call?.line ?? null,
  balls: record.balls,
  missing: record.missing,
  onward: { to: `/call/${record.id}`, words: record.call ? 'Make the call' : 'See the places' },
});

/** The camera of a sighting as it was solved; null for one kept by an older version without it. */
export const sightingCamera = ({ camera, photo }: SightingRecord): Camera | null =>
  camera && photo
    ? {
        position: camera.position,
        rotation: camera.rotation,
        radial: camera.radial,
        focal: pixels(camera.focal),
        width: pixels(photo.width),
        height: pixels(photo.height),
      }
    : null;

const ofSighting = (record: SightingRecord): BallPicture | null => {
  const camera = sightingCamera(record);
  if (!camera) return null;
  return {
    record,
    size: camera,
    camera,
    court: courtOfMarks(record.marks.lawn),
    line: record.line,
    balls: record.balls,
    missing: record.missing ?? [],
    onward: { to: `/court/sighting/${record.id}`, words: 'Make the call' },
  };
};

/** What the balls' screen needs of a record; null when its camera was not kept. */
export const ballPictureOf = (record: LawnRecord | SightingRecord): BallPicture | null =>
  record.kind === 'lawn' ? ofLawn(record) : ofSighting(record);

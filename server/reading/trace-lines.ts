import { projectPoint } from '../camera/camera-model.ts';
import type { Camera } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import type { Trace } from '../contract/photo.ts';
import type { Court, Side } from '../lawn/court.ts';
import { CORNER_NAMES, namedPlace } from '../lawn/named-points.ts';
import type { UprightPhoto } from '../photo/open-photo.ts';
import { lawnPoint3 } from '../units/points.ts';
import type { TracedSide } from '../vision/types.ts';
import { poseOf } from './pose-of-photo.ts';
import type { Progress } from './progress.ts';

/** The sides that meet at each corner, in the order of CORNER_NAMES. */
const MEETING: readonly (readonly [Side, Side])[] = [
  ['south', 'west'],
  ['west', 'north'],
  ['north', 'east'],
  ['east', 'south'],
];

const inside = (camera: Camera, x: number, y: number): boolean =>
  x >= 0 && y >= 0 && x <= camera.width && y <= camera.height;

/** The crossing of two followed sides, px; nothing when one of them was not followed or it lies outside the picture. */
const crossing = (camera: Camera, court: Court, index: number, sides: readonly TracedSide[]) => {
  const name = CORNER_NAMES[index]!;
  const followed = MEETING[index]!.every((side) => (sides.find((one) => one.side === side)?.share ?? 0) > 0);
  const place = namedPlace(court, name);
  const image = followed ? projectPoint(camera, lawnPoint3(place.x, place.y, 0)) : null;
  return image && inside(camera, image.x, image.y) ? [[name, [image.x, image.y]] as const] : [];
};

/**
 * The boundary lines near the marks as the page shows them: points along each side that was followed, and the crossings to which a corner can be
 * pulled, px. Throws `InputError` when the marks cannot be used.
 */
export const traceLines = (photo: UprightPhoto, marks: Marks, progress: Progress = () => {}): Trace => {
  const { court, solved, sides } = poseOf(photo, marks, progress);
  return {
    corners: Object.fromEntries(
      CORNER_NAMES.flatMap((_, index) => crossing(solved.camera, court, index, sides)),
    ) as Trace['corners'],
    sides: Object.fromEntries(
      sides.map(({ side, share, samples }) => [
        side,
        { share, points: samples.map(({ image }): [number, number] => [image.x, image.y]) },
      ]),
    ),
  };
};

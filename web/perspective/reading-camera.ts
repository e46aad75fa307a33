import { ballContour } from '../../server/camera/ball-outline.ts';
import { pointAtHeight, projectPoint } from '../../server/camera/camera-model.ts';
import type { Camera } from '../../server/camera/types.ts';
import type { Reading } from '../../server/contract/reading.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import type { Court } from '../../server/lawn/court.ts';
import { metres, pixels } from '../../server/units/numbers.ts';
import { type ImagePoint, imagePoint, lawnPoint, lawnPoint3 } from '../../server/units/points.ts';
import { type Box, boxAround } from '../photo/view.ts';

/** The solved camera of a reading. */
export const cameraOf = ({ camera, photo }: Pick<Reading, 'camera' | 'photo'>): Camera => ({
  position: camera.position,
  rotation: camera.rotation,
  focal: pixels(camera.focal),
  radial: camera.radial,
  width: pixels(photo.width),
  height: pixels(photo.height),
});

/** Outline, in photo px, of a ball whose centre is seen at `image`; null where the photo shows no lawn. */
export const outlineAt = (camera: Camera, image: ImagePoint): ImagePoint[] | null => {
  const at = pointAtHeight(camera, image, BALL_RADIUS);
  return at && ballContour(camera, lawnPoint(at.x, at.y), 40);
};

/** Half the width in px of a ball seen at `image`; 0 where the photo shows no lawn. */
export const radiusAt = (camera: Camera, image: ImagePoint): number => {
  const outline = outlineAt(camera, image);
  if (!outline) return 0;
  const xs = outline.map(({ x }) => x);
  return (Math.max(...xs) - Math.min(...xs)) / 2;
};

/** Pieces a straight line of the lawn is drawn in: enough for a bent lens. */
const PIECES = 48;

/** A straight line of the lawn at `z` metres as the photo shows it, in px; parts behind the camera are left out. */
export const seenLine = (
  camera: Camera,
  [ax, ay]: readonly [number, number],
  [bx, by]: readonly [number, number],
  z: number,
): ImagePoint[] =>
  Array.from({ length: PIECES + 1 }, (_, i) => {
    const t = i / PIECES;
    return projectPoint(camera, lawnPoint3(ax + t * (bx - ax), ay + t * (by - ay), z));
  }).filter((point) => point !== null);

/** The part of the photo that shows the lawn, px; the whole photo when hardly any of it is there. */
export const lawnBox = (camera: Camera, court: Court): Box => {
  const edges = [
    seenLine(camera, [0, 0], [court.width, 0], 0),
    seenLine(camera, [0, court.length], [court.width, court.length], 0),
    seenLine(camera, [0, 0], [0, court.length], 0),
    seenLine(camera, [court.width, 0], [court.width, court.length], 0),
  ].flat();
  const inside = edges.filter(({ x, y }) => x >= 0 && y >= 0 && x <= camera.width && y <= camera.height);
  const box = boxAround(inside, 0.03);
  return box ?? { left: 0, top: 0, right: camera.width, bottom: camera.height };
};

type Seen = { readonly image: readonly [number, number] };

/** The part of the photo where the call is made: the halfway line and the balls, px; the lawn when there is no line. */
export const callBox = (
  camera: Camera,
  court: Court,
  line: { readonly axis: 'x' | 'y'; readonly at: number } | null,
  balls: readonly Seen[],
): Box => {
  if (!line) return lawnBox(camera, court);
  const { axis, at } = line;
  const ends =
    axis === 'x'
      ? seenLine(camera, [at, 0], [at, court.length], 0)
      : seenLine(camera, [0, at], [court.width, at], 0);
  const inside = [...ends, ...balls.map(({ image }) => imagePoint(image[0], image[1]))].filter(
    ({ x, y }) => x >= 0 && y >= 0 && x <= camera.width && y <= camera.height,
  );
  return boxAround(inside, 0.06) ?? lawnBox(camera, court);
};

/** The court that a reading was made on. */
export const courtOfMarks = (lawn: { width: number; length: number }): Court => ({
  width: metres(lawn.width),
  length: metres(lawn.length),
});

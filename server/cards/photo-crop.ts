import { projectPoint } from '../camera/camera-model.ts';
import type { Camera } from '../camera/types.ts';
import type { LawnRecord, SightingRecord } from '../contract/record.ts';
import type { Letters } from '../contract/settings.ts';
import type { BallColour } from '../lawn/colours.ts';
import { cutOut, pictureSize } from '../photo/draw.ts';
import { pixels } from '../units/numbers.ts';
import { lawnPoint3 } from '../units/points.ts';
import { ballMark } from './parts/ball-mark.ts';
import { LOOK } from './parts/look.ts';
import { spread } from './parts/spread.ts';
import { line, type Shape } from './sheet/shapes.ts';

/** A box: of the photo in px, or of a sheet in pt. */
export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
type Place = { readonly x: number; readonly y: number };

const imagesOf = (record: LawnRecord | SightingRecord): (Place & { colour: BallColour })[] =>
  record.balls.map(({ colour, image: [x, y] }) => ({ colour, x, y }));

const between = (value: number, least: number, most: number): number =>
  Math.max(Math.min(value, most), least);

/**
 * The part of a photo of `size` px that holds all `places` with room around them, in the shape `aspect` (width over height); the whole photo's
 * middle when there are none. Never larger than the photo and never outside it.
 */
export const cropAround = (
  places: readonly Place[],
  size: { width: number; height: number },
  aspect: number,
): Box => {
  const [xs, ys] = [places.map(({ x }) => x), places.map(({ y }) => y)];
  const all = places.length === 0;
  const [left, right] = all ? [0, size.width] : [Math.min(...xs), Math.max(...xs)];
  const [top, bottom] = all ? [0, size.height] : [Math.min(...ys), Math.max(...ys)];
  const room = size.width * 0.06;
  const wanted = Math.max(right - left + 2 * room, (bottom - top + 2 * room) * aspect, size.width * 0.2);
  const width = Math.min(wanted, size.width, size.height * aspect);
  const height = width / aspect;
  return {
    x: between((left + right) / 2 - width / 2, 0, size.width - width),
    y: between((top + bottom) / 2 - height / 2, 0, size.height - height),
    width,
    height,
  };
};

const cameraOf = ({ camera, photo }: LawnRecord): Camera => ({
  position: camera.position,
  rotation: camera.rotation,
  focal: pixels(camera.focal),
  radial: camera.radial,
  width: pixels(photo.width),
  height: pixels(photo.height),
});

const PIECES = 60;

/** The halfway line as the camera sees it on the grass: pieces in px, where they are in front of the camera. */
const linePieces = (record: LawnRecord): (readonly [Place, Place])[] => {
  if (!record.call) return [];
  const { axis, at } = record.call.line;
  const { width, length } = record.marks.lawn;
  const camera = cameraOf(record);
  const seen = Array.from({ length: PIECES + 1 }, (_, index) => {
    const along = (index / PIECES) * (axis === 'x' ? length : width);
    const point = axis === 'x' ? lawnPoint3(at, along, 0) : lawnPoint3(along, at, 0);
    return projectPoint(camera, point);
  });
  return seen.slice(1).flatMap((to, index) => {
    const from = seen[index];
    return from && to ? [[from, to] as const] : [];
  });
};

const inside = (box: Box, { x, y }: Place): boolean =>
  x >= box.x && y >= box.y && x <= box.x + box.width && y <= box.y + box.height;

/** Above each ball its letter, tied to it by a thin line. */
const labels = (balls: readonly (Place & { colour: BallColour })[], letters: Letters): Shape[] => {
  const discs = spread(
    balls.map(({ x, y }) => ({ x, y: y - 17 })),
    6.5,
  );
  return balls.flatMap(({ colour, x, y }, index) => {
    const disc = discs[index]!;
    return [
      line(disc.x, disc.y, x, y - 3, { colour: LOOK.chalk, width: 0.9 }),
      ...ballMark(colour, [disc.x, disc.y], 5.6, letters),
    ];
  });
};

const overlay = (record: LawnRecord | SightingRecord, crop: Box, box: Box, letters: Letters): Shape[] => {
  const scale = box.width / crop.width;
  const onSheet = <T extends Place>(place: T): T => ({
    ...place,
    x: box.x + (place.x - crop.x) * scale,
    y: box.y + (place.y - crop.y) * scale,
  });
  const pieces = record.kind === 'lawn' ? linePieces(record) : [];
  const seen = pieces.filter((ends) => ends.every((end) => inside(crop, end)));
  return [
    ...seen.map(([from, to]) => {
      const [a, b] = [onSheet(from), onSheet(to)];
      return line(a.x, a.y, b.x, b.y, { colour: LOOK.chalk, width: 1.3, cap: 'round' });
    }),
    ...labels(
      imagesOf(record)
        .filter((image) => inside(crop, image))
        .map(onSheet),
      letters,
    ),
  ];
};

/** Pixels of the printed picture for each pt. */
const SHARPNESS = 3;

/**
 * The part of the photo that shows the balls, `width` pt by `height` pt, with the halfway line and the balls' letters drawn into it. The pixels are
 * cut out now; the function returned draws them with the top-left corner at (x, y) of a sheet.
 */
export const photoCrop = async (
  record: LawnRecord | SightingRecord,
  photo: Uint8Array,
  { width, height }: { readonly width: number; readonly height: number },
  letters: Letters,
): Promise<(x: number, y: number) => Shape[]> => {
  const crop = cropAround(imagesOf(record), await pictureSize(photo), width / height);
  const jpeg = await cutOut(photo, crop, Math.round(width * SHARPNESS));
  return (x, y) => {
    const box = { x, y, width, height };
    return [
      { kind: 'picture', ...box, jpeg },
      ...overlay(record, crop, box, letters),
      { kind: 'rect', ...box, stroke: { colour: LOOK.ink, width: 0.8 } },
    ];
  };
};

import type { MarkedPoint } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import { InputError } from '../errors.ts';
import type { MarkerName } from '../lawn/named-points.ts';
import type { Raster } from '../units/raster.ts';

type Size = Pick<Raster, 'width' | 'height'>;

const isOutside = (x: number, y: number, { width, height }: Size): boolean =>
  x < 0 || y < 0 || x > width || y > height;

/** Refuses marks and a tap that lie outside the photo. */
export const refuseOutside = (points: readonly MarkedPoint[], { tap }: Marks, size: Size): void => {
  const photo = `the photo of ${size.width} × ${size.height} px`;
  const point = points.find(({ image }) => isOutside(image.x, image.y, size));
  if (point)
    throw new InputError(
      'point-outside',
      `The mark of ${point.name} at (${point.image.x}, ${point.image.y}) is outside ${photo}. Move it into the photo, or leave it out if it is not an end of the line.`,
    );
  if (tap && isOutside(...tap, size))
    throw new InputError(
      'tap-outside',
      `The tap at (${tap.join(', ')}) is outside ${photo}; tap the ball in the photo.`,
    );
};

/** The two marked ends, the near one (lower in the picture) first. Throws an `InputError` when one is missing. */
export const markedEnds = (
  points: readonly MarkedPoint[],
  names: readonly [MarkerName, MarkerName],
): readonly [MarkedPoint, MarkedPoint] => {
  const [first, second] = names.map((name) => points.find((point) => point.name === name));
  if (first === undefined || second === undefined)
    throw new InputError(
      'ends-missing',
      `A sighting picture for this hoop needs both ends of its halfway line, ${names[0]} and ${names[1]}; found ${points.map(({ name }) => name).join(', ') || 'no point'}. Mark the foot of both markers.`,
    );
  return first.image.y > second.image.y ? [first, second] : [second, first];
};

/** The tapped place shows no lawn. */
export const tappedSky = ([x, y]: readonly [number, number]): InputError =>
  new InputError(
    'above-horizon',
    `The tap at (${x}, ${y}) is above the horizon of the picture, where there is no lawn; tap the ball on the grass.`,
  );

import { projectPoint } from '../../server/camera/camera-model.ts';
import type { Camera } from '../../server/camera/types.ts';
import { type ImagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { type Box, boxAround } from '../photo/view.ts';
import { type CourtPlace, sizeOf, standingOf } from './court-places.ts';

/** One thing of the court as the photo shows it, px: where it should stand, and where it was found. */
export type SeenPlace = {
  readonly place: CourtPlace;
  readonly proper: ImagePoint;
  readonly found: ImagePoint | null;
};

const inPhoto = ({ width, height }: Camera, { x, y }: ImagePoint): boolean =>
  x >= 0 && y >= 0 && x <= width && y <= height;

/** The things of the court whose proper place the photo shows. */
export const seenPlaces = (camera: Camera, places: readonly CourtPlace[]): SeenPlace[] =>
  places.flatMap((place) => {
    const { x, y, off } = place;
    const proper = projectPoint(camera, lawnPoint3(x, y, 0));
    if (!proper || !inPhoto(camera, proper)) return [];
    return [{ place, proper, found: off && projectPoint(camera, lawnPoint3(x + off.dx, y + off.dy, 0)) }];
  });

/** How much of the lawn about a thing is shown with it, metres each way. */
const AROUND = 0.7;

/** The part of the photo about one thing, px: enough of the lawn about it to know it again. */
export const boxOfPlace = (camera: Camera, { x, y }: Pick<CourtPlace, 'x' | 'y'>): Box | null => {
  const corners = [
    [-1, -1],
    [-1, 1],
    [1, 1],
    [1, -1],
  ].flatMap(([east, north]) => {
    const point = projectPoint(camera, lawnPoint3(x + east! * AROUND, y + north! * AROUND, 0));
    return point ? [point] : [];
  });
  return boxAround(corners, 0.05);
};

/** What is written beside a thing in the photo: how far it is off, or that it was not seen; nothing for what stands right. */
export const tagOf = (place: CourtPlace): string | null => {
  const standing = standingOf(place);
  if (standing === 'unseen') return '?';
  if (standing === 'fine' || !place.off) return null;
  return `${Math.round(sizeOf(place.off) * 1000)} mm${standing === 'unsure' ? '?' : ''}`;
};

import type { CheckRecord } from '../../server/contract/record.ts';
import { giveOrTake } from '../../server/contract/words/chances.ts';
import { pointName } from '../../server/contract/words/places.ts';
import { namedPlace, type PointName } from '../../server/lawn/named-points.ts';
import { courtOfMarks } from '../perspective/reading-camera.ts';

/** One thing of the court: where it should stand, how far off it is (metres east and north), and whether that is too far. */
export type CourtPlace = {
  readonly name: PointName;
  readonly words: string;
  readonly x: number;
  readonly y: number;
  /** Null when it was not seen. */
  readonly off: { readonly dx: number; readonly dy: number; readonly give: number } | null;
  readonly within: boolean | null;
};

const onShortSide = (name: string): boolean => name.startsWith('markerS') || name.startsWith('markerN');

/** A marker's name as the answer has it ("W", "S10.5") or in full. */
const markerPoint = (name: string): PointName =>
  (name.startsWith('marker') ? name : `marker${name}`) as PointName;

/** Everything that was checked, as one list: the marks round the boundary, the hoops, the peg. */
export const placesOf = (record: CheckRecord): CourtPlace[] => {
  const court = courtOfMarks(record.marks.lawn);
  const placeOf = (name: PointName, off: CourtPlace['off'], within: boolean | null): CourtPlace => {
    const { x, y } = namedPlace(court, name);
    return { name, words: pointName(name), x, y, off, within };
  };
  const markers = record.markers.map(({ name, along, sd, within }) => {
    const point = markerPoint(name);
    const off =
      along === null || sd === null
        ? null
        : { dx: onShortSide(point) ? along : 0, dy: onShortSide(point) ? 0 : along, give: giveOrTake(sd) };
    return placeOf(point, off, within);
  });
  const fixed = [...record.hoops, { name: 'peg', ...record.peg }].map(({ name, dx, dy, sd, within }) =>
    placeOf(
      name as PointName,
      dx === null || dy === null || sd === null ? null : { dx, dy, give: giveOrTake(sd) },
      within,
    ),
  );
  return [...markers, ...fixed];
};

/** How a thing stands: off for certain, too close to say, not seen, or in its place. */
export const STANDINGS = ['off', 'unsure', 'unseen', 'fine'] as const;
export type Standing = (typeof STANDINGS)[number];

/** How this thing stands. */
export const standingOf = ({ off, within }: Pick<CourtPlace, 'off' | 'within'>): Standing => {
  if (!off) return 'unseen';
  if (within === null) return 'unsure';
  return within ? 'fine' : 'off';
};

/** How far a thing is off, metres. */
export const sizeOf = ({ dx, dy }: { readonly dx: number; readonly dy: number }): number =>
  Math.hypot(dx, dy);

const MILLIMETRE = 0.0005;

/** Which way to move a thing back to its place: "180 mm to the south", "20 mm to the west and 35 mm to the south". */
export const howToMove = ({ dx, dy }: { readonly dx: number; readonly dy: number }): string => {
  const parts = [
    [Math.abs(dx), dx > 0 ? 'west' : 'east'],
    [Math.abs(dy), dy > 0 ? 'south' : 'north'],
  ] as const;
  const words = parts
    .filter(([length]) => length >= MILLIMETRE)
    .map(([length, way]) => `${Math.round(length * 1000)} mm to the ${way}`);
  return words.join(' and ') || 'no way at all';
};

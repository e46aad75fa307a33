import type { UnitSystem } from '../../server/contract/settings.ts';
import type { Stands } from '../../server/contract/stands.ts';
import { distance } from '../../server/contract/words/lengths.ts';

type Court = { readonly width: number; readonly length: number };

/** Nearer to the line's own direction than this, metres, a place is said to be in line with it. */
const IN_LINE = 0.6;

const outside = ({ x, y }: { x: number; y: number }, court: Court): [number, string][] => {
  const west = x < 0 ? -x : x - court.width;
  const south = y < 0 ? -y : y - court.length;
  return [
    [west, x < 0 ? 'west' : 'east'],
    [south, y < 0 ? 'south' : 'north'],
  ];
};

/** A place outside the lawn in words: "8 yd outside the west boundary, in line with the halfway line". Metres; a place on the lawn is said to be so. */
export const placeInWords = (
  place: { readonly x: number; readonly y: number },
  line: Stands['line'],
  court: Court,
  units: UnitSystem,
): string => {
  const parts = outside(place, court).filter(([length]) => length > 0);
  if (parts.length === 0) return 'on the lawn';
  const out = parts.map(([length, side]) => `${distance(length, units)} outside the ${side} boundary`);
  const offset = (line.axis === 'y' ? place.y : place.x) - line.at;
  const [less, more] = line.axis === 'y' ? ['south', 'north'] : ['west', 'east'];
  const beside =
    Math.abs(offset) <= IN_LINE
      ? 'in line with the halfway line'
      : `${distance(offset, units)} to the ${offset > 0 ? more : less} of the halfway line`;
  return `${out.join(' and ')}, ${beside}`;
};

const SIDES = ['west', 'east', 'south', 'north'] as const;

/** The boundaries behind which at least one of these places lies, in the order west, east, south, north; a place past a corner counts for neither. */
export const sidesOf = (
  places: readonly { readonly x: number; readonly y: number }[],
  court: Court,
): string[] =>
  SIDES.filter((side) =>
    places.some(({ x, y }) => {
      const along =
        side === 'west' || side === 'east' ? y >= 0 && y <= court.length : x >= 0 && x <= court.width;
      const past = { west: x < 0, east: x > court.width, south: y < 0, north: y > court.length }[side];
      return along && past;
    }),
  );

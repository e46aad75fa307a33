import type { UnitSystem } from '../../server/contract/settings.ts';
import type { Stands } from '../../server/contract/stands.ts';
import { METRES_PER_YARD } from '../../server/units/numbers.ts';

type Court = { readonly width: number; readonly length: number };

/** A height or distance to stand at, as one says it: "5 m", "16 ft". Metres; to half a metre, or to the foot. */
export const heightInWords = (metres: number, units: UnitSystem): string =>
  units === 'imperial'
    ? `${Math.round((metres / METRES_PER_YARD) * 3)} ft`
    : `${Math.round(metres * 2) / 2} m`;

/** How far to pace out: to half a metre, or to the yard. */
const paced = (metres: number, units: UnitSystem): string => {
  const length = Math.abs(metres);
  return units === 'imperial'
    ? `${Math.max(1, Math.round(length / METRES_PER_YARD))} yd`
    : `${Math.max(0.5, Math.round(length * 2) / 2)} m`;
};

const outside = ({ x, y }: { x: number; y: number }, court: Court): [number, string][] => {
  const west = x < 0 ? -x : x - court.width;
  const south = y < 0 ? -y : y - court.length;
  return [
    [west, x < 0 ? 'west' : 'east'],
    [south, y < 0 ? 'south' : 'north'],
  ];
};

/**
 * A place outside the lawn, known to half a `step` (metres), in words: "8 yd outside the west boundary, in line with the halfway line". A place on
 * the lawn is said to be so.
 */
export const placeInWords = (
  place: { readonly x: number; readonly y: number },
  { line, step }: Pick<Stands, 'line' | 'step'>,
  court: Court,
  units: UnitSystem,
): string => {
  const parts = outside(place, court).filter(([length]) => length > 0);
  if (parts.length === 0) return 'on the lawn';
  const out = parts.map(([length, side]) => `${paced(length, units)} outside the ${side} boundary`);
  const offset = (line.axis === 'y' ? place.y : place.x) - line.at;
  const [less, more] = line.axis === 'y' ? ['south', 'north'] : ['west', 'east'];
  const beside =
    Math.abs(offset) <= step / 2
      ? 'in line with the halfway line'
      : `${paced(offset, units)} to the ${offset > 0 ? more : less} of the halfway line`;
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

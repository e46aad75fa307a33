import type { HalfwayLine } from '../../lawn/halfway-lines.ts';
import { type HoopPoint, hoopOfPoint } from '../../lawn/hoops.ts';
import type { PointName } from '../../lawn/named-points.ts';

const CORNERS: Readonly<Record<string, string>> = {
  corner1: 'Corner 1, south-west',
  corner2: 'Corner 2, north-west',
  corner3: 'Corner 3, north-east',
  corner4: 'Corner 4, south-east',
};

/** "10½" for "10.5". */
const half = (yards: string): string => yards.replace('.5', '½');

const markerName = (name: string): string => {
  if (name === 'markerW') return 'Marker on the west boundary';
  if (name === 'markerE') return 'Marker on the east boundary';
  const side = name.startsWith('markerS') ? 'south' : 'north';
  return `Marker on the ${side} boundary, ${half(name.slice('markerS'.length))} yd from the west`;
};

/** A markable point in full: "Corner 2, north-west", "Hoop 5", "Peg", "Marker on the west boundary". */
export const pointName = (name: PointName): string => {
  if (name === 'peg') return 'Peg';
  if (name.startsWith('hoop')) return `Hoop ${name.slice('hoop'.length)}`;
  return CORNERS[name] ?? markerName(name);
};

/** The same short enough for a button: "corner 2", "hoop 5", "the peg", "the west marker". */
export const shortPointName = (name: PointName): string => {
  if (name === 'peg') return 'the peg';
  if (name.startsWith('corner')) return `corner ${name.slice('corner'.length)}`;
  if (name.startsWith('hoop')) return `hoop ${name.slice('hoop'.length)}`;
  if (name === 'markerW') return 'the west marker';
  if (name === 'markerE') return 'the east marker';
  return `the ${name.startsWith('markerS') ? 'south' : 'north'} marker at ${half(name.slice('markerS'.length))} yd`;
};

/** What stands on a pin: "1" to "4" for corners, "h5", "peg", "W", "10½". */
export const pointTag = (name: PointName): string => {
  if (name === 'peg') return 'peg';
  if (name.startsWith('corner')) return name.slice('corner'.length);
  if (name.startsWith('hoop')) return `h${name.slice('hoop'.length)}`;
  const along = name.slice('marker'.length);
  return along.length === 1 ? along : half(along.slice(1));
};

/** Where to put the pin, said once at the point in hand. */
export const whereToPut = (name: PointName): string => {
  if (name.startsWith('corner')) return 'Where the inner edges of the two lines meet.';
  if (name === 'peg') return 'The foot of the peg, where it enters the grass.';
  if (name.startsWith('hoop')) return 'Half way between the feet of the hoop.';
  return 'The foot of the mark, at the boundary.';
};

/** Ways round the compass for a line's next side. */
export const towards = ({ axis, nextHoopSide }: Pick<HalfwayLine, 'axis' | 'nextHoopSide'>): string => {
  if (axis === 'y') return nextHoopSide === 1 ? 'north' : 'south';
  return nextHoopSide === 1 ? 'east' : 'west';
};

/** A halfway line in words: "across the lawn through the peg", "from south to north, 3½ yd east of the peg". */
export const lineName = (
  { axis, at }: Pick<HalfwayLine, 'axis' | 'at'>,
  court: { width: number },
): string => {
  if (axis === 'y') return 'west to east through the peg';
  const offset = at - court.width / 2;
  if (Math.abs(offset) < 0.01) return 'south to north through the peg';
  return `south to north, half way between the peg and hoops ${offset > 0 ? '3 and 4' : '1 and 2'}`;
};

/** A point of the game as people say it: "hoop 1", "hoop 7 (at 2)", "hoop 13 (at 3)". */
export const scoredName = (point: HoopPoint): string => {
  const hoop = hoopOfPoint(point);
  return `hoop ${point}${point > 6 ? ` (at ${hoop})` : ''}`;
};

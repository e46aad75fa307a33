import type { LawnPoint } from '../units/points.ts';
import { lawnPoint } from '../units/points.ts';
import { type Court, courtPoint, type Side } from './court.ts';
import { type HoopNumber, hoopPlace, pegPlace } from './hoops.ts';

/** Corners: 1 south-west, 2 north-west, 3 north-east, 4 south-east (common practice, no source). */
export const CORNER_NAMES = ['corner1', 'corner2', 'corner3', 'corner4'] as const;
/** The hoops as marked points: the middle between the feet. */
export const HOOP_NAMES = ['hoop1', 'hoop2', 'hoop3', 'hoop4', 'hoop5', 'hoop6'] as const;
/** Ends of the halfway lines on the boundary: the edge, and on the short edges the yards from the west boundary. */
export const MARKER_NAMES = [
  'markerW',
  'markerE',
  'markerS10.5',
  'markerS14',
  'markerS17.5',
  'markerN10.5',
  'markerN14',
  'markerN17.5',
] as const;
/** Every point of the lawn that can be marked on a photo. */
export const POINT_NAMES = [...CORNER_NAMES, 'peg', ...HOOP_NAMES, ...MARKER_NAMES] as const;

export type CornerName = (typeof CORNER_NAMES)[number];
export type HoopName = (typeof HOOP_NAMES)[number];
export type MarkerName = (typeof MARKER_NAMES)[number];
/** The name of a point that can be marked. */
export type PointName = (typeof POINT_NAMES)[number];

const cornerPlace = (court: Court, name: CornerName): LawnPoint =>
  ({
    corner1: lawnPoint(0, 0),
    corner2: lawnPoint(0, court.length),
    corner3: lawnPoint(court.width, court.length),
    corner4: lawnPoint(court.width, 0),
  })[name];

/** Proper place of a boundary marker, on the inner edge of the boundary. The marker itself stands a little outside it. */
export const markerPlace = (court: Court, name: MarkerName): LawnPoint => {
  if (name === 'markerW') return courtPoint(court, 0, 17.5);
  if (name === 'markerE') return courtPoint(court, 28, 17.5);
  const yard = Number(name.slice('markerS'.length));
  return courtPoint(court, yard, name.startsWith('markerS') ? 0 : 35);
};

/** Proper place of a named point on the ground. */
export const namedPlace = (court: Court, name: PointName): LawnPoint => {
  if (name === 'peg') return pegPlace(court);
  if (name.startsWith('corner')) return cornerPlace(court, name as CornerName);
  if (name.startsWith('hoop')) return hoopPlace(court, Number(name.slice('hoop'.length)) as HoopNumber);
  return markerPlace(court, name as MarkerName);
};

/** The boundary on which a marker stands. */
export const markerSide = (name: MarkerName): Side =>
  (({ W: 'west', E: 'east', S: 'south', N: 'north' }) as const)[
    name['marker'.length] as 'W' | 'E' | 'S' | 'N'
  ];

import { type Court, outwardNormal } from '../lawn/court.ts';
import { type MarkerName, markerSide, namedPlace, type PointName } from '../lawn/named-points.ts';
import type { Covariance2 } from '../units/points.ts';
import type { MarkedPoint } from './types.ts';

/**
 * How well the marked things stand where the rules put them, one standard deviation in metres. Common practice, no source: a hoop or peg set
 * with a tape is within a couple of centimetres; a painted corner within some millimetres.
 */
export const DEFAULT_SETTING_SD = { corner: 0.004, hoop: 0.018, peg: 0.015, marker: 0.02 } as const;
/** A boundary marker's foot stands about this far outside the boundary (m), and nobody measures it: the standard deviation is as large as half of it. */
export const MARKER_FOOTING = { outside: 0.06, sd: 0.03 } as const;

/** Unevenness of a lawn unless stated: standard deviation of the ground's height, metres. Common practice, no source. */
export const DEFAULT_GROUND_SD = 0.005;

/** Standard deviations of the setting of the court in metres; each may be replaced. */
export type SettingSd = Partial<Record<keyof typeof DEFAULT_SETTING_SD, number>>;

/** A mark with the place of the lawn where its point should be and the covariance of that place (m²). */
export type PlacedMark = {
  readonly mark: MarkedPoint;
  readonly x: number;
  readonly y: number;
  readonly setting: Covariance2;
};

const kindOf = (name: PointName): keyof typeof DEFAULT_SETTING_SD =>
  name === 'peg' ? 'peg' : (name.replace(/[^a-z].*$/, '') as 'corner' | 'hoop' | 'marker');

/** Where each marked point should be on this court, and how surely it is there. Markers are taken to stand a little outside the boundary. */
export const placeMarks = (
  points: readonly MarkedPoint[],
  court: Court,
  settingSd: SettingSd = {},
): PlacedMark[] =>
  points.map((mark) => {
    const kind = kindOf(mark.name);
    const sd = settingSd[kind] ?? DEFAULT_SETTING_SD[kind];
    const { x, y } = namedPlace(court, mark.name);
    if (kind !== 'marker') return { mark, x, y, setting: { xx: sd * sd, xy: 0, yy: sd * sd } };
    const [nx, ny] = outwardNormal(markerSide(mark.name as MarkerName));
    const across = MARKER_FOOTING.sd ** 2;
    return {
      mark,
      x: x + MARKER_FOOTING.outside * nx,
      y: y + MARKER_FOOTING.outside * ny,
      setting: { xx: nx ? across : sd * sd, xy: 0, yy: ny ? across : sd * sd },
    };
  });

import type { Camera } from '../../camera/types.ts';
import { type Court, outwardNormal, type Side } from '../../lawn/court.ts';
import { type HoopNumber, hoopPlace, pegPlace } from '../../lawn/hoops.ts';
import { type MarkerName, markerPlace } from '../../lawn/named-points.ts';
import { metres } from '../../units/numbers.ts';
import type { LawnPoint } from '../../units/points.ts';
import type { Raster } from '../../units/raster.ts';
import { findUpright, type Reach } from './find-upright.ts';
import type { ShapeFit } from './fit-shape.ts';
import { flattenLine } from './flatten-line.ts';
import { hoopShape, markerDotShape, markerFoot, markerPegShape, pegShape } from './shapes.ts';

/** How far from its proper place a hoop, the peg or a marker is looked for, metres: twice the usual tolerance and some. */
export const SEARCH_REACH: Reach = { ground: metres(0.45) };

/** A landmark as fitted: `from` is the place its displacement counts from. */
export type Landmark = { readonly from: LawnPoint; readonly fit: ShapeFit };

const landmark = (from: LawnPoint, fit: ShapeFit | null): Landmark | null => fit && { from, fit };

/** Measures hoop `hoop`; null when it is not seen near its place. */
export const findHoop = (
  raster: Raster,
  camera: Camera,
  court: Court,
  hoop: HoopNumber,
  reach: Reach = SEARCH_REACH,
  near = hoopPlace(court, hoop),
): Landmark | null => landmark(near, findUpright(raster, camera, near, hoopShape(near, reach.ground), reach));

/** Measures the peg; null when it is not seen near its place. */
export const findPeg = (
  raster: Raster,
  camera: Camera,
  court: Court,
  reach: Reach = SEARCH_REACH,
  near = pegPlace(court),
): Landmark | null => landmark(near, findUpright(raster, camera, near, pegShape(near, reach.ground), reach));

/** The boundary on which a marker stands. */
export const markerSide = (name: MarkerName): Side =>
  (({ W: 'west', E: 'east', S: 'south', N: 'north' }) as const)[
    name['marker'.length] as 'W' | 'E' | 'S' | 'N'
  ];

/**
 * Measures a boundary marker, a small peg or a painted dot just outside the line; the form with the better evidence is taken. The line
 * itself is taken off first. Null when nothing white of that form stands there.
 */
export const findMarker = (
  raster: Raster,
  camera: Camera,
  court: Court,
  name: MarkerName,
  reach: Reach = SEARCH_REACH,
  near = markerPlace(court, name),
): Landmark | null => {
  const side = markerSide(name);
  const normal = outwardNormal(side);
  const foot = markerFoot(near, normal);
  const prepare = (patch: Parameters<typeof flattenLine>[3]) => flattenLine(camera, court, side, patch);
  const forms = [
    markerPegShape(foot, normal, reach.ground),
    markerDotShape(foot, normal, reach.ground),
  ].flatMap((shape) => {
    const fit = findUpright(raster, camera, foot, shape, reach, prepare);
    return fit ? [fit] : [];
  });
  const best = forms.sort((a, b) => b.evidence - a.evidence)[0];
  return landmark(foot, best ?? null);
};

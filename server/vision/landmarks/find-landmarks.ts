import type { Camera } from '../../camera/types.ts';
import { type Court, outwardNormal } from '../../lawn/court.ts';
import { type HoopNumber, hoopPlace, pegPlace } from '../../lawn/hoops.ts';
import { type MarkerName, markerPlace, markerSide } from '../../lawn/named-points.ts';
import { metres } from '../../units/numbers.ts';
import type { LawnPoint } from '../../units/points.ts';
import type { Raster } from '../../units/raster.ts';
import { type Enough, findUpright, LEAST_EVIDENCE, type Reach } from './find-upright.ts';
import type { ShapeFit } from './fit-shape.ts';
import { flattenLine } from './flatten-line.ts';
import type { Patch } from './patch.ts';
import { type Sun, withShadow } from './shadows.ts';
import { hoopShape, markerDotShape, markerFoot, markerPegShape, pegShape, type Shape } from './shapes.ts';

/** How far from its proper place a hoop, the peg or a marker is looked for, metres: twice the usual tolerance and some. */
export const SEARCH_REACH: Reach = { ground: metres(0.45) };

/** A landmark as fitted: `from` is the place its displacement counts from. */
export type Landmark = { readonly from: LawnPoint; readonly fit: ShapeFit };

const landmark = (from: LawnPoint, fit: ShapeFit | null): Landmark | null => fit && { from, fit };

/** Nothing in a picture is brighter than its white; sharpening may add a fifth at a thin edge. */
const BRIGHTEST = 1.2 * 255;

/** A hoop's uprights are wide enough for their brightness to be known: laid over something broad, such as a hat, they ask for more than a picture can show. */
const HOOP_ENOUGH: Enough = ({ evidence, grass, layers }) =>
  evidence >= LEAST_EVIDENCE && grass + (layers[0] ?? 0) <= BRIGHTEST;

/** Measures hoop `hoop`; null when it is not seen near its place. */
export const findHoop = (
  raster: Raster,
  camera: Camera,
  court: Court,
  hoop: HoopNumber,
  reach: Reach = SEARCH_REACH,
  near = hoopPlace(court, hoop),
  sun: Sun | null = null,
): Landmark | null => {
  const shape = withShadow(hoopShape(near, reach.ground), sun);
  return landmark(near, findUpright(raster, camera, near, shape, reach, undefined, HOOP_ENOUGH));
};

/** Measures the peg; null when it is not seen near its place. */
export const findPeg = (
  raster: Raster,
  camera: Camera,
  court: Court,
  reach: Reach = SEARCH_REACH,
  near = pegPlace(court),
  sun: Sun | null = null,
): Landmark | null => {
  const shape = withShadow(pegShape(near, reach.ground), sun);
  return landmark(near, findUpright(raster, camera, near, shape, reach));
};

/** A dot is taken for one only when it explains the picture so many times better than a small peg does: a peg's lit top looks like a dot too. */
const RATHER_DOT = 1.5;
/**
 * Evidence that a marker needs beside a ragged line, in its place and for each metre from it: chance finds are as likely all along the line, markers
 * are not. Measured on the pictures with known truth, where chance finds of pegs stay below 5.5 and of dots below 8.5.
 */
const NEEDED = { peg: 5.5, dot: 6.5, perMetre: 8 } as const;

/**
 * A marker to which a finger points stands there; it need not be told from chance so surely, and against the sun it is grey rather than white: it must differ from the ground so clearly, and
 * look white at all. Standard deviations; at places without a marker 1 in 50 reaches them within a finger's width.
 */
const POINTED_AT: Enough = ({ whole, evidence }) =>
  evidence >= LEAST_EVIDENCE || (whole >= 7 && evidence >= 2);

/** A finger's reach is so many of its standard deviations. From far away a px of it is decimetres of ground, so the mark says little of how far outside the line the foot stands. */
const POINTED_SDS = 4;

/** Measures the small peg or dot to which a mark of marker `name` points, within `reach` of `near` (on the boundary's inner edge, metres). Null when nothing of its form stands out there. */
export const findMarkedMarker = (
  raster: Raster,
  camera: Camera,
  court: Court,
  name: MarkerName,
  reach: Reach,
  near: LawnPoint,
): Landmark | null => {
  const side = markerSide(name);
  const foot = markerFoot(near, outwardNormal(side));
  const prepare = (patch: Patch) => flattenLine(camera, court, side, patch);
  const look = (shape: Shape) => findUpright(raster, camera, foot, shape, reach, prepare, POINTED_AT);
  const setting = [foot, outwardNormal(side), reach.ground, reach.ground / POINTED_SDS] as const;
  const peg = look(markerPegShape(...setting));
  const dot = look(markerDotShape(...setting));
  return landmark(foot, dot && dot.whole > RATHER_DOT * (peg?.whole ?? 0) ? dot : peg);
};

/**
 * Measures a boundary marker, a small peg or a painted dot just outside the line; the line itself is taken off first. Null when nothing
 * white of either form stands there.
 */
export const findMarker = (
  raster: Raster,
  camera: Camera,
  court: Court,
  name: MarkerName,
  reach: Reach = SEARCH_REACH,
  near = markerPlace(court, name),
  sun: Sun | null = null,
): Landmark | null => {
  const side = markerSide(name);
  const normal = outwardNormal(side);
  const foot = markerFoot(near, normal);
  const prepare = (patch: Patch) => flattenLine(camera, court, side, patch);
  const look = (shape: Shape, needed: number): ShapeFit | null => {
    const fit = findUpright(raster, camera, foot, shape, reach, prepare);
    const along = fit ? Math.abs(fit.parameters[normal[0] === 0 ? 0 : 1]!) : 0;
    return fit && fit.evidence >= needed + NEEDED.perMetre * along ? fit : null;
  };
  const peg = look(withShadow(markerPegShape(foot, normal, reach.ground), sun), NEEDED.peg);
  const dot = look(markerDotShape(foot, normal, reach.ground), NEEDED.dot);
  const rather = dot && dot.evidence > RATHER_DOT * (peg?.evidence ?? 0) ? dot : peg;
  return landmark(foot, rather);
};

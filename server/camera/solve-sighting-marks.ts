import type { Court } from '../lawn/court.ts';
import { markSquares, type WeighedMark, weighMark } from './mark-observations.ts';
import { type PlacedMark, placeMarks, type SettingSd } from './mark-places.ts';
import type { Camera, MarkedPoint } from './types.ts';

/** A mark and how well it was placed, px (one standard deviation). */
export type SightedMark = { readonly mark: MarkedPoint; readonly sd: number };

/** An end of the line as it was measured: `along` its boundary from its proper place, metres, east or north positive, with its standard deviation. */
export type MeasuredEnd = { readonly name: string; readonly along: number; readonly sd: number };

/** What of a sighting the weights of its marks depend on. */
export type SightedLine = {
  readonly court: Court;
  /** The end of the halfway line behind which the camera stands, and the far one; both are among `marks`. */
  readonly ends: readonly [MarkedPoint, MarkedPoint];
  readonly marks: readonly SightedMark[];
  /** Where the ends stand, when that was measured; otherwise they define the line. */
  readonly measured?: readonly MeasuredEnd[] | undefined;
  /** Standard deviation of the ground's height, metres. */
  readonly unevenness: number;
};

/** The marks at both ends define the line that is judged, wherever a tape would put them: only their footing across the boundary is unknown. */
const SIGHTING_SETTING: SettingSd = { marker: 0.001 };
/** A mark with its place on the lawn, and how well it was placed in the picture, px. */
export type PlacedSight = { readonly place: PlacedMark; readonly sd: number };

/** Where the marks of a sighting stand. */
export const placeSights = (input: SightedLine): PlacedSight[] => {
  const places = placeMarks(
    input.marks.map(({ mark }) => mark),
    input.court,
    SIGHTING_SETTING,
  );
  return places.map((place, i) => ({ place: asMeasured(place, input.measured), sd: input.marks[i]!.sd }));
};

/** The mark's place where its marker was measured to stand; its own place without a measurement. */
const asMeasured = (place: PlacedMark, measured: readonly MeasuredEnd[] = []): PlacedMark => {
  const found = measured.find(({ name }) => name === place.mark.name);
  if (!found) return place;
  const { along, sd } = found;
  const { xx, yy } = place.setting;
  return isUpright(place.mark.name)
    ? { ...place, y: place.y + along, setting: { xx, xy: 0, yy: sd * sd } }
    : { ...place, x: place.x + along, setting: { xx: sd * sd, xy: 0, yy } };
};

/** Whether a marker's boundary runs north: the west's and the east's do. */
const isUpright = (name: string): boolean => name === 'markerW' || name === 'markerE';

/** The two ends define the line: they are never given up, whatever the other marks say. */
const isEnd = ({ ends }: Pick<SightedLine, 'ends'>, { mark }: PlacedMark): boolean =>
  ends.some(({ name }) => name === mark.name);

/** The marks with their weights; those that are not ends count as `scatter` times less sure than stated. */
export const weighSights = (
  camera: Camera,
  input: SightedLine,
  marks: readonly PlacedSight[],
  robust: boolean,
  scatter: number,
): WeighedMark[] =>
  marks.map(({ place, sd }) => {
    const noise = { markSd: sd, unevenness: input.unevenness };
    if (isEnd(input, place)) return weighMark(camera, place, noise, false);
    const { a, b, c, weight } = weighMark(camera, place, noise, robust);
    return { placed: place, a: a / scatter, b: b / scatter, c: c / scatter, weight };
  });

/**
 * By how much the marks besides the ends scatter more than stated (Birge's ratio, never below 1): a picture that was cropped on one side, a lens unlike the model
 * or a court set askew shows there. Robust weights keep one bad mark from widening all.
 */
export const scatterOf = (camera: Camera, input: SightedLine, weighed: readonly WeighedMark[]): number => {
  const others = weighed.filter(({ placed }) => !isEnd(input, placed));
  const squares = markSquares(camera, others);
  const weights = others.reduce((sum, { weight }) => sum + weight, 0);
  const sum = others.reduce((total, { weight }, i) => total + weight * squares[i]!, 0);
  // Two coordinates a mark; ends, stance and lens pay for the camera's nine parameters.
  return weights > 0 && Number.isFinite(sum) ? Math.max(1, Math.sqrt(sum / (2 * weights))) : 1;
};

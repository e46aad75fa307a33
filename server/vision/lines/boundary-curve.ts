import { PROJECTION, PROJECTION_LENGTH, projectInto } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { type Court, outwardNormal, type Side, sideEnds } from '../../lawn/court.ts';

/**
 * The inner edge of one boundary as the camera predicts it in the picture, as a chain of vertices a few px apart. Struct of arrays, all of
 * length `count`, ordered along the side from its west or south end. Between two vertices a real lens bends by less than a thousandth of a px.
 */
export type BoundaryCurve = {
  readonly side: Side;
  readonly count: number;
  /** Metres along the side from its first end. */
  readonly at: Float64Array;
  /** Place in the picture, px. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Unit vector across the line in the picture, out of the court. */
  readonly nx: Float64Array;
  readonly ny: Float64Array;
  /** Px across the line per metre on the lawn straight out of the court; positive. */
  readonly across: Float64Array;
  /** Px across the line (outward positive) per metre of height above the ground. */
  readonly rise: Float64Array;
  /** Px along the line per metre along the side. */
  readonly along: Float64Array;
  /** Metres along the side that a point moves when it goes 1 px across the line in the picture: how far the picture is sheared. */
  readonly shear: Float64Array;
  /** Px across the line by each camera parameter, 9 per vertex. */
  readonly byCamera: Float64Array;
  /** Length of the side that lies in the picture, m. */
  readonly visibleLength: number;
};

/** Distance between vertices, px. */
const VERTEX_STEP = 4;
/** Places tried to find the visible run of a side. */
const SCAN = 256;
/** Vertices kept this far inside the picture, px: demosaicking and sharpening are not reliable at the very border. */
const BORDER = 3;
/** More vertices than this are never needed: the longest side of a 120 MP picture. */
const MOST_VERTICES = 6000;

/**
 * The visible part of `side`: the longest run of places whose image lies inside the picture. Null when less than `VERTEX_STEP` px of it is
 * visible.
 */
export const boundaryCurve = (camera: Camera, court: Court, side: Side): BoundaryCurve | null => {
  const place = placer(camera, court, side);
  const run = visibleRun(camera, place);
  if (!run) return null;
  const stops = pace(place, run);
  if (stops.length < 2) return null;
  return fill(place, side, stops, run[1] - run[0]);
};

type Placer = {
  readonly length: number;
  readonly tangent: readonly [number, number];
  readonly normal: readonly [number, number];
  /** Projects the place `at` m along the side into `out`; false where nothing is seen. */
  readonly project: (at: number) => boolean;
  readonly out: Float64Array;
};

const placer = (camera: Camera, court: Court, side: Side): Placer => {
  const [a, b] = sideEnds(court, side);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const tangent = [(b.x - a.x) / length, (b.y - a.y) / length] as const;
  const out = new Float64Array(PROJECTION_LENGTH);
  const project = (at: number): boolean =>
    projectInto(camera, a.x + tangent[0] * at, a.y + tangent[1] * at, 0, out);
  return { length, tangent, normal: outwardNormal(side), project, out };
};

const visibleRun = (camera: Camera, place: Placer): readonly [number, number] | null => {
  let best: readonly [number, number] | null = null;
  let start = -1;
  for (let i = 0; i <= SCAN + 1; i++) {
    const seen = i <= SCAN && place.project((place.length * i) / SCAN) && inside(camera, place.out);
    if (seen && start < 0) start = i;
    if (!seen && start >= 0) {
      const run = [(place.length * start) / SCAN, (place.length * (i - 1)) / SCAN] as const;
      if (!best || run[1] - run[0] > best[1] - best[0]) best = run;
      start = -1;
    }
  }
  return best && best[1] > best[0] ? best : null;
};

const inside = (camera: Camera, out: Float64Array): boolean =>
  out[0]! > BORDER && out[1]! > BORDER && out[0]! < camera.width - BORDER && out[1]! < camera.height - BORDER;

/** Places along the run that are `VERTEX_STEP` px apart in the picture. */
const pace = (place: Placer, [from, to]: readonly [number, number]): number[] => {
  const stops: number[] = [];
  for (let at = from; at <= to && stops.length < MOST_VERTICES; ) {
    if (!place.project(at)) break;
    stops.push(at);
    at += VERTEX_STEP / Math.max(1e-3, speed(place));
  }
  return stops;
};

/** Px per metre along the side at the place last projected. */
const speed = ({ out, tangent }: Placer): number =>
  Math.hypot(
    out[PROJECTION.xByPoint]! * tangent[0] + out[PROJECTION.xByPoint + 1]! * tangent[1],
    out[PROJECTION.yByPoint]! * tangent[0] + out[PROJECTION.yByPoint + 1]! * tangent[1],
  );

const fill = (place: Placer, side: Side, stops: readonly number[], visibleLength: number): BoundaryCurve => {
  const count = stops.length;
  const row = () => new Float64Array(count);
  const curve = {
    side,
    count,
    at: Float64Array.from(stops),
    x: row(),
    y: row(),
    nx: row(),
    ny: row(),
    across: row(),
    rise: row(),
    along: row(),
    shear: row(),
    byCamera: new Float64Array(count * 9),
    visibleLength,
  };
  for (let i = 0; i < count; i++) {
    place.project(stops[i]!);
    fillVertex(curve, place, i);
  }
  return curve;
};

const fillVertex = (curve: BoundaryCurve, { out, tangent, normal }: Placer, i: number): void => {
  const px = PROJECTION.xByPoint;
  const py = PROJECTION.yByPoint;
  const tx = out[px]! * tangent[0] + out[px + 1]! * tangent[1];
  const ty = out[py]! * tangent[0] + out[py + 1]! * tangent[1];
  const ox = out[px]! * normal[0] + out[px + 1]! * normal[1];
  const oy = out[py]! * normal[0] + out[py + 1]! * normal[1];
  const along = Math.hypot(tx, ty);
  const turn = ox * -ty + oy * tx < 0 ? -1 : 1;
  const nx = (-ty / along) * turn;
  const ny = (tx / along) * turn;
  const across = ox * nx + oy * ny;
  curve.x[i] = out[PROJECTION.x]!;
  curve.y[i] = out[PROJECTION.y]!;
  curve.nx[i] = nx;
  curve.ny[i] = ny;
  curve.along[i] = along;
  curve.across[i] = across;
  curve.rise[i] = out[px + 2]! * nx + out[py + 2]! * ny;
  // A px across is 1/across metres outward, which also slides (ox tx + oy ty)/along px along the line.
  curve.shear[i] = -(ox * tx + oy * ty) / along / along / across;
  for (let p = 0; p < 9; p++)
    curve.byCamera[9 * i + p] = out[PROJECTION.xBy + p]! * nx + out[PROJECTION.yBy + p]! * ny;
};

import { pointAtHeight, projectPoint } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { BALL_RADIUS } from '../../lawn/ball.ts';
import type { Court } from '../../lawn/court.ts';
import { imagePoint, type LawnPoint, lawnPoint3 } from '../../units/points.ts';

/** How far outside the boundary a ball's centre is looked for, metres: a ball that lies on the line is half outside at most, and the court may be set out askew. */
export const SEARCH_MARGIN = 0.12;

/** Rows and columns of the picture in which a ball's centre may be seen: for row `top + i` the px from `from[i]` up to, not including, `to[i]`. */
export type LawnSpans = { readonly top: number; readonly from: Int32Array; readonly to: Int32Array };

const EDGE_STEP = 0.25;
/** Least depth in front of the camera, metres, at which the lawn's edge is followed. */
const NEAR = 0.3;

type Ground = readonly [number, number];

const depth = (camera: Camera, [x, y]: Ground): number => {
  const r = camera.rotation;
  const [cx, cy, cz] = camera.position;
  return (r[6] as number) * (x - cx) + (r[7] as number) * (y - cy) + (r[8] as number) * (BALL_RADIUS - cz);
};

/** `polygon` without what lies nearer than NEAR (Sutherland and Hodgman's clipping against one plane). */
const clipNear = (camera: Camera, polygon: readonly Ground[]): Ground[] => {
  const kept: Ground[] = [];
  polygon.forEach((end, i) => {
    const start = polygon[(i + polygon.length - 1) % polygon.length] as Ground;
    const a = depth(camera, start) - NEAR;
    const b = depth(camera, end) - NEAR;
    if (a < 0 !== b < 0) {
      const t = a / (a - b);
      kept.push([start[0] + t * (end[0] - start[0]), start[1] + t * (end[1] - start[1])]);
    }
    if (b >= 0) kept.push(end);
  });
  return kept;
};

/** The lawn's outline at the height of ball centres, `margin` metres outside the boundary, as image points EDGE_STEP metres apart. */
const lawnOutline = (camera: Camera, court: Court, margin: number): (readonly [number, number])[] => {
  const corners: Ground[] = [
    [-margin, -margin],
    [court.width + margin, -margin],
    [court.width + margin, court.length + margin],
    [-margin, court.length + margin],
  ];
  const polygon = clipNear(camera, corners);
  const outline: [number, number][] = [];
  for (let i = 0; i < polygon.length; i++) {
    const start = polygon[i]!;
    const end = polygon[(i + 1) % polygon.length]!;
    const steps = Math.max(1, Math.ceil(Math.hypot(end[0] - start[0], end[1] - start[1]) / EDGE_STEP));
    for (let k = 0; k < steps; k++) {
      const t = k / steps;
      const image = projectPoint(
        camera,
        lawnPoint3(start[0] + t * (end[0] - start[0]), start[1] + t * (end[1] - start[1]), BALL_RADIUS),
      );
      if (image !== null) outline.push([image.x, image.y]);
    }
  }
  return outline;
};

/** The part of the picture in which ball centres on the lawn are seen; null when none of it is in the picture. */
export const lawnSpans = (camera: Camera, court: Court, margin = SEARCH_MARGIN): LawnSpans | null => {
  const outline = lawnOutline(camera, court, margin);
  if (outline.length < 3) return null;
  const ys = outline.map((p) => p[1]);
  const top = Math.max(0, Math.floor(Math.min(...ys)));
  const bottom = Math.min(camera.height, Math.ceil(Math.max(...ys)));
  if (bottom <= top) return null;
  const from = new Int32Array(bottom - top).fill(camera.width);
  const to = new Int32Array(bottom - top);
  for (let i = 0; i < outline.length; i++)
    markEdge(outline[i]!, outline[(i + 1) % outline.length]!, top, from, to, camera.width);
  return { top, from, to };
};

/** `spans` with `by` px more on every side, inside a picture of `width` × `height` px. */
export const widened = (spans: LawnSpans, by: number, width: number, height: number): LawnSpans => {
  if (by === 0) return spans;
  const top = Math.max(0, spans.top - by);
  const rows = Math.min(height, spans.top + spans.from.length + by) - top;
  const from = new Int32Array(rows).fill(width);
  const to = new Int32Array(rows);
  for (let i = 0; i < rows; i++) {
    const own = top + i - spans.top;
    for (const k of [own - by, own, own + by]) {
      if (k < 0 || k >= spans.from.length || spans.to[k]! <= spans.from[k]!) continue;
      from[i] = Math.min(from[i]!, Math.max(0, spans.from[k]! - by));
      to[i] = Math.max(to[i]!, Math.min(width, spans.to[k]! + by));
    }
  }
  return { top, from, to };
};

/** Whether a ball's centre at `place` (metres) is looked for. */
export const onLawn = (court: Court, { x, y }: LawnPoint): boolean =>
  Math.min(x, y, court.width - x, court.length - y) > -SEARCH_MARGIN;

/** Widens the rows' spans to hold the edge from `a` to `b`: its middle in every row it crosses, and both ends. */
const markEdge = (
  a: readonly [number, number],
  b: readonly [number, number],
  top: number,
  from: Int32Array,
  to: Int32Array,
  width: number,
): void => {
  const first = Math.max(0, Math.floor(Math.min(a[1], b[1])) - top);
  const last = Math.min(from.length - 1, Math.floor(Math.max(a[1], b[1])) - top);
  for (let i = first; i <= last; i++) {
    const y = Math.min(Math.max(top + i + 0.5, Math.min(a[1], b[1])), Math.max(a[1], b[1]));
    const t = a[1] === b[1] ? 0 : (y - a[1]) / (b[1] - a[1]);
    const x = a[0] + t * (b[0] - a[0]);
    widen(x, i, from, to, width);
  }
  for (const [x, y] of [a, b]) {
    const i = Math.floor(y) - top;
    if (i >= 0 && i < from.length) widen(x, i, from, to, width);
  }
};

const widen = (x: number, i: number, from: Int32Array, to: Int32Array, width: number): void => {
  from[i] = Math.min(from[i] as number, Math.max(0, Math.floor(x)));
  to[i] = Math.max(to[i] as number, Math.min(width, Math.ceil(x)));
};

/**
 * Predicted diameter in px of a ball whose centre is seen at (`x`, `y`); 0 where no lawn is seen. With the depth z of the ball along the
 * optical axis and the angle θ off it the outline's semi-axes are f r / z across and f r / (z cos θ) along; the lens scales both.
 */
export const diameterAt = (camera: Camera, x: number, y: number): number => {
  const place = pointAtHeight(camera, imagePoint(x, y), BALL_RADIUS);
  if (place === null) return 0;
  const z = depth(camera, [place.x, place.y]);
  const seen = Math.hypot(x - camera.width / 2, y - camera.height / 2);
  const [cx, cy, cz] = camera.position;
  const ray = Math.hypot(place.x - cx, place.y - cy, BALL_RADIUS - cz);
  const aside = Math.sqrt(Math.max(0, ray * ray - z * z));
  const stretch = aside > 1e-6 ? (seen * z) / (camera.focal * aside) : 1;
  return (2 * camera.focal * stretch * BALL_RADIUS * Math.sqrt(ray / z)) / z;
};

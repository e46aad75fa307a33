import { monotoneLimit } from '../camera/lens.ts';
import type { Camera } from '../camera/types.ts';
import type { Court } from '../lawn/court.ts';
import type { Metres } from '../units/numbers.ts';
import { type ImagePoint, imagePoint, type LawnPoint, lawnPoint } from '../units/points.ts';
import type { Raster } from '../units/raster.ts';

/** Scale of the straightened picture and the metres shown around the court. */
export type OverheadSize = { readonly pixelsPerMetre: number; readonly margin: Metres };

/** More pixels than this are refused: 24 million, what a screen or printed page can use many times over. */
const MOST_PIXELS = 24e6;

/** Width and height in px of the straightened picture of `court`. */
export const overheadExtent = (
  court: Court,
  { pixelsPerMetre, margin }: OverheadSize,
): { readonly width: number; readonly height: number } => ({
  width: Math.round((court.width + 2 * margin) * pixelsPerMetre),
  height: Math.round((court.length + 2 * margin) * pixelsPerMetre),
});

/** Where a place of the lawn lies in the straightened picture: north is up, corner 1 at the lower left inside the margin. */
export const toOverhead = (
  court: Court,
  { pixelsPerMetre, margin }: OverheadSize,
  p: LawnPoint,
): ImagePoint => imagePoint((p.x + margin) * pixelsPerMetre, (court.length + margin - p.y) * pixelsPerMetre);

/** The place of the lawn at a point of the straightened picture. */
export const fromOverhead = (
  court: Court,
  { pixelsPerMetre, margin }: OverheadSize,
  p: ImagePoint,
): LawnPoint => lawnPoint(p.x / pixelsPerMetre - margin, court.length + margin - p.y / pixelsPerMetre);

/**
 * The lawn as seen straight from above: every pixel is looked up on the ground plane through the camera with its lens. Where the photo is finer
 * than the result, the pixels that fall on one place are averaged; where it is coarser they are interpolated. Grey where the photo shows nothing.
 * Things that stand up lean away from the camera: only what lies on the ground is in its place.
 */
export const overheadPicture = (raster: Raster, camera: Camera, court: Court, size: OverheadSize): Raster => {
  const { width, height } = overheadExtent(court, size);
  if (!(width > 0 && height > 0 && width * height <= MOST_PIXELS))
    throw new Error(
      `Expected between 1 and ${MOST_PIXELS} px for the overhead picture but received ${width} × ${height}`,
    );
  const data = new Uint8Array(3 * width * height).fill(NOTHING);
  let upper = groundRow(camera, court, size, 0, width);
  for (let row = 0; row < height; row++) {
    const lower = groundRow(camera, court, size, row + 1, width);
    for (let column = 0; column < width; column++)
      lookUp(raster, upper, lower, column, data, 3 * (row * width + column));
    upper = lower;
  }
  return { width, height, data };
};

/** Grey of places that the photo does not show. */
const NOTHING = 96;

/**
 * Image of the pixel corners along the upper rim of `row`, x and y in turn; NaN where nothing is seen. Along a row of the lawn the camera's
 * coordinates change evenly, so only the division and the lens are left for each corner (`camera/types.ts` has the formula).
 */
const groundRow = (
  camera: Camera,
  court: Court,
  size: OverheadSize,
  row: number,
  width: number,
): Float64Array => {
  const { position, rotation: r, focal, radial } = camera;
  const first = fromOverhead(court, size, imagePoint(0, row));
  const step = 1 / size.pixelsPerMetre;
  const start = [first.x - position[0], first.y - position[1], -position[2]] as const;
  const along = (k: number): number => r[k]! * start[0] + r[k + 1]! * start[1] + r[k + 2]! * start[2];
  const [cx, cy, cz] = [along(0), along(3), along(6)];
  const limit = monotoneLimit(radial);
  const line = new Float64Array(2 * (width + 1));
  for (let i = 0; i <= width; i++) {
    const depth = cz + i * step * r[6]!;
    const u = (cx + i * step * r[0]!) / depth;
    const v = (cy + i * step * r[3]!) / depth;
    const s = u * u + v * v;
    const seen = depth > NEAREST && s < limit;
    const d = focal * (1 + s * (radial[0] + s * radial[1]));
    line[2 * i] = seen ? camera.width / 2 + u * d : Number.NaN;
    line[2 * i + 1] = seen ? camera.height / 2 + v * d : Number.NaN;
  }
  return line;
};

/** Ground nearer than this in front of the camera (m) counts as behind it. */
const NEAREST = 0.01;

/** Samples along each side of a pixel's footprint at most; beyond, a picture is no clearer for more. */
const MOST_SAMPLES = 8;

/** Averages the photo over the four-sided footprint of one pixel. */
const lookUp = (
  raster: Raster,
  upper: Float64Array,
  lower: Float64Array,
  column: number,
  data: Uint8Array,
  at: number,
): void => {
  const i = 2 * column;
  const x = upper[i]!;
  const y = upper[i + 1]!;
  // Edges of the footprint: to the east and to the south.
  const ex = upper[i + 2]! - x;
  const ey = upper[i + 3]! - y;
  const sx = lower[i]! - x;
  const sy = lower[i + 1]! - y;
  const east = samplesFor(ex, ey);
  const south = samplesFor(sx, sy);
  const mx = x + (ex + sx) / 2;
  const my = y + (ey + sy) / 2;
  // Also leaves out NaN.
  if (!(mx >= 0.5 && my >= 0.5 && mx <= raster.width - 0.5 && my <= raster.height - 0.5)) return;
  sum.fill(0);
  for (let a = 0; a < east; a++)
    for (let b = 0; b < south; b++) {
      const u = (a + 0.5) / east;
      const v = (b + 0.5) / south;
      addSample(raster, x + u * ex + v * sx, y + u * ey + v * sy);
    }
  const n = east * south;
  for (let c = 0; c < 3; c++) data[at + c] = sum[c]! / n + 0.5;
};

const samplesFor = (dx: number, dy: number): number =>
  Math.min(MOST_SAMPLES, Math.max(1, Math.round(Math.hypot(dx, dy))));

const sum = new Float64Array(3);

/** Adds the bilinear colour at (x, y) to `sum`; the photo's rim is carried on outwards. */
const addSample = (raster: Raster, x: number, y: number): void => {
  const { width, height, data } = raster;
  const px = Math.min(width - 1, Math.max(0, x - 0.5));
  const py = Math.min(height - 1, Math.max(0, y - 0.5));
  const x0 = px | 0;
  const y0 = py | 0;
  const fx = px - x0;
  const fy = py - y0;
  const a = 3 * (y0 * width + x0);
  const right = x0 < width - 1 ? 3 : 0;
  const down = y0 < height - 1 ? 3 * width : 0;
  for (let c = a; c < a + 3; c++) {
    const top = data[c]! + fx * (data[c + right]! - data[c]!);
    const bottom = data[c + down]! + fx * (data[c + down + right]! - data[c + down]!);
    sum[c - a] = sum[c - a]! + top + fy * (bottom - top);
  }
};

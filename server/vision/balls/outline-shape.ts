import type { StoredBlocks } from '../../units/raster.ts';
import type { BallView } from './ball-view.ts';
import { blurAtEdge, type EdgeBlur } from './edge-blur.ts';
import type { FitWorkspace } from './fit-workspace.ts';
import { type CellNoise, footError } from './noise-model.ts';
import type { Patch } from './patch.ts';
import type { PictureBlur } from './picture-blur.ts';
import {
  BALL_COLOUR_COLUMNS,
  BALL_COLUMNS,
  ballLight,
  baseColumns,
  COLUMNS,
  LAWN_COLOUR_END,
  LOGISTIC,
  type Sun,
} from './shading.ts';
import type { ShadowDepth } from './shadow-depth.ts';
import type { StoredNoise } from './stored-noise.ts';

/** What a fit is told about the picture. */
export type FitSetting = {
  /** The sun, when the picture shows where it stands. */
  readonly sun: Sun | null;
  /** What blur its edges are expected to have. */
  readonly blur: PictureBlur;
  /** Most steps. */
  readonly steps: number;
  /** In which blocks the photo was stored, where that is known. */
  readonly blocks?: StoredBlocks | null | undefined;
};

/** A ball's outline fitted to a patch. */
export type OutlineFit = {
  /** Middle of the outline, px, and its covariance (xx, xy, yy) from the fit alone, px². */
  x: number;
  y: number;
  xx: number;
  xy: number;
  yy: number;
  /** Radius that the picture alone would choose minus the predicted one, px, and its standard deviation. */
  radiusOffset: number;
  radiusSd: number;
  blur: number;
  colourBlur: number;
  /** Mean colours (Y, Cb, Cr) of the ball's even part half lit, and of the lawn beside it. */
  readonly ball: Float64Array;
  readonly lawn: Float64Array;
  /** Coefficients of the COLUMNS, channel by channel. */
  readonly coefficients: Float64Array;
  noise: CellNoise;
  /** What rounding the stored photo's blocks adds to it. */
  readonly stored: StoredNoise;
  /** How deep the picture alone has the ball's cast shadow; null without a sun, and where it is hidden. */
  shadow: ShadowDepth | null;
  /** Mean of the robust misfit over the cells. */
  misfit: number;
  steps: number;
};

/** Where the outline is and how it is blurred, while a fit runs. */
export type Shape = {
  x: number;
  y: number;
  grow: number;
  lnBlur: number;
  lnColour: number;
  /** Blur added in the first steps, px: it widens the range from which the outline is found. */
  extra: number;
};

const edgeBlur: EdgeBlur = { inward: 0, outward: 0, spread: 0 };

/** Inverse of the outline's axes: (u, v) = inverse · (px from its middle). */
export const inverseAxes = (view: BallView): readonly [number, number, number, number] => {
  const det = view.ax * view.by - view.ay * view.bx;
  return [view.by / det, -view.bx / det, -view.ay / det, view.ax / det];
};

/** Fills the workspace's geometry for the outline `shape`; the light on ball and lawn only when `relight`. */
export const placeCells = (
  patch: Patch,
  view: BallView,
  setting: FitSetting,
  shape: Shape,
  space: FitWorkspace,
  relight: boolean,
): void => {
  const light = ballLight(view, setting.sun);
  const [iux, iuy, ivx, ivy] = inverseAxes(view);
  const [blurY, blurC] = blurs(patch, shape);
  const { base, cover, coverColour, distance, normalX, normalY, rho, down, side, foot, dark } = space;
  const lens = Math.sqrt(ownBlur2(patch, shape));
  const sunk = sunkBy(blurY, view.radius);
  const sunkColour = sunkBy(blurC, view.radius);
  for (let i = 0; i < patch.count; i++) {
    const dx = patch.x[i]! - shape.x;
    const dy = patch.y[i]! - shape.y;
    const v = ivx * dx + ivy * dy;
    // The middle of the outline has no direction from itself: a cell right there is taken for one a hair below.
    const u = iux * dx + iuy * dy || (v === 0 ? 1e-6 : 0);
    const r = Math.sqrt(u * u + v * v);
    const gx = (iux * u + ivx * v) / r;
    const gy = (iuy * u + ivy * v) / r;
    const g = Math.sqrt(gx * gx + gy * gy);
    const s = (r - 1) / g - shape.grow;
    down[i] = u;
    side[i] = v;
    rho[i] = r;
    distance[i] = s;
    normalX[i] = gx / g;
    normalY[i] = gy / g;
    cover[i] = 1 / (1 + Math.exp((LOGISTIC * (s + sunk)) / blurY));
    coverColour[i] = 1 / (1 + Math.exp((LOGISTIC * (s + sunkColour)) / blurC));
    foot[i] = footError(u / r);
    if (!relight) continue;
    blurAtEdge(s / lens, lens * g, edgeBlur);
    dark[i] = baseColumns(light, u, v, r, edgeBlur, base, i, space.capacity);
    if (patch.light !== null) lightLawn(space, i, patch.light[i]!);
  }
};

/** Multiplies cell `i`'s columns of the lawn by the light that falls there. */
const lightLawn = ({ base, capacity }: FitWorkspace, i: number, light: number): void => {
  for (let o = BALL_COLUMNS * capacity + i; o < COLUMNS * capacity; o += capacity) base[o] = base[o]! * light;
};

/** How far inside the outline of a disc of `radius` its half-way line lies once it is blurred by `blur`, all px: σ² / 2R, as heat leaves a bulge (curvature flow, to first order). */
export const sunkBy = (blur: number, radius: number): number => (blur * blur) / (2 * radius);

/** Square of the picture's own blur of luma in px: averaging cells adds a box of their size. */
const ownBlur2 = ({ cell }: Patch, { lnBlur }: Shape): number =>
  Math.exp(2 * lnBlur) + (cell > 1 ? (cell * cell) / 12 : 0);

/** Total blurs of luma and colour in px. */
export const blurs = (patch: Patch, shape: Shape): readonly [number, number] => {
  const luma2 = ownBlur2(patch, shape) + shape.extra * shape.extra;
  return [Math.sqrt(luma2), Math.sqrt(luma2 + Math.exp(2 * shape.lnColour))];
};

/** The sum over columns `first`–`last` (not included) of cell `i`'s base values times channel `c`'s coefficients. */
const columnSum = (
  { base, capacity }: FitWorkspace,
  { coefficients }: OutlineFit,
  i: number,
  c: number,
  first: number,
  last: number,
): number => {
  let sum = 0;
  for (let k = first; k < last; k++) sum += base[k * capacity + i]! * coefficients[c * COLUMNS + k]!;
  return sum;
};

/** What the ball alone would show at cell `i` in channel `c`. */
export const ballValue = (fit: OutlineFit, space: FitWorkspace, i: number, c: number): number =>
  columnSum(space, fit, i, c, 0, c === 0 ? BALL_COLUMNS : BALL_COLOUR_COLUMNS);

/** What the lawn alone would show at cell `i` in channel `c`. */
export const lawnValue = (fit: OutlineFit, space: FitWorkspace, i: number, c: number): number =>
  columnSum(space, fit, i, c, BALL_COLUMNS, c === 0 ? COLUMNS : LAWN_COLOUR_END);

/** What the model shows at cell `i` in channel `c`. */
export const modelValue = (fit: OutlineFit, space: FitWorkspace, i: number, c: number): number => {
  const w = c === 0 ? space.cover[i]! : space.coverColour[i]!;
  return w * ballValue(fit, space, i, c) + (1 - w) * lawnValue(fit, space, i, c) + space.bend[3 * i + c]!;
};

import type { PointName } from '../lawn/named-points.ts';
import { metres } from '../units/numbers.ts';
import type { CameraFault } from './camera-fault.ts';
import { PROJECTION_LENGTH, pointAtHeight, projectInto } from './camera-model.ts';
import { type MarksFit, ROBUST_FROM } from './fit-marks.ts';
import type { MarkNoise, WeighedMark } from './mark-observations.ts';
import type { Camera, MarkedPoint } from './types.ts';

/** Mark minus projection in px for each mark, under the mark's name. */
export const markResiduals = (
  camera: Camera,
  weighed: readonly WeighedMark[],
): { readonly name: PointName; readonly residual: readonly [number, number] }[] => {
  const out = new Float64Array(PROJECTION_LENGTH);
  return weighed.map(({ placed }) => {
    const seen = projectInto(camera, placed.x, placed.y, 0, out);
    const { image, name } = placed.mark;
    return { name, residual: seen ? [image.x - out[0]!, image.y - out[1]!] : [Number.NaN, Number.NaN] };
  });
};

/** Root mean square of numbers; 0 of none. */
export const rootMeanSquare = (values: readonly number[]): number =>
  values.length ? Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length) : 0;

/** A mark this many standard deviations from where the camera sees its point is beyond any finger: at five, one honest mark in 270,000. */
const BEYOND_FINGER = 5;
/** Robust weights take care of a hoop that stands this far from its place (m); further away the mark itself is wrong. */
const BEYOND_SETTING = 0.6;
/** With more than this share of marks given up, the rest cannot be trusted either. */
const MOST_GIVEN_UP = 0.34;
/** Another order of the names must fit better by this much (in variances) to be offered. */
const BETTER_ORDER = 30;

/** One mark's misfit: standard deviations, px, and metres on the lawn (Infinity above the horizon). */
type Misfit = {
  readonly mark: MarkedPoint;
  readonly deviations: number;
  readonly px: number;
  readonly lawn: number;
};

const misfits = (fit: MarksFit): Misfit[] => {
  const residuals = markResiduals(fit.state, fit.weighed);
  return fit.weighed.map(({ placed, a, b, c }, i) => {
    const [ex, ey] = residuals[i]!.residual;
    const at = pointAtHeight(fit.state, placed.mark.image, metres(0));
    return {
      mark: placed.mark,
      deviations: Math.hypot(a * ex, b * ex + c * ey),
      px: Math.hypot(ex, ey),
      lawn: at ? Math.hypot(at.x - placed.x, at.y - placed.y) : Number.POSITIVE_INFINITY,
    };
  });
};

/** A function that finds the best other order of the names, and its cost. */
type OtherOrder = () => { readonly order: MarkedPoint[]; readonly cost: number } | null;

const faultOf = (worst: Misfit, cost: number, noise: MarkNoise, other: OtherOrder): CameraFault => {
  const better = other();
  const suggestion = better && better.cost + BETTER_ORDER < cost ? better.order : null;
  const advice = suggestion
    ? `The marks fit if they are named otherwise: ${suggestion.map((point) => point.name).join(', ')} in the order given.`
    : `Check ${worst.mark.name} first, then the other marks and the size of the lawn.`;
  return {
    code: 'unexplained-residual',
    point: worst.mark.name,
    message: `The marks do not fit one lawn: ${worst.mark.name} is ${worst.px.toFixed(0)} px from where the others put it; a careful finger is within ${(2 * noise.markSd).toFixed(0)} px. ${advice}`,
    ...(suggestion ? { suggestion } : {}),
  };
};

/** The fault of marks that no camera explains, naming the worst (`cost`: the fit's, comparable to that of other orders); null when fingers and the setting of the court explain all of them. */
export const residualFault = (
  fit: MarksFit,
  cost: number,
  noise: MarkNoise,
  other: OtherOrder,
): CameraFault | null => {
  const all = misfits(fit).sort((a, b) => b.deviations - a.deviations);
  const bad = all.filter((misfit) => misfit.deviations > BEYOND_FINGER);
  if (bad.length === 0) return null;
  const robust = fit.weighed.length >= ROBUST_FROM && bad.length <= MOST_GIVEN_UP * fit.weighed.length;
  const worst = robust ? bad.find((misfit) => misfit.lawn > BEYOND_SETTING) : bad[0];
  return worst ? faultOf(worst, cost, noise, other) : null;
};

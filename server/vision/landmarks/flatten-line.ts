import { pointAtHeight } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { type Court, outwardNormal, type Side, sideEnds } from '../../lawn/court.ts';
import { metres } from '../../units/numbers.ts';
import { imagePoint } from '../../units/points.ts';
import { type Patch, type Samples, sampleCount } from './patch.ts';

/** Spacing of the knots across the boundary between which its brightness runs straight, metres; never narrower than half the samples. */
const KNOTS = 0.01;

const median = (values: number[]): number => {
  const sorted = values.sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
};

/** Distance outwards from the boundary's inner edge of the ground seen at image (x, y), metres; NaN above the horizon. */
type Outward = (x: number, y: number) => number;

const outwardOf = (camera: Camera, court: Court, side: Side): Outward => {
  const [start] = sideEnds(court, side);
  const [nx, ny] = outwardNormal(side);
  return (x, y) => {
    const ground = pointAtHeight(camera, imagePoint(x, y), metres(0));
    return ground ? (ground.x - start.x) * nx + (ground.y - start.y) * ny : Number.NaN;
  };
};

/** Half the outward distance between neighbouring samples in the middle of the patch, metres. */
const knotSpacing = (patch: Patch, outward: Outward): number => {
  const x = patch.left + (patch.columns / 2) * patch.step;
  const y = patch.top + (patch.rows / 2) * patch.step;
  const here = outward(x, y);
  const steps = [outward(x + patch.step, y) - here, outward(x, y + patch.step) - here];
  return Math.max(KNOTS, Math.hypot(...steps.filter(Number.isFinite)) / 2);
};

/** A profile across the boundary, the same all along it: values at knots, `first` the number of the first one, and straight between them. */
type Profile = { readonly first: number; readonly values: Float64Array };

const valueAt = ({ first, values }: Profile, at: number): number => {
  const i = Math.min(values.length - 2, Math.max(0, Math.floor(at) - first));
  const share = at - first - i;
  return values[i]! * (1 - share) + values[i + 1]! * share;
};

/** Rounds of reweighting towards the least sum of absolute distances: what stands beside the line is an outlier of it. */
const ROUNDS = 6;
/** Distances below this count as none, 0 to 255 scale. */
const NEAR = 1;
/** Knots without samples take the mean of their neighbours; so little of that holds everywhere. */
const SMOOTH = 1e-3;

/** Solves a symmetric tridiagonal system in place; `right` becomes the solution. */
const solveTridiagonal = (diagonal: Float64Array, beside: Float64Array, right: Float64Array): void => {
  const n = diagonal.length;
  for (let i = 1; i < n; i++) {
    const factor = beside[i - 1]! / diagonal[i - 1]!;
    diagonal[i]! -= factor * beside[i - 1]!;
    right[i]! -= factor * right[i - 1]!;
  }
  right[n - 1]! /= diagonal[n - 1]!;
  for (let i = n - 2; i >= 0; i--) right[i] = (right[i]! - beside[i]! * right[i + 1]!) / diagonal[i]!;
};

/** The profile that leaves the least sum of absolute distances of `values` at places `at` (in knots; NaN left out). */
const fitProfile = (values: Float64Array, at: Float64Array): Profile => {
  const seen = [...at].filter(Number.isFinite);
  const first = Math.floor(Math.min(...seen));
  const count = Math.max(2, Math.floor(Math.max(...seen)) - first + 2);
  let profile: Profile = { first, values: new Float64Array(count) };
  for (let round = 0; round < ROUNDS; round++) {
    const diagonal = new Float64Array(count).fill(SMOOTH);
    const beside = new Float64Array(count - 1).fill(-SMOOTH / 2);
    const right = new Float64Array(count);
    for (let k = 0; k < at.length; k++) {
      const place = at[k]!;
      if (Number.isNaN(place)) continue;
      const i = Math.floor(place) - first;
      const share = place - first - i;
      const weight = round === 0 ? 1 : 1 / Math.max(NEAR, Math.abs(values[k]! - valueAt(profile, place)));
      diagonal[i]! += weight * (1 - share) ** 2;
      diagonal[i + 1]! += weight * share ** 2;
      beside[i]! += weight * share * (1 - share);
      right[i]! += weight * (1 - share) * values[k]!;
      right[i + 1]! += weight * share * values[k]!;
    }
    solveTridiagonal(diagonal, beside, right);
    profile = { first, values: right };
  }
  return profile;
};

/** Spread of the samples near each knot about the profile (1.4826 × the median of distances, for a normal distribution). */
const spreadOf = (profile: Profile, values: Float64Array, at: Float64Array): Profile => {
  const members = Array.from(profile.values, (): number[] => []);
  values.forEach((value, k) => {
    const place = at[k]!;
    if (!Number.isNaN(place))
      members[Math.round(place) - profile.first]!.push(Math.abs(value - valueAt(profile, place)));
  });
  const spreads = members.map((distances) => (distances.length ? 1.4826 * median(distances) : 0));
  return { first: profile.first, values: Float64Array.from(spreads) };
};

/** Grass is no quieter than this, 0 to 255 scale: what JPEG leaves. */
const QUIETEST = 1;

/** Variance of the ground at each knot as a multiple of the quiet half's. */
const unrestOf = ({ first, values }: Profile): Profile => {
  const quiet = Math.max(QUIETEST, median([...values]));
  return { first, values: values.map((spread) => Math.max(1, spread / quiet) ** 2) };
};

/** A level that can be divided by, 0 to 255 scale: a colourless ground has no whiteness to lose. */
const DARKEST = 8;

/**
 * The patch without the boundary line: its profile across `side` is taken off, so that what stands beside the line or before it stays. What a thing
 * before the paint hides is kept in `hidden`: the profile's level above the grass'.
 */
export const flattenLine = (camera: Camera, court: Court, side: Side, patch: Patch): Patch => {
  const outward = outwardOf(camera, court, side);
  const width = knotSpacing(patch, outward);
  const at = Float64Array.from({ length: sampleCount(patch) }, (_, i) => {
    const x = patch.left + ((i % patch.columns) + 0.5) * patch.step;
    const y = patch.top + (Math.floor(i / patch.columns) + 0.5) * patch.step;
    return outward(x, y) / width;
  });
  if (!at.some(Number.isFinite)) return patch;
  const everywhere = (profile: Profile, sky: number): Float64Array =>
    at.map((place) => (Number.isNaN(place) ? sky : valueAt(profile, place)));
  const flat = patch.channels.map((values) => {
    const profile = fitProfile(values, at);
    const grass = median([...profile.values]);
    const levels = everywhere(profile, grass);
    return {
      values: values.map((value, i) => value - levels[i]!),
      hidden: levels.map((one) => one - grass),
      tone: levels.map((one) => one / (Math.abs(grass) < DARKEST ? DARKEST : grass)),
      unrest: everywhere(unrestOf(spreadOf(profile, values, at)), 1),
    };
  });
  return {
    ...patch,
    channels: flat.map(({ values }) => values) as unknown as Samples,
    hidden: flat.map(({ hidden }) => hidden) as unknown as Samples,
    tone: flat.map(({ tone }) => tone) as unknown as Samples,
    unrest: flat.map(({ unrest }) => unrest) as unknown as Samples,
  };
};

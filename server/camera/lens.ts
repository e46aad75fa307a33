/**
 * The radial lens: a ray at radius r (units of the focal length) is seen at radius r·(1 + k1 r² + k2 r⁴). The two terms are those of
 * Brown's model (D. C. Brown, "Close-range camera calibration", Photogrammetric Engineering 37, 1971).
 */
export type Radial = readonly [number, number];

/** `root` where it is positive, else none: infinity. */
const positive = (root: number): number => (root > 0 ? root : Number.POSITIVE_INFINITY);

/**
 * Square of the largest radius up to which the lens maps radii one to one: the smallest positive root s of 1 + 3 k1 s + 5 k2 s², the
 * derivative of the seen radius. `Infinity` where the derivative never vanishes.
 */
export const monotoneLimit = (radial: Radial): number => {
  const a = 5 * radial[1];
  const b = 3 * radial[0];
  if (a === 0) return b < 0 ? -1 / b : Number.POSITIVE_INFINITY;
  const discriminant = b * b - 4 * a;
  if (discriminant < 0) return Number.POSITIVE_INFINITY;
  // The root nearest to zero, in the form that does not cancel.
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant)) / 2;
  return Math.min(positive(q / a), positive(1 / q));
};

/** Factor by which the lens stretches a ray whose squared radius is `s`. */
export const stretch = (radial: Radial, s: number): number => 1 + s * (radial[0] + s * radial[1]);

const NEWTON_STEPS = 30;

/**
 * The ray's radius that the lens shows at radius `seen`; `NaN` when no ray inside the one-to-one range is seen there. Newton's method kept
 * inside a shrinking bracket, so it cannot leave the range.
 */
export const unstretch = (radial: Radial, seen: number): number => {
  if (seen === 0 || (radial[0] === 0 && radial[1] === 0)) return seen;
  const limit = Math.sqrt(monotoneLimit(radial));
  let low = 0;
  let high = Math.min(limit, Math.max(4 * seen, 1));
  if (high < limit)
    while (high * stretch(radial, high * high) < seen && high < limit) high = Math.min(limit, 2 * high);
  if (!(high * stretch(radial, high * high) > seen)) return Number.NaN;
  let r = Math.min(seen, high);
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const s = r * r;
    const excess = r * stretch(radial, s) - seen;
    if (Math.abs(excess) < 1e-14 * (1 + seen)) break;
    if (excess > 0) high = r;
    else low = r;
    const next = r - excess / (1 + s * (3 * radial[0] + 5 * radial[1] * s));
    r = next > low && next < high ? next : (low + high) / 2;
  }
  return r;
};

import { incompleteGamma, logGamma } from './gamma.ts';

/** Refuses a probability outside [0, 1]. */
const requireProbability = (name: string, p: number): void => {
  if (!(p >= 0 && p <= 1))
    throw new RangeError(`Expected a probability from 0 to 1 for ${name} but received ${p}`);
};

/** Density of the standard normal distribution at `z`. */
export const normalDensity = (z: number): number => Math.exp(-(z * z) / 2) / Math.sqrt(2 * Math.PI);

/**
 * Probability that a standard normal variable is below `z`. Φ(z) = ½ erfc(−z/√2) and erfc(t) = Q(½, t²) (DLMF 7.11.2), so the lower
 * tail keeps its relative accuracy far out. ±∞ give 1 and 0.
 */
export const normalCdf = (z: number): number => {
  const { lower, upper } = incompleteGamma(0.5, (z * z) / 2);
  return z < 0 ? upper / 2 : 0.5 + lower / 2;
};

/** Steps after which Newton's iteration is stopped; it needs fewer than 20. */
const MOST_STEPS = 200;

/** Root of `f` by Newton's method: `step(u)` gives f(u) / f′(u); stops when a step no longer changes `u`. */
const newton = (start: number, step: (u: number) => number): number => {
  let u = start;
  for (let i = 0; i < MOST_STEPS; i++) {
    const next = u - step(u);
    if (Math.abs(next - u) <= 4 * Number.EPSILON * Math.max(1, Math.abs(u))) return next;
    u = next;
  }
  return u;
};

/**
 * The `z` below which a standard normal variable lies with probability `p`; 0 and 1 give −∞ and ∞. log Φ is concave and
 * Φ(z) ≤ ½ exp(−z²/2) for z ≤ 0, so Newton's method on log Φ from that bound approaches the root from one side.
 */
export const normalQuantile = (p: number): number => {
  requireProbability('p', p);
  if (p > 0.5) return -normalQuantile(1 - p) || 0;
  if (p === 0) return Number.NEGATIVE_INFINITY;
  if (p === 0.5) return 0;
  const start = -Math.sqrt(-2 * Math.log(2 * p));
  return newton(start, (z) => {
    const below = normalCdf(z);
    return (Math.log(below / p) * below) / normalDensity(z);
  });
};

/** Probability that a chi-square variable with `degrees` of freedom (> 0) is below `x`. */
export const chiSquareCdf = (x: number, degrees: number): number => incompleteGamma(degrees / 2, x / 2).lower;

/** Smallest power of two times the mean above which less than `q` is left. */
const farAbove = (q: number, degrees: number): number => {
  let x = degrees;
  while (incompleteGamma(degrees / 2, x / 2).upper > q) x *= 2;
  return x;
};

/**
 * The value below which a chi-square variable with `degrees` of freedom (> 0) lies with probability `p`; 0 and 1 give 0 and ∞.
 * In u = log x the density is log-concave, so both tails are, and Newton's method on the logarithm of the smaller tail, started
 * outside the root, approaches it from one side.
 */
export const chiSquareQuantile = (p: number, degrees: number): number => {
  requireProbability('p', p);
  if (!(degrees > 0)) throw new RangeError(`Expected a positive number for degrees but received ${degrees}`);
  if (p === 0) return 0;
  if (p === 1) return Number.POSITIVE_INFINITY;
  const a = degrees / 2;
  // Density of u = log x, that is x times the density of x.
  const density = (x: number) => Math.exp(a * Math.log(x / 2) - x / 2 - logGamma(a));
  if (p < 0.5) {
    const start = Math.log(2) + (Math.log(p) + logGamma(a + 1)) / a;
    const lowerStep = (u: number) => {
      const { lower } = incompleteGamma(a, Math.exp(u) / 2);
      return (Math.log(lower / p) * lower) / density(Math.exp(u));
    };
    return Math.exp(newton(start, lowerStep));
  }
  const q = 1 - p;
  const upperStep = (u: number) => {
    const { upper } = incompleteGamma(a, Math.exp(u) / 2);
    return -(Math.log(upper / q) * upper) / density(Math.exp(u));
  };
  return Math.exp(newton(Math.log(farAbove(q, degrees)), upperStep));
};

/**
 * Wilson's two-sided interval for a proportion of which `successes` of `trials` were seen, at `confidence` in (0, 1)
 * (NIST/SEMATECH e-Handbook, 7.2.4.1). No trials: the whole range 0 to 1.
 */
export const wilsonInterval = (
  successes: number,
  trials: number,
  confidence: number,
): { readonly lower: number; readonly upper: number } => {
  if (trials === 0) return { lower: 0, upper: 1 };
  const z = normalQuantile((1 + confidence) / 2);
  const share = successes / trials;
  const middle = share + (z * z) / (2 * trials);
  const half = z * Math.sqrt((share * (1 - share)) / trials + (z * z) / (4 * trials * trials));
  const scale = 1 + (z * z) / trials;
  return { lower: Math.max(0, (middle - half) / scale), upper: Math.min(1, (middle + half) / scale) };
};

/** Terms of Stirling's series B₂ₙ / (2n(2n−1)) (NIST Digital Library of Mathematical Functions, 5.11.1). */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360];
/** From here on Stirling's series with six terms is good to 1e-15. */
const STIRLING_FROM = 15;

/**
 * Natural logarithm of the gamma function, for `x` > 0. Stirling's series after shifting the argument up by the recurrence
 * Γ(x + 1) = x Γ(x) (NIST Digital Library of Mathematical Functions, 5.5.1 and 5.11.1).
 */
export const logGamma = (x: number): number => {
  let shift = 0;
  let at = x;
  while (at < STIRLING_FROM) {
    shift += Math.log(at);
    at += 1;
  }
  let series = 0;
  for (const [n, term] of STIRLING.entries()) series += term / at ** (2 * n + 1);
  return (at - 0.5) * Math.log(at) - at + Math.log(2 * Math.PI) / 2 + series - shift;
};

/** The factor xᵃ e⁻ˣ / Γ(a) that both expansions share. */
const factor = (a: number, x: number): number => Math.exp(a * Math.log(x) - x - logGamma(a));

/** Lower part by its power series (DLMF 8.11.4); converges fast for x < a + 1. */
const lowerSeries = (a: number, x: number): number => {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; term > sum * Number.EPSILON * 0.25; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum * factor(a, x);
};

/** A stand-in for a zero denominator in the continued fraction, far below any value met. */
const TINY = 1e-300;
/** More steps than any a below 1e6 needs at x ≥ a + 1; a stop, not a tolerance. */
const MOST_STEPS = 100_000;

/** Upper part by its continued fraction (DLMF 8.9.2, even part), evaluated forward; converges fast for x ≥ a + 1. */
const upperFraction = (a: number, x: number): number => {
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let value = d;
  for (let n = 1; n < MOST_STEPS; n++) {
    const numerator = -n * (n - a);
    b += 2;
    d = 1 / (numerator * d + b || TINY);
    c = b + numerator / c || TINY;
    const step = c * d;
    value *= step;
    if (Math.abs(step - 1) < Number.EPSILON) break;
  }
  return value * factor(a, x);
};

/**
 * Regularised incomplete gamma functions P(a, x) (`lower`) and Q(a, x) = 1 − P (`upper`), a > 0, x ≥ 0. Each keeps its relative
 * accuracy where it is the smaller of the two. x = 0 gives 0 and 1, x = ∞ gives 1 and 0.
 */
export const incompleteGamma = (a: number, x: number): { readonly lower: number; readonly upper: number } => {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
  if (x < a + 1) {
    const lower = lowerSeries(a, x);
    return { lower, upper: 1 - lower };
  }
  const upper = upperFraction(a, x);
  return { lower: 1 - upper, upper };
};

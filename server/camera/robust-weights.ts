/** Tukey's biweight keeps 95 % efficiency on normal errors with this constant (P. J. Huber, "Robust Statistics", 1981). */
const BIWEIGHT = 4.685;
/** Median of |x| of a standard normal variable is 1 / 1.4826. */
const NORMAL_MEDIAN = 1.4826;

/** Tukey's biweight at a standardized residual: 1 at zero, 0 from 4.685 on. */
export const biweight = (standardized: number): number => {
  const t = standardized / BIWEIGHT;
  return Math.abs(t) < 1 ? (1 - t * t) ** 2 : 0;
};

/** Cost of a standardized residual under Tukey's biweight: x² near zero, constant from 4.685 on; the constant for one that is not seen. */
export const biweightCost = (standardized: number): number => {
  const t = Math.min(1, (standardized / BIWEIGHT) ** 2);
  return (BIWEIGHT ** 2 / 3) * (Number.isNaN(t) ? 1 : 1 - (1 - t) ** 3);
};

/** Derivative of biweight(x)·x. */
const biweightSlope = (standardized: number): number => {
  const t = (standardized / BIWEIGHT) ** 2;
  return t < 1 ? (1 - t) * (1 - 5 * t) : 0;
};

/** Standard deviation of the core of `values` (about zero), from the median of their absolute values; NaN are left out; 0 of none. */
export const coreSpread = (values: Float64Array): number => {
  const sizes = new Float64Array(values.length);
  let n = 0;
  for (const value of values) if (!Number.isNaN(value)) sizes[n++] = Math.abs(value);
  sizes.subarray(0, n).sort();
  if (n === 0) return 0;
  const median = n % 2 ? sizes[(n - 1) / 2]! : (sizes[n / 2 - 1]! + sizes[n / 2]!) / 2;
  return NORMAL_MEDIAN * median;
};

/**
 * Information that the weighted samples truly hold, as a share of what their weights claim: an M-estimate has the covariance
 * mean ψ² / (mean ψ')² · (Σ J Jᵀ)⁻¹, while the weighted equations claim (mean w · Σ J Jᵀ)⁻¹ (Huber, chapter 7). On normal errors it is near 1.
 */
export const biweightHonesty = (standardized: Float64Array): number => {
  let weight = 0;
  let square = 0;
  let slope = 0;
  for (const value of standardized) {
    if (Number.isNaN(value)) continue;
    const w = biweight(value);
    weight += w;
    square += (w * value) ** 2;
    slope += biweightSlope(value);
  }
  return weight > 0 && square > 0 && slope > 0 ? (slope * slope) / (square * weight) : 1;
};

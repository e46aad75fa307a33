/** Tables of the normal distribution over ±REACH standard deviations, `PER_UNIT` entries a unit: what a fit of thousands of points looks up. */
const REACH = 6;
const PER_UNIT = 512;
const SIZE = 2 * REACH * PER_UNIT + 2;

/** Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26: error below 1.5e-7. */
const erf = (x: number): number => {
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const p = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const y = 1 - p * Math.exp(-x * x);
  return x < 0 ? -y : y;
};

const DISTRIBUTION = Float64Array.from(
  { length: SIZE },
  (_, i) => (1 + erf((i / PER_UNIT - REACH) / Math.SQRT2)) / 2,
);
const DENSITY = Float64Array.from({ length: SIZE }, (_, i) => {
  const x = i / PER_UNIT - REACH;
  return Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
});

const lookUp = (table: Float64Array, x: number, below: number, above: number): number => {
  const p = (x + REACH) * PER_UNIT;
  if (p <= 0) return below;
  if (p >= SIZE - 1) return above;
  const i = p | 0;
  const a = table[i]!;
  return a + (p - i) * (table[i + 1]! - a);
};

/** The standard normal distribution function, to 1e-6. */
export const normalBelow = (x: number): number => lookUp(DISTRIBUTION, x, 0, 1);
/** The standard normal density, to 1e-6. */
export const normalDensity = (x: number): number => lookUp(DENSITY, x, 0, 0);

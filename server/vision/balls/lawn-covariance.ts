/** 97 % point of χ² with 3 degrees of freedom (NIST/SEMATECH e-Handbook, 1.3.6.7.4, interpolated) and the share of the covariance left inside it. */
const TRIM = 8.95;
const TRIM_SHRINK = 0.915;
const TRIM_ROUNDS = 5;

/** Rows of the inverse covariance: xx, xy, xz, yy, yz, zz. */
export type Inverse3 = Float64Array<ArrayBuffer>;

const invert = (m: Float64Array): Inverse3 => {
  const [a, b, c, d, e, f] = m as unknown as [number, number, number, number, number, number];
  const det = a * (d * f - e * e) - b * (b * f - c * e) + c * (b * e - c * d);
  return Float64Array.of(
    (d * f - e * e) / det,
    (c * e - b * f) / det,
    (b * e - c * d) / det,
    (a * f - c * c) / det,
    (b * c - a * e) / det,
    (a * d - b * b) / det,
  );
};

/** Squared Mahalanobis length of (x, y, z). */
export const squared = (n: Inverse3, x: number, y: number, z: number): number =>
  x * x * (n[0] as number) +
  y * y * (n[3] as number) +
  z * z * (n[5] as number) +
  2 * (x * y * (n[1] as number) + x * z * (n[2] as number) + y * z * (n[4] as number));

/** Covariance of the `count` contrasts in `samples` that belong to the lawn, found by trimming; returned inverted. */
export const lawnCovariance = (samples: Float32Array, count: number): Inverse3 => {
  let inverse = Float64Array.of(1e-9, 0, 0, 1e-9, 0, 1e-9);
  // The first round starts from the medians' spread, which half of all samples cannot move.
  for (let c = 0; c < 3; c++) {
    const sizes = new Float32Array(count);
    for (let i = 0; i < count; i++) sizes[i] = Math.abs(samples[3 * i + c] as number);
    sizes.sort();
    const sd = 1.4826 * (sizes[count >> 1] ?? 1) + 1e-4;
    inverse[[0, 3, 5][c] as number] = 1 / (sd * sd);
  }
  const m = new Float64Array(6);
  for (let round = 0; round < TRIM_ROUNDS; round++) {
    m.fill(0);
    let kept = 0;
    for (let i = 0; i < 3 * count; i += 3) {
      const x = samples[i] as number;
      const y = samples[i + 1] as number;
      const z = samples[i + 2] as number;
      if (squared(inverse, x, y, z) > TRIM) continue;
      kept++;
      m[0] = (m[0] as number) + x * x;
      m[1] = (m[1] as number) + x * y;
      m[2] = (m[2] as number) + x * z;
      m[3] = (m[3] as number) + y * y;
      m[4] = (m[4] as number) + y * z;
      m[5] = (m[5] as number) + z * z;
    }
    if (kept < 30) break;
    for (let k = 0; k < 6; k++) m[k] = (m[k] as number) / (kept * TRIM_SHRINK);
    // One grey level of rounding keeps the inverse finite on a lawn without texture.
    for (const k of [0, 3, 5]) m[k] = (m[k] as number) + 1e-6;
    inverse = invert(m);
  }
  return inverse;
};

import { invert3, type Symmetric3, squared } from './symmetric3.ts';

/** 97 % point of χ² with 3 degrees of freedom (NIST/SEMATECH e-Handbook, 1.3.6.7.4, interpolated) and the share of the covariance left inside it. */
const TRIM = 8.95;
const TRIM_SHRINK = 0.915;
const TRIM_ROUNDS = 5;

/** Covariance of the `count` contrasts in `samples` that belong to the lawn, found by trimming; returned inverted. */
export const lawnCovariance = (samples: Float32Array, count: number): Symmetric3 => {
  let inverse: Symmetric3 = Float64Array.of(1e-9, 0, 0, 1e-9, 0, 1e-9);
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
    ({ inverse } = invert3(m));
  }
  return inverse;
};

/**
 * Sums over the first `count` cells of row r of `a` times row s of `b`, for r from `from` to `rows` − 1 and s up to r, into `out[r · outPitch + s]`.
 * Row r begins at r · `pitch`. Four sums run at once: they stay in registers, which is what makes this the fast way.
 */
export const rowProducts = (
  a: Float64Array,
  b: Float64Array,
  pitch: number,
  from: number,
  rows: number,
  count: number,
  out: Float64Array,
  outPitch: number,
): void => {
  for (let r = from; r < rows; r++) {
    const ar = r * pitch;
    const end = ar + count;
    let s = 0;
    for (; s + 3 <= r; s += 4) {
      const b0 = (s - r) * pitch;
      const b1 = b0 + pitch;
      const b2 = b1 + pitch;
      const b3 = b2 + pitch;
      let [s0, s1, s2, s3] = [0, 0, 0, 0];
      for (let k = ar; k < end; k++) {
        const v = a[k]!;
        s0 += v * b[k + b0]!;
        s1 += v * b[k + b1]!;
        s2 += v * b[k + b2]!;
        s3 += v * b[k + b3]!;
      }
      const o = r * outPitch + s;
      out[o] = s0;
      out[o + 1] = s1;
      out[o + 2] = s2;
      out[o + 3] = s3;
    }
    for (; s <= r; s++) {
      const shift = (s - r) * pitch;
      let sum = 0;
      for (let k = ar; k < end; k++) sum += a[k]! * b[k + shift]!;
      out[r * outPitch + s] = sum;
    }
  }
};

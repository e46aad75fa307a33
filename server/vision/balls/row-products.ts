/**
 * Sums over the first `count` cells of row r of `a` times row s of `b`, for r from `from` to `rows` − 1 and s up to r, into `out[r · outPitch + s]`.
 * Row r begins at r · `pitch`. Eight sums of two rows with four run at once: they stay in registers, which is what makes this the fast way.
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
  let r = from;
  for (; r + 1 < rows; r += 2) {
    let s = 0;
    for (; s + 3 <= r; s += 4) eight(a, b, pitch, r, s, count, out, outPitch);
    for (; s <= r; s++) two(a, b, pitch, r, s, count, out, outPitch);
    out[(r + 1) * outPitch + r + 1] = product(a, b, (r + 1) * pitch, (r + 1) * pitch, count);
  }
  if (r < rows)
    for (let s = 0; s <= r; s++) out[r * outPitch + s] = product(a, b, r * pitch, s * pitch, count);
};

/** The products of rows `r` and `r` + 1 of `a` with rows `s` to `s` + 3 of `b`. */
const eight = (
  a: Float64Array,
  b: Float64Array,
  pitch: number,
  r: number,
  s: number,
  count: number,
  out: Float64Array,
  outPitch: number,
): void => {
  const [r0, s0] = [r * pitch, s * pitch];
  const [r1, s1, s2, s3] = [r0 + pitch, s0 + pitch, s0 + 2 * pitch, s0 + 3 * pitch];
  let [p0, p1, p2, p3, q0, q1, q2, q3] = [0, 0, 0, 0, 0, 0, 0, 0];
  for (let k = 0; k < count; k++) {
    const v = a[r0 + k]!;
    const w = a[r1 + k]!;
    const b0 = b[s0 + k]!;
    const b1 = b[s1 + k]!;
    const b2 = b[s2 + k]!;
    const b3 = b[s3 + k]!;
    p0 += v * b0;
    p1 += v * b1;
    p2 += v * b2;
    p3 += v * b3;
    q0 += w * b0;
    q1 += w * b1;
    q2 += w * b2;
    q3 += w * b3;
  }
  const o = r * outPitch + s;
  out[o] = p0;
  out[o + 1] = p1;
  out[o + 2] = p2;
  out[o + 3] = p3;
  out[o + outPitch] = q0;
  out[o + outPitch + 1] = q1;
  out[o + outPitch + 2] = q2;
  out[o + outPitch + 3] = q3;
};

/** The products of rows `r` and `r` + 1 of `a` with row `s` of `b`. */
const two = (
  a: Float64Array,
  b: Float64Array,
  pitch: number,
  r: number,
  s: number,
  count: number,
  out: Float64Array,
  outPitch: number,
): void => {
  const [r0, s0] = [r * pitch, s * pitch];
  const r1 = r0 + pitch;
  let [p, q] = [0, 0];
  for (let k = 0; k < count; k++) {
    const v = b[s0 + k]!;
    p += a[r0 + k]! * v;
    q += a[r1 + k]! * v;
  }
  out[r * outPitch + s] = p;
  out[(r + 1) * outPitch + s] = q;
};

const product = (a: Float64Array, b: Float64Array, i: number, j: number, count: number): number => {
  let sum = 0;
  for (let k = 0; k < count; k++) sum += a[i + k]! * b[j + k]!;
  return sum;
};

/** A colour profile that is a 3 × 3 matrix after a tone curve for each channel, as cameras' and screens' profiles are. */
export type MatrixProfile = {
  /** Linear light, 0 to 1, of the 256 codes of red, green and blue. */
  readonly curves: readonly [Float64Array, Float64Array, Float64Array];
  /** Linear RGB → CIE XYZ under D50, row by row. */
  readonly toXyz: readonly number[];
};

const CODES = 256;

/** Linear sRGB → XYZ under D50, row by row (ICC's sRGB profile, sRGB2014.icc; IEC 61966-2-1 adapted by Bradford). */
const SRGB_TO_XYZ = [0.43607, 0.38515, 0.14307, 0.22249, 0.71687, 0.06061, 0.01392, 0.09708, 0.7141] as const;

const ascii = (view: DataView, at: number): string =>
  String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));

/** s15Fixed16Number of the ICC specification (ICC.1:2022, 4.6). */
const fixed = (view: DataView, at: number): number => view.getInt32(at) / 65536;

/** Places of a profile's tags: 12 bytes each after a 128-byte header and the count (ICC.1:2022, 7.3). */
const tagPlaces = (view: DataView): Map<string, number> => {
  const count = Math.min(view.getUint32(128), 100);
  const places = Array.from({ length: count }, (_, index) => 132 + index * 12);
  return new Map(places.map((at) => [ascii(view, at), view.getUint32(at + 4)]));
};

/** Number of parameters g a b c d e f of each kind of parametric curve (ICC.1:2022, 10.18). */
const PARAMETERS = [1, 3, 4, 5, 7] as const;

const parametric = (view: DataView, at: number): ((x: number) => number) | null => {
  const count = PARAMETERS[view.getUint16(at + 8)];
  if (count === undefined || count === 3) return null;
  const [g = 1, a = 1, b = 0, c = 0, d = -1, e = 0, f = 0] = Array.from({ length: count }, (_, k) =>
    fixed(view, at + 12 + 4 * k),
  );
  return (x) => (x >= d ? (a * x + b) ** g + e : c * x + f);
};

/** A curve of samples, or a bare exponent when it has one entry, or a straight line when it has none (ICC.1:2022, 10.6). */
const sampled = (view: DataView, at: number): ((x: number) => number) => {
  const count = view.getUint32(at + 8);
  if (count === 0) return (x) => x;
  if (count === 1) return (x) => x ** (view.getUint16(at + 12) / 256);
  const entry = (k: number): number => view.getUint16(at + 12 + 2 * k) / 65535;
  return (x) => {
    const place = x * (count - 1);
    const below = Math.min(Math.floor(place), count - 2);
    return entry(below) + (place - below) * (entry(below + 1) - entry(below));
  };
};

const curveOf = (view: DataView, at: number | undefined): Float64Array | null => {
  if (at === undefined) return null;
  const kind = ascii(view, at);
  const curve = kind === 'para' ? parametric(view, at) : kind === 'curv' ? sampled(view, at) : null;
  return curve && Float64Array.from({ length: CODES }, (_, code) => curve(code / (CODES - 1)));
};

const columnOf = (view: DataView, at: number | undefined): number[] | null =>
  at === undefined ? null : [8, 12, 16].map((offset) => fixed(view, at + offset));

/** Reads an RGB matrix profile; `null` for any other kind and for a broken one. */
export const readMatrixProfile = (bytes: Uint8Array): MatrixProfile | null => {
  try {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const places = tagPlaces(view);
    const [r, g, b] = ['rXYZ', 'gXYZ', 'bXYZ'].map((tag) => columnOf(view, places.get(tag)));
    const [red, green, blue] = ['rTRC', 'gTRC', 'bTRC'].map((tag) => curveOf(view, places.get(tag)));
    if (!r || !g || !b || !red || !green || !blue) return null;
    return { curves: [red, green, blue], toXyz: [0, 1, 2].flatMap((row) => [r[row]!, g[row]!, b[row]!]) };
  } catch {
    // A tag that points outside the profile.
    return null;
  }
};

const inverse = (m: readonly number[]): number[] => {
  const [a, b, c, d, e, f, g, h, i] = m as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const adjugate = [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
  const determinant = a * adjugate[0]! + b * adjugate[3]! + c * adjugate[6]!;
  return adjugate.map((value) => value / determinant);
};

const product = (p: readonly number[], q: readonly number[]): number[] =>
  Array.from({ length: 9 }, (_, at) => {
    const [row, column] = [Math.floor(at / 3) * 3, at % 3];
    return p[row]! * q[column]! + p[row + 1]! * q[column + 3]! + p[row + 2]! * q[column + 6]!;
  });

/** Steps of linear light from 0 to 1 in the table back to codes: fine enough that the darkest codes differ. */
const STEPS = 16384;

/** sRGB code of linear light (IEC 61966-2-1). */
const srgbCode = (light: number): number =>
  Math.round(255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055));

const codeTable = (): Uint8Array =>
  Uint8Array.from({ length: STEPS + 1 }, (_, step) => srgbCode(step / STEPS));

const step = (light: number): number => (light <= 0 ? 0 : light >= 1 ? STEPS : (light * STEPS + 0.5) | 0);

/** Whether a profile is sRGB for all that 8 bits can tell: nothing to convert. */
const isSrgb = ({ toXyz, curves }: MatrixProfile): boolean =>
  SRGB_TO_XYZ.every((value, at) => Math.abs(value - toXyz[at]!) < 0.002) &&
  curves.every((curve) => curve.every((light, code) => Math.abs(srgbCode(light) - code) <= 1));

/**
 * Converts packed RGB pixels from `profile` to sRGB, in place. Colours outside sRGB go to its nearest edge, channel by channel.
 */
export const convertToSrgb = (pixels: Uint8Array, profile: MatrixProfile): void => {
  if (isSrgb(profile)) return;
  const m = Float64Array.from(product(inverse(SRGB_TO_XYZ), profile.toXyz));
  const [red, green, blue] = profile.curves;
  const codes = codeTable();
  for (let at = 0; at + 2 < pixels.length; at += 3) {
    const r = red[pixels[at]!]!;
    const g = green[pixels[at + 1]!]!;
    const b = blue[pixels[at + 2]!]!;
    pixels[at] = codes[step(m[0]! * r + m[1]! * g + m[2]! * b)]!;
    pixels[at + 1] = codes[step(m[3]! * r + m[4]! * g + m[5]! * b)]!;
    pixels[at + 2] = codes[step(m[6]! * r + m[7]! * g + m[8]! * b)]!;
  }
};

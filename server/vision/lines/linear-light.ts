/**
 * Linear light, 0 to 1, of an 8-bit luma by the transfer curve of IEC 61966-2-1 (sRGB). Blur happens in linear light: a profile fitted to
 * the encoded values would see white paint wider than it is. Luma, because JPEG keeps it at full resolution while it halves the colours.
 */
export const LINEAR = Float32Array.from({ length: 256 }, (_, code) => {
  const v = code / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});

/** Linear light of the pixel whose red byte stands at `at`: luma by JFIF (ITU-R BT.601 weights, here in 256ths), rounded. */
export const lightAt = (data: Uint8Array, at: number): number =>
  LINEAR[(77 * data[at]! + 150 * data[at + 1]! + 29 * data[at + 2]! + 128) >> 8]!;

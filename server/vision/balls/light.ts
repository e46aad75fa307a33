import { blueOf, greenOf, redOf, toYcc, type Ycc } from '../ycc.ts';

/**
 * Linear light, 0 to 1, of a grey level by the transfer curve of IEC 61966-2-1 (sRGB); levels beyond 0–255, which a fit can give, are held
 * at the ends.
 */
export const linear = (level: number): number => {
  const v = Math.max(0, Math.min(1, level / 255));
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
};

/** Grey level, 0 to 255, of linear light from 0 to 1: the inverse of `linear`. */
export const greyLevel = (light: number): number =>
  255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);

/** Linear red, green and blue of a colour given as Y, Cb, Cr in grey levels (ITU-T T.871, colour differences centred on 0). */
export const linearRgb = (y: number, cb: number, cr: number): readonly [number, number, number] => [
  linear(redOf(y, cr)),
  linear(greenOf(y, cb, cr)),
  linear(blueOf(y, cb)),
];

/** Y, Cb, Cr in grey levels of linear red, green and blue: the inverse of `linearRgb`. */
export const yccOf = (rgb: readonly [number, number, number]): Ycc => {
  const [r, g, b] = rgb.map(greyLevel);
  return toYcc(r!, g!, b!);
};

/** Weights of the one typeface. */
export const WEIGHTS = [400, 600, 700] as const;
export type Weight = (typeof WEIGHTS)[number];

/** How the outline of a shape is drawn; lengths in pt. */
export type Stroke = {
  readonly colour: string;
  readonly width: number;
  readonly dash?: readonly number[];
  readonly cap?: 'round';
};
/** Paint of a shape. */
export type Paint = { readonly fill?: string; readonly opacity?: number; readonly stroke?: Stroke };

/** One thing on a sheet. Lengths in pt, origin at the top-left corner, y down. Angles in degrees, clockwise. */
export type Shape =
  | ({
      readonly kind: 'rect';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly radius?: number;
    } & Paint)
  | ({
      readonly kind: 'ellipse';
      readonly x: number;
      readonly y: number;
      readonly rx: number;
      readonly ry: number;
      readonly turn?: number;
    } & Paint)
  | ({ readonly kind: 'path'; readonly d: string } & Paint)
  | {
      readonly kind: 'text';
      readonly x: number;
      /** Of the baseline. */
      readonly y: number;
      readonly text: string;
      readonly size: number;
      readonly weight: Weight;
      readonly colour: string;
      readonly align: 'left' | 'middle' | 'right';
    }
  | {
      readonly kind: 'picture';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly jpeg: Uint8Array;
    };

/** A page: what is on it from back to front, and a sentence for those who cannot see it. */
export type Sheet = {
  readonly width: number;
  readonly height: number;
  readonly label: string;
  readonly shapes: readonly Shape[];
};

/** A4 upright in pt (ISO 216: 210 mm × 297 mm; 1 pt = 1/72 in). */
export const A4 = { width: 595.28, height: 841.89 } as const;
/** Points in a millimetre. */
export const PT_PER_MM = 72 / 25.4;

/** A straight line as a path. */
export const line = (x1: number, y1: number, x2: number, y2: number, stroke: Stroke): Shape => ({
  kind: 'path',
  d: `M${round(x1)} ${round(y1)}L${round(x2)} ${round(y2)}`,
  stroke,
});

/** Two decimals of a point are a thousandth of what ink can show. */
export const round = (value: number): number => Math.round(value * 100) / 100;

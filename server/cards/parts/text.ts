import { shortened, wrapped } from '../sheet/fonts.ts';
import type { Shape, Weight } from '../sheet/shapes.ts';
import { LOOK } from './look.ts';

/** How a text is set; 10 pt, regular, ink, from the left unless said otherwise. */
export type Setting = {
  readonly size?: number;
  readonly weight?: Weight;
  readonly colour?: string;
  readonly align?: 'left' | 'middle' | 'right';
};

/** One line of text with its baseline at `y`, pt. */
export const text = (x: number, y: number, content: string, setting: Setting = {}): Shape => ({
  kind: 'text',
  x,
  y,
  text: content,
  size: setting.size ?? 10,
  weight: setting.weight ?? 400,
  colour: setting.colour ?? LOOK.ink,
  align: setting.align ?? 'left',
});

/** The same, cut with an ellipsis to at most `width` pt. */
export const clipped = (x: number, y: number, width: number, content: string, setting: Setting = {}): Shape =>
  text(x, y, shortened(content, width, setting.size ?? 10, setting.weight ?? 400), setting);

/** Lines are this many times their size apart. */
const LEADING = 1.28;

/** A block of text: its shapes, and the y at which it ends, pt. */
export type Block = { readonly shapes: readonly Shape[]; readonly bottom: number };

/** `content` in lines of at most `width` pt, the first one's top at `y`. */
export const paragraph = (
  x: number,
  y: number,
  width: number,
  content: string,
  setting: Setting = {},
): Block => {
  const size = setting.size ?? 10;
  const lines = wrapped(content, width, size, setting.weight ?? 400);
  const shapes = lines.map((line, index) => text(x, y + size * (1 + LEADING * index), line, setting));
  return { shapes, bottom: y + size * LEADING * Math.max(lines.length, 1) };
};

/** Blocks one below the other, each made from the y at which the former ended, with `gap` pt between. */
export const stacked = (y: number, gap: number, makers: readonly ((y: number) => Block)[]): Block => {
  const shapes: Shape[] = [];
  let bottom = y;
  for (const make of makers) {
    const block = make(bottom);
    shapes.push(...block.shapes);
    if (block.bottom > bottom) bottom = block.bottom + gap;
  }
  return { shapes, bottom };
};

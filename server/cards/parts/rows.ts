import { MARGIN, type Row, TEXT_WIDTH } from '../sheet/pages.ts';
import { line } from '../sheet/shapes.ts';
import { LOOK } from './look.ts';
import { type Block, clipped, paragraph, type Setting, text } from './text.ts';

/** A row that is as high as the block it makes. */
export const blockRow = (make: (y: number) => Block, after = 0): Row => ({
  height: make(0).bottom + after,
  draw: (y) => make(y).shapes,
});

/** A paragraph over the whole width. */
export const textRow = (content: string, setting: Setting = {}, after = 6): Row =>
  blockRow((y) => paragraph(MARGIN, y, TEXT_WIDTH, content, setting), after);

/** A heading with a rule under it. */
export const headingRow = (content: string): Row => ({
  height: 26,
  draw: (y) => [
    text(MARGIN, y + 15, content, { size: 12, weight: 700 }),
    line(MARGIN, y + 20, MARGIN + TEXT_WIDTH, y + 20, { colour: LOOK.ink, width: 0.8 }),
  ],
});

/** A column of a table: its heading, its width in pt, and on which side its cells stand. */
export type Column = { readonly title: string; readonly width: number; readonly align?: 'left' | 'right' };
/** A cell: its words, and how they are set where not as usual. */
export type Cell = string | { readonly words: string; readonly setting: Setting };

const LINE_HEIGHT = 17;
const CELL_SIZE = 9.5;

const placed = (columns: readonly Column[], y: number, cells: readonly Cell[], usual: Setting) => {
  let x = MARGIN;
  return columns.map((column, index) => {
    const cell = cells[index] ?? '';
    const { words, setting } = typeof cell === 'string' ? { words: cell, setting: {} } : cell;
    const right = column.align === 'right';
    const at = right ? x + column.width - 6 : x;
    x += column.width;
    return clipped(at, y, column.width - 6, words, {
      size: CELL_SIZE,
      align: right ? 'right' : 'left',
      ...usual,
      ...setting,
    });
  });
};

/** The headings of a table. */
export const headRow = (columns: readonly Column[]): Row => ({
  height: LINE_HEIGHT,
  draw: (y) =>
    placed(
      columns,
      y + 11,
      columns.map(({ title }) => title),
      { size: 8.5, weight: 600, colour: LOOK.soft },
    ),
});

/** A line of a table, with a thin rule under it. */
export const tableRow = (columns: readonly Column[], cells: readonly Cell[]): Row => ({
  height: LINE_HEIGHT,
  draw: (y) => [
    ...placed(columns, y + 12, cells, {}),
    line(MARGIN, y + LINE_HEIGHT, MARGIN + TEXT_WIDTH, y + LINE_HEIGHT, { colour: LOOK.rule, width: 0.5 }),
  ],
});

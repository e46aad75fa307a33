import { LOOK } from '../parts/look.ts';
import { clipped, paragraph, text } from '../parts/text.ts';
import { A4, line, type Shape, type Sheet } from './shapes.ts';

/** A stretch of a document that is not torn apart: its height in pt, and what it draws with its top at `y`. */
export type Row = { readonly height: number; readonly draw: (y: number) => readonly Shape[] };

/** What stands at the top and the foot of each page. */
export type Frame = {
  readonly title: string;
  /** Right of the title, small: at most two lines. */
  readonly aside: readonly string[];
  readonly footer: string;
  /** The whole document in a sentence. */
  readonly label: string;
};

/** Margin left and right of the text, pt. */
export const MARGIN = 36;
/** Width of the text on A4, pt. */
export const TEXT_WIDTH = A4.width - 2 * MARGIN;

const BAND = 58;
const FOOT = 42;
/** Gap between the band at the top and the first row. */
const FIRST = 14;

const band = ({ title, aside }: Frame): Shape[] => [
  { kind: 'rect', x: 0, y: 0, width: A4.width, height: BAND, fill: LOOK.band },
  text(MARGIN, 21, 'SWARD', { size: 8.5, weight: 700, colour: LOOK.grass }),
  clipped(MARGIN, 44, TEXT_WIDTH * 0.62, title, { size: 20, weight: 600, colour: LOOK.chalk }),
  ...aside.map((words, index) =>
    text(A4.width - MARGIN, 28 + 15 * index, words, { size: 10, colour: LOOK.grass, align: 'right' }),
  ),
];

const foot = (frame: Frame, height: number, page: string): Shape[] => [
  line(MARGIN, height - FOOT + 6, A4.width - MARGIN, height - FOOT + 6, { colour: LOOK.rule, width: 0.6 }),
  ...paragraph(MARGIN, height - FOOT + 10, TEXT_WIDTH - 50, frame.footer, { size: 8, colour: LOOK.soft })
    .shapes,
  text(A4.width - MARGIN, height - FOOT + 18, page, { size: 8, colour: LOOK.soft, align: 'right' }),
];

/** Rows of each page: as many as fit between band and foot. A row higher than a page has a page of its own. */
const shared = (rows: readonly Row[], room: number): Row[][] => {
  const pages: Row[][] = [[]];
  let used = 0;
  for (const row of rows) {
    if (used > 0 && used + row.height > room) {
      pages.push([]);
      used = 0;
    }
    pages.at(-1)!.push(row);
    used += row.height;
  }
  return pages;
};

const sheetOf = (frame: Frame, rows: readonly Row[], height: number, page: string): Sheet => {
  const shapes: Shape[] = [
    { kind: 'rect', x: 0, y: 0, width: A4.width, height, fill: LOOK.paper },
    ...band(frame),
  ];
  let y = BAND + FIRST;
  for (const row of rows) {
    shapes.push(...row.draw(y));
    y += row.height;
  }
  return { width: A4.width, height, label: frame.label, shapes: [...shapes, ...foot(frame, height, page)] };
};

/** A document as pages of A4. */
export const pagesOf = (frame: Frame, rows: readonly Row[]): Sheet[] => {
  const pages = shared(rows, A4.height - BAND - FIRST - FOOT);
  return pages.map((page, index) =>
    sheetOf(frame, page, A4.height, pages.length > 1 ? `${index + 1} of ${pages.length}` : ''),
  );
};

/** A document as one sheet as high as it needs, for a screen. */
export const scrollOf = (frame: Frame, rows: readonly Row[]): Sheet => {
  const height = BAND + FIRST + FOOT + rows.reduce((sum, row) => sum + row.height, 0);
  return sheetOf(frame, rows, height, '');
};

/** Empty space of `height` pt. */
export const gap = (height: number): Row => ({ height, draw: () => [] });

import PDFDocument from 'pdfkit';
import { type Face, runsOf } from './fonts.ts';
import type { Paint, Shape, Sheet } from './shapes.ts';
import { startOf } from './to-svg.ts';

type Doc = PDFKit.PDFDocument;

/** Sets how the next path is painted. It comes before the path: between a path and its painting PDF allows nothing else (ISO 32000-1, 8.2). */
const prepare = (doc: Doc, { fill, stroke, opacity }: Paint): void => {
  if (opacity !== undefined) doc.opacity(opacity);
  if (fill) doc.fillColor(fill, opacity ?? 1);
  if (!stroke) return;
  doc.strokeColor(stroke.colour, opacity ?? 1).lineWidth(stroke.width);
  doc.lineCap(stroke.cap ?? 'butt').lineJoin(stroke.cap ? 'round' : 'miter');
  if (stroke.dash) doc.dash(stroke.dash[0]!, { space: stroke.dash[1] ?? stroke.dash[0]! });
};

const paint = (doc: Doc, { fill, stroke }: Paint): void => {
  if (fill && stroke) doc.fillAndStroke();
  else if (fill) doc.fill();
  else if (stroke) doc.stroke();
};

/** Text stays text, so that it can be searched, read aloud and copied. */
const drawText = (doc: Doc, shape: Extract<Shape, { kind: 'text' }>, embed: (face: Face) => void): void => {
  let x = startOf(shape);
  const { y, size, weight, text, colour } = shape;
  for (const { face, text: part, features } of runsOf(text, weight)) {
    embed(face);
    const scale = size / face.font.unitsPerEm;
    doc.font(face.name).fontSize(size).fillColor(colour);
    doc.text(part, x, y, { lineBreak: false, baseline: 'alphabetic', features: features as [] });
    x += face.font.layout(part, features).advanceWidth * scale;
  }
};

const tracePath = (doc: Doc, shape: Extract<Shape, { kind: 'rect' | 'ellipse' | 'path' }>): void => {
  switch (shape.kind) {
    case 'rect':
      if (shape.radius) doc.roundedRect(shape.x, shape.y, shape.width, shape.height, shape.radius);
      else doc.rect(shape.x, shape.y, shape.width, shape.height);
      break;
    case 'ellipse':
      doc.ellipse(shape.x, shape.y, shape.rx, shape.ry);
      break;
    case 'path':
      doc.path(shape.d);
  }
};

const drawShape = (doc: Doc, shape: Shape, embed: (face: Face) => void): void => {
  if (shape.kind === 'text') drawText(doc, shape, embed);
  else if (shape.kind === 'picture')
    doc.image(Buffer.from(shape.jpeg), shape.x, shape.y, { width: shape.width, height: shape.height });
  else {
    prepare(doc, shape);
    if (shape.kind === 'ellipse' && shape.turn) doc.rotate(shape.turn, { origin: [shape.x, shape.y] });
    tracePath(doc, shape);
    paint(doc, shape);
  }
};

/** A paper to print on: each sheet is scaled to its width. */
export type Paper = 'A4' | 'A5';
const WIDTHS: Readonly<Record<Paper, number>> = { A4: 595.28, A5: 419.53 };

const addSheet = (doc: Doc, sheet: Sheet, paper: Paper, embed: (face: Face) => void): void => {
  const scale = WIDTHS[paper] / sheet.width;
  doc.addPage({ size: [sheet.width * scale, sheet.height * scale], margin: 0 });
  doc.scale(scale);
  for (const shape of sheet.shapes) {
    doc.save();
    drawShape(doc, shape, embed);
    doc.restore();
  }
};

const collected = (doc: Doc): Promise<Uint8Array> =>
  new Promise((resolve, reject) => {
    const chunks: Buffer[] = [];
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
    doc.end();
  });

/** Sheets as the pages of a PDF. `created` is the document's date, so that the same sheets make the same file. */
export const toPdf = (sheets: readonly Sheet[], created: Date, paper: Paper = 'A4'): Promise<Uint8Array> => {
  const info = { Title: sheets[0]?.label ?? '', Creator: 'Sward', CreationDate: created, ModDate: created };
  const doc = new PDFDocument({
    autoFirstPage: false,
    info,
    lang: 'en',
    displayTitle: true,
    pdfVersion: '1.7',
  });
  const embedded = new Set<string>();
  const embed = (face: Face): void => {
    if (!embedded.has(face.name)) doc.registerFont(face.name, face.file);
    embedded.add(face.name);
  };
  for (const sheet of sheets) addSheet(doc, sheet, paper, embed);
  return collected(doc);
};

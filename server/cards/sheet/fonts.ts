import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create, type Font } from 'fontkit';
import type { Weight } from './shapes.ts';

/** Parts of the alphabet in which the typeface comes, in the order in which they are asked for a letter. */
const SUBSETS = ['latin', 'latin-ext', 'vietnamese', 'greek', 'cyrillic'] as const;
type Subset = (typeof SUBSETS)[number];

/** A file of the typeface. */
export type Face = { readonly name: string; readonly file: Buffer; readonly font: Font };
/** A stretch of text that one file can set, with the features to switch on. */
export type Run = { readonly face: Face; readonly text: string; readonly features: string[] };

const require = createRequire(import.meta.url);
const loaded = new Map<string, Face>();

/** Source Sans 3 (SIL Open Font License 1.1), as @fontsource packs it; each file is read when it is first needed. */
const faceOf = (subset: Subset, weight: Weight): Face => {
  const name = `${subset}-${weight}`;
  const known = loaded.get(name);
  if (known) return known;
  const path = require.resolve(`@fontsource/source-sans-3/files/source-sans-3-${name}-normal.woff`);
  const file = readFileSync(path);
  const face = { name, file, font: create(file) };
  loaded.set(name, face);
  return face;
};

/** Fractions that the typeface has no sign for, but sets from digits. */
const EIGHTHS: Readonly<Record<string, string>> = { '⅛': '1⁄8', '⅜': '3⁄8', '⅝': '5⁄8', '⅞': '7⁄8' };

const faceFor = (letter: string, weight: Weight): Face | null => {
  const code = letter.codePointAt(0)!;
  const subset = SUBSETS.find((name) => faceOf(name, weight).font.hasGlyphForCodePoint(code));
  return subset ? faceOf(subset, weight) : null;
};

/** A letter that no file has is shown by this one. */
const UNKNOWN = '?';

const pieceOf = (letter: string, weight: Weight): Run => {
  const latin = faceOf('latin', weight);
  const eighth = EIGHTHS[letter];
  if (eighth) return { face: latin, text: eighth, features: ['frac'] };
  const face = faceFor(letter, weight);
  return face ? { face, text: letter, features: [] } : { face: latin, text: UNKNOWN, features: [] };
};

/** `text` cut into stretches that one file each can set. Letters and their accents are joined first where there is one sign for both. */
export const runsOf = (text: string, weight: Weight): Run[] => {
  const runs: Run[] = [];
  for (const letter of text.normalize('NFC')) {
    const piece = pieceOf(letter, weight);
    const last = runs.at(-1);
    if (last && last.face === piece.face && last.features.length === 0 && piece.features.length === 0)
      runs[runs.length - 1] = { ...last, text: last.text + piece.text };
    else runs.push(piece);
  }
  return runs;
};

/** Width in pt of `text` set in `size` pt. */
export const widthOf = (text: string, size: number, weight: Weight): number =>
  runsOf(text, weight).reduce(
    (width, { face, text: part, features }) =>
      width + (face.font.layout(part, features).advanceWidth * size) / face.font.unitsPerEm,
    0,
  );

/** `text` broken between words into lines of at most `width` pt; a single longer word stands on a line of its own. */
export const wrapped = (text: string, width: number, size: number, weight: Weight): string[] => {
  const lines: string[] = [];
  for (const word of text.split(/[ \n]+/).filter(Boolean)) {
    const last = lines.at(-1);
    if (last !== undefined && widthOf(`${last} ${word}`, size, weight) <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
};

/** `text` cut with an ellipsis so that it takes at most `width` pt. */
export const shortened = (text: string, width: number, size: number, weight: Weight): string => {
  if (widthOf(text, size, weight) <= width) return text;
  const letters = [...text];
  while (letters.length > 1 && widthOf(`${letters.join('').trimEnd()}…`, size, weight) > width) letters.pop();
  return `${letters.join('').trimEnd()}…`;
};

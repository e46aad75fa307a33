import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { type Marks, parseMarksText } from './sward.ts';

/** A photo to be measured on, as its file's bytes, with its marks. */
export type Picture = { readonly name: string; readonly bytes: Uint8Array; readonly marks: Marks };

const folder = new URL('../../fixtures/photos/', import.meta.url);

/** Size of a phone's common 12 MP picture. */
const TWELVE_MP = { width: 4032, height: 3024 };

const enlarged = async (bytes: Uint8Array, marks: Marks): Promise<Omit<Picture, 'name'>> => {
  const { width } = await sharp(bytes).metadata();
  const scale = TWELVE_MP.width / width;
  const points = Object.fromEntries(
    Object.entries(marks.points).map(([name, [x, y]]) => [name, [x * scale, y * scale]]),
  ) as Marks['points'];
  const larger = await sharp(bytes).resize(TWELVE_MP).keepExif().jpeg({ quality: 92 }).toBuffer();
  return { bytes: larger, marks: { ...marks, points } };
};

/** The fixture `name` at 12 MP: as it is, or enlarged when it has fewer pixels. */
export const openPicture = async (name: string): Promise<Picture> => {
  const bytes = readFileSync(new URL(`${name}.jpg`, folder));
  const marks = parseMarksText(readFileSync(new URL(`${name}.marks.json`, folder), 'utf8'));
  const { width, height } = (await sharp(bytes).metadata()).autoOrient;
  const large = width * height >= TWELVE_MP.width * TWELVE_MP.height;
  return large ? { name, bytes, marks } : { name: `${name} enlarged`, ...(await enlarged(bytes, marks)) };
};

import sharp from 'sharp';

/** A part of a picture in px. */
export type Part = {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
};

/** Dots in an inch at which one point of a drawing is one pixel. */
const BASE_DENSITY = 72;
const PART_QUALITY = 82;

/** A drawing of this program's own as a PNG on white, `scale` px a point. Never for a drawing from outside: SVG can name other files. */
export const drawingToPng = (svg: string, scale: number): Promise<Uint8Array> =>
  sharp(Buffer.from(svg), { density: BASE_DENSITY * scale, unlimited: true })
    .flatten({ background: '#ffffff' })
    .png({ compressionLevel: 9, palette: false })
    .toBuffer();

/** Size in px of a picture that this program made. */
export const pictureSize = async (
  bytes: Uint8Array,
): Promise<{ readonly width: number; readonly height: number }> => {
  const { width, height } = await sharp(bytes).metadata();
  return { width, height };
};

/** A part of an upright picture as a JPEG, at most `width` px wide; `part` lies within the picture and is cut at whole pixels. */
export const cutOut = (bytes: Uint8Array, part: Part, width: number): Promise<Uint8Array> =>
  sharp(bytes)
    .extract({
      left: Math.floor(part.x),
      top: Math.floor(part.y),
      width: Math.floor(part.width),
      height: Math.floor(part.height),
    })
    .resize({ width, withoutEnlargement: true })
    .jpeg({ quality: PART_QUALITY })
    .toBuffer();

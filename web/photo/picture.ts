import type { Size } from './view.ts';

/** A decoded photo and half-size copies of it, so that a frame that shows the whole photo does not touch every pixel of it. */
export type Picture = Size & {
  /** The largest first; `scale` is bitmap px per photo px. */
  readonly levels: readonly { readonly bitmap: ImageBitmap; readonly scale: number }[];
};

/** More pixels than this are not kept at full size: a phone's page has no room for them. Positions stay in px of the full photo. */
const MOST_PIXELS = 26_000_000;
/** The smallest copy is about as wide as a phone. */
const SMALLEST_WIDTH = 700;

const halved = async (bitmap: ImageBitmap): Promise<ImageBitmap> =>
  createImageBitmap(bitmap, {
    resizeWidth: Math.max(1, Math.round(bitmap.width / 2)),
    resizeHeight: Math.max(1, Math.round(bitmap.height / 2)),
    resizeQuality: 'medium',
  });

const decode = async (file: Blob): Promise<ImageBitmap> => {
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const pixels = bitmap.width * bitmap.height;
  if (pixels <= MOST_PIXELS) return bitmap;
  const share = Math.sqrt(MOST_PIXELS / pixels);
  const smaller = await createImageBitmap(bitmap, {
    resizeWidth: Math.round(bitmap.width * share),
    resizeHeight: Math.round(bitmap.height * share),
    resizeQuality: 'medium',
  });
  bitmap.close();
  return smaller;
};

/** Size in px of the upright picture in `file`. Rejects when this browser cannot show such a file. */
export const measurePicture = async (file: Blob): Promise<Size> => {
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const size = { width: bitmap.width, height: bitmap.height };
  bitmap.close();
  return size;
};

/** Decodes `file`. `size` is the photo's own size when the file is a smaller copy of it. Rejects when this browser cannot show it. */
export const openPicture = async (file: Blob, size: Size | null): Promise<Picture> => {
  const full = await decode(file);
  const width = size?.width ?? full.width;
  const height = size?.height ?? full.height;
  const levels = [{ bitmap: full, scale: full.width / width }];
  let last = full;
  while (last.width > 2 * SMALLEST_WIDTH) {
    last = await halved(last);
    levels.push({ bitmap: last, scale: last.width / width });
  }
  return { width, height, levels };
};

/** Gives the picture's memory back. */
export const closePicture = (picture: Picture): void => {
  for (const { bitmap } of picture.levels) bitmap.close();
};

import type { Picture } from './picture.ts';
import { type Size, type View, visiblePart } from './view.ts';

/** From this many screen px a photo px, pixels are shown as they are. */
const CRISP_FROM = 3;
/** A copy may be enlarged this much before the next larger one is taken: nobody sees the difference and half the pixels are saved. */
const ENLARGE = 1.25;

const levelFor = (picture: Picture, pxPerPhotoPx: number) =>
  picture.levels.findLast(({ scale }) => scale * ENLARGE >= pxPerPhotoPx) ?? picture.levels[0]!;

/** Draws the visible part of the photo. `ratio` is device px per CSS px; the canvas is frame · ratio in size. */
export const drawPicture = (
  context: CanvasRenderingContext2D,
  picture: Picture,
  view: View,
  frame: Size,
  ratio: number,
): void => {
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, frame.width * ratio, frame.height * ratio);
  const part = visiblePart(view, frame, picture);
  const width = part.right - part.left;
  const height = part.bottom - part.top;
  if (width <= 0 || height <= 0) return;
  const { bitmap, scale } = levelFor(picture, view.k * ratio);
  context.imageSmoothingEnabled = view.k * ratio < CRISP_FROM * scale;
  context.drawImage(
    bitmap,
    part.left * scale,
    part.top * scale,
    width * scale,
    height * scale,
    (part.left * view.k + view.x) * ratio,
    (part.top * view.k + view.y) * ratio,
    width * view.k * ratio,
    height * view.k * ratio,
  );
};

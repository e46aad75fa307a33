import type { ImagePoint } from '../../server/units/points.ts';
import { imagePoint } from '../../server/units/points.ts';

/** How the photo lies in its frame: CSS px = photo px · k + (x, y). */
export type View = { readonly k: number; readonly x: number; readonly y: number };

/** A size in px, of the photo or of the frame. */
export type Size = { readonly width: number; readonly height: number };

/** A rectangle in photo px. */
export type Box = {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
};

/** A place in the frame, CSS px from its top-left corner. */
export type FramePoint = { readonly left: number; readonly top: number };

/** Where the frame shows a point of the photo. */
export const toFrame = (view: View, point: ImagePoint): FramePoint => ({
  left: point.x * view.k + view.x,
  top: point.y * view.k + view.y,
});

/** The point of the photo under a place in the frame. */
export const toPhoto = (view: View, place: FramePoint): ImagePoint =>
  imagePoint((place.left - view.x) / view.k, (place.top - view.y) / view.k);

/** The view in which `box` fills the frame, with `margin` CSS px around it, its middle in the middle. */
export const fitBox = (box: Box, frame: Size, margin = 0): View => {
  const width = Math.max(1, box.right - box.left);
  const height = Math.max(1, box.bottom - box.top);
  const k = Math.min(
    Math.max(1, frame.width - 2 * margin) / width,
    Math.max(1, frame.height - 2 * margin) / height,
  );
  return {
    k,
    x: frame.width / 2 - (k * (box.left + box.right)) / 2,
    y: frame.height / 2 - (k * (box.top + box.bottom)) / 2,
  };
};

/** Translation along one axis that keeps the photo over the frame, or in its middle where it is the smaller. */
const over = (wanted: number, photoSpan: number, frameSpan: number): number =>
  photoSpan <= frameSpan ? (frameSpan - photoSpan) / 2 : Math.min(0, Math.max(frameSpan - photoSpan, wanted));

/** The view to begin with: `box` as large as the frame allows, the photo never pushed off the frame's edges. */
export const startView = (box: Box, frame: Size, photo: Size): View => {
  const whole = Math.min(frame.width / photo.width, frame.height / photo.height);
  const k = Math.max(fitBox(box, frame).k, whole);
  return {
    k,
    x: over(frame.width / 2 - (k * (box.left + box.right)) / 2, photo.width * k, frame.width),
    y: over(frame.height / 2 - (k * (box.top + box.bottom)) / 2, photo.height * k, frame.height),
  };
};

/** The whole photo. */
export const wholePhoto = ({ width, height }: Size): Box => ({
  left: 0,
  top: 0,
  right: width,
  bottom: height,
});

/** The smallest box around points, with `share` of its size added on each side; null for no points. */
export const boxAround = (points: readonly ImagePoint[], share = 0.08): Box | null => {
  if (points.length === 0) return null;
  const xs = points.map(({ x }) => x);
  const ys = points.map(({ y }) => y);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const dx = Math.max(20, (right - left) * share);
  const dy = Math.max(20, (bottom - top) * share);
  return { left: left - dx, right: right + dx, top: top - dy, bottom: bottom + dy };
};

/** The part of the photo that the frame shows, cut at the photo's edges. */
export const visiblePart = (view: View, frame: Size, photo: Size): Box => ({
  left: Math.max(0, -view.x / view.k),
  top: Math.max(0, -view.y / view.k),
  right: Math.min(photo.width, (frame.width - view.x) / view.k),
  bottom: Math.min(photo.height, (frame.height - view.y) / view.k),
});

/** `point` kept inside the photo. */
export const insidePhoto = (point: ImagePoint, { width, height }: Size): ImagePoint =>
  imagePoint(Math.min(width, Math.max(0, point.x)), Math.min(height, Math.max(0, point.y)));

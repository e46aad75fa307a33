import { drawingToPng } from '../../photo/draw.ts';
import type { Sheet } from './shapes.ts';
import { toSvg } from './to-svg.ts';

/** Pixels of a picture for each pt: a card fills the width of a phone's screen at about three pixels a point. */
const PIXELS_PER_POINT = 2.5;

/** `sheet` as a PNG. */
export const toPng = (sheet: Sheet, pixelsPerPoint = PIXELS_PER_POINT): Promise<Uint8Array> =>
  drawingToPng(toSvg(sheet), pixelsPerPoint);

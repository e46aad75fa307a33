import type { BallCall } from '../../contract/reading.ts';
import { giveOrTake } from '../../contract/words/chances.ts';
import { BALL_DIAMETER, BALL_RADIUS } from '../../lawn/ball.ts';
import { line, round, type Shape, type Stroke } from '../sheet/shapes.ts';
import { BALL_PAINT, LOOK } from './look.ts';
import { text } from './text.ts';

/** Where a close-up lies on its sheet: the ground's left end in pt, its length, and pt for each metre. */
export type CloseUpFrame = {
  readonly x: number;
  readonly ground: number;
  readonly width: number;
  readonly scale: number;
};

/** Metres between the line and the edge of the picture on the side short of it: room for a ball that is not across at all. */
const SHORT_SIDE = 0.17;

const SOLID: Stroke = { colour: LOOK.ink, width: 1 };

/** A band filled with slanting strokes, for what is not certain. */
const hatched = (x: number, y: number, width: number, height: number): Shape => {
  const step = 3.2;
  const strokes: string[] = [];
  for (let start = x - height; start < x + width; start += step) {
    const [from, to] = [Math.max(start, x), Math.min(start + height, x + width)];
    if (to > from)
      strokes.push(
        `M${round(from)} ${round(y + height - (from - start))}L${round(to)} ${round(y + height - (to - start))}`,
      );
  }
  return { kind: 'path', d: strokes.join(''), stroke: { colour: LOOK.accent, width: 0.7 } };
};

/** The band in which the ball's nearest point lies 19 times in 20: filled with solid edges when the call is firm, hatched with dotted ones when not. */
const uncertainty = (x: number, half: number, { ground, scale }: CloseUpFrame, firm: boolean): Shape[] => {
  const top = ground - BALL_DIAMETER * scale * 1.16;
  const height = ground - top;
  const edge: Stroke = firm
    ? { colour: LOOK.accent, width: 0.9 }
    : { colour: LOOK.accent, width: 0.9, dash: [1.4, 1.8] };
  const [left, right] = [x - half, x + half];
  return [
    firm
      ? { kind: 'rect', x: left, y: top, width: 2 * half, height, fill: LOOK.accent, opacity: 0.28 }
      : hatched(left, top, 2 * half, height),
    line(left, top, left, ground, edge),
    line(right, top, right, ground, edge),
  ];
};

/** The gap or the overlap between the line and the ball's nearest point, dimensioned. */
const dimension = (lineX: number, pointX: number, { ground }: CloseUpFrame, words: string): Shape[] => {
  const y = ground + 8;
  const stroke = { colour: LOOK.ink, width: 0.7 };
  const middle = (lineX + pointX) / 2;
  return [
    line(lineX, y, pointX, y, stroke),
    line(lineX, y - 3, lineX, y + 3, stroke),
    line(pointX, y - 3, pointX, y + 3, stroke),
    text(middle, y + 11, words, { size: 9, weight: 600, align: 'middle' }),
  ];
};

/** Whether the ball lies near enough to the line to be drawn beside it at this scale. */
export const fitsCloseUp = (
  call: Pick<BallCall, 'beyond'>,
  { width, scale }: Pick<CloseUpFrame, 'width' | 'scale'>,
): boolean => {
  const span = width / scale;
  return call.beyond > -SHORT_SIDE && call.beyond + BALL_DIAMETER < span - SHORT_SIDE;
};

/**
 * Line and ball from the side, true to scale: the upright plane of the halfway line, the ball standing on the grass, the next hoop to the
 * right. `beyond` is how far the ball's nearest point, its left one here, is past the line; the band around that point holds it 19 times
 * in 20.
 */
export const closeUp = (call: BallCall, frame: CloseUpFrame): Shape[] => {
  const { x, ground, width, scale } = frame;
  const lineX = x + SHORT_SIDE * scale;
  const nearest = lineX + call.beyond * scale;
  const radius = BALL_RADIUS * scale;
  const firm = call.lies !== 'tooClose';
  const { fill } = BALL_PAINT[call.colour];
  const top = ground - BALL_DIAMETER * scale * 1.3;
  return [
    { kind: 'rect', x, y: top, width, height: ground - top, fill: LOOK.card },
    {
      kind: 'rect',
      x: lineX,
      y: top,
      width: x + width - lineX,
      height: ground - top,
      fill: LOOK.grass,
      opacity: 0.55,
    },
    { kind: 'rect', x, y: ground, width, height: 3, fill: LOOK.turf },
    {
      kind: 'ellipse',
      x: nearest + radius,
      y: ground - radius,
      rx: radius,
      ry: radius,
      fill,
      stroke: { colour: '#10201a', width: 0.9 },
    },
    ...uncertainty(nearest, giveOrTake(call.sd) * scale, frame, firm),
    line(lineX, top - 3, lineX, ground + 3, { ...SOLID, width: 1.6 }),
    line(nearest, top + 4, nearest, ground, { colour: LOOK.ink, width: 0.6, dash: [2, 1.6] }),
    ...dimension(lineX, nearest, frame, `${Math.round(Math.abs(call.beyond) * 1000)} mm`),
  ];
};

import type { Letters } from '../../contract/settings.ts';
import type { BallColour } from '../../lawn/colours.ts';
import type { Shape } from '../sheet/shapes.ts';
import { BALL_PAINT, LOOK } from './look.ts';
import { text } from './text.ts';

/** Height of a capital above its baseline over the size of the type (660 of 1000 units in Source Sans 3). */
const CAPITAL = 0.66;

/** Disc of a ball with its letter: a dark ring inside a light one, so that white shows on white and black on green. Lengths in pt. */
export const ballMark = (
  colour: BallColour,
  [x, y]: readonly [number, number],
  radius: number,
  letters: Letters,
): Shape[] => {
  const { fill, letter } = BALL_PAINT[colour];
  const size = radius * 1.35;
  return [
    { kind: 'ellipse', x, y, rx: radius * 1.18, ry: radius * 1.18, fill: LOOK.chalk },
    { kind: 'ellipse', x, y, rx: radius * 1.08, ry: radius * 1.08, fill: '#10201a' },
    { kind: 'ellipse', x, y, rx: radius * 0.98, ry: radius * 0.98, fill },
    text(x, y + (size * CAPITAL) / 2, letters[colour] ?? '?', {
      size,
      weight: 700,
      colour: letter,
      align: 'middle',
    }),
  ];
};

import { CORNER_NAMES, type CornerName } from '../../server/lawn/named-points.ts';
import type { Pins } from '../draft/draft.ts';

/** How the four corners lie: as seen from above the lawn, as in a mirror, or crossing over. */
export type PinOrder = 'fine' | 'mirrored' | 'crossed';

type Pair = readonly [number, number];

const cornersOf = (pins: Pins): Pair[] | null => {
  const corners = CORNER_NAMES.map((name) => pins[name]);
  return corners.every((pair) => pair !== undefined) ? (corners as Pair[]) : null;
};

const turn = (a: Pair, b: Pair, c: Pair): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Order of the corner pins; `fine` also while a corner is missing. Corners 1 to 4 run clockwise in the photo of a lawn seen from above. */
export const pinOrder = (pins: Pins): PinOrder => {
  const corners = cornersOf(pins);
  if (!corners) return 'fine';
  const turns = corners.map((corner, i) => turn(corner, corners[(i + 1) % 4]!, corners[(i + 2) % 4]!));
  if (turns.every((value) => value > 0)) return 'fine';
  return turns.every((value) => value < 0) ? 'mirrored' : 'crossed';
};

const renamed = (pins: Pins, corners: readonly Pair[]): Pins => ({
  ...pins,
  ...Object.fromEntries(CORNER_NAMES.map((name, i) => [name, corners[i]!])),
});

/** The corner pins clockwise round their middle; corner 1 keeps its place. The pins as they are when a corner is missing. */
export const putInOrder = (pins: Pins): Pins => {
  const corners = cornersOf(pins);
  if (!corners) return pins;
  const middle = [0, 1].map((k) => corners.reduce((sum, pair) => sum + pair[k]!, 0) / 4) as [number, number];
  const angle = ([x, y]: Pair) => Math.atan2(y - middle[1], x - middle[0]);
  const round = corners.toSorted((a, b) => angle(a) - angle(b));
  const first = round.indexOf(corners[0]!);
  return renamed(pins, [...round.slice(first), ...round.slice(0, first)]);
};

/** The corner numbers moved on by one place: what was corner 1 is corner 2. For a lawn seen from another side than the page thought. */
export const turnNumbers = (pins: Pins): Pins => {
  const corners = cornersOf(pins);
  return corners ? renamed(pins, [corners[3]!, corners[0]!, corners[1]!, corners[2]!]) : pins;
};

/** Whether the pins are four corners and nothing else, so that their numbers may be turned. */
export const onlyCorners = (pins: Pins): boolean =>
  cornersOf(pins) !== null && Object.keys(pins).every((name) => CORNER_NAMES.includes(name as CornerName));

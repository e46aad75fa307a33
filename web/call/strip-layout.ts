import { NINETEEN_IN_TWENTY } from '../../server/contract/words/chances.ts';
import { BALL_DIAMETER } from '../../server/lawn/ball.ts';

/** Diameter of a ball in mm. */
export const BALL_MM = BALL_DIAMETER * 1000;

/** From this far on (mm) the gap between line and ball is cut out of the strip, so that the ball stays large. */
const CUT_FROM = 190;
/** What is left of a cut gap, mm. */
const CUT_TO = 120;
/** Least mm shown on each side of what matters. */
const ROOM = 26;

/** The strip in mm: x = 0 at the line, positive towards the next hoop. */
export type StripLayout = {
  /** Left and right edge of the strip. */
  readonly from: number;
  readonly to: number;
  /** Where the ball's nearest point is drawn. */
  readonly rear: number;
  /** Half width of the band that covers 19 in 20. */
  readonly half: number;
  /** Middle of the cut when the gap is not drawn to scale, else null. */
  readonly cut: number | null;
};

/** Where things stand on the strip for a ball whose nearest point is `beyond` metres past the line, with standard deviation `sd`. */
export const layOutStrip = (beyond: number, sd: number): StripLayout => {
  const measured = beyond * 1000;
  const half = NINETEEN_IN_TWENTY * sd * 1000;
  // The gap is from the line to the ball's nearer edge: its rear when past the line, its front when short of it.
  const gap = measured >= 0 ? measured : -(measured + BALL_MM);
  const isCut = gap > CUT_FROM;
  const drawnGap = isCut ? CUT_TO : gap;
  const rear = !isCut ? measured : measured >= 0 ? drawnGap : -(drawnGap + BALL_MM);
  const shownHalf = Math.min(half, isCut ? CUT_TO * 0.6 : half);
  const from = Math.min(0, rear - shownHalf) - ROOM;
  const to = Math.max(0, rear + BALL_MM, rear + shownHalf) + ROOM;
  const cut = isCut ? (measured >= 0 ? drawnGap * 0.35 : -drawnGap * 0.35) : null;
  return { from, to, rear, half: shownHalf, cut };
};

/** Distances in mm at which the ruler is marked, every 10 mm from `from` to `to`; those at 50s carry their number. */
export const rulerMarks = (from: number, to: number): number[] => {
  const first = Math.ceil(from / 10) * 10;
  return Array.from({ length: Math.floor((to - first) / 10) + 1 }, (_, i) => first + 10 * i);
};

import type { Stage } from '../photo/photo-stage.tsx';
import { type FramePoint, toFrame } from '../photo/view.ts';
import { standingOf } from './court-places.ts';
import type { SeenPlace } from './seen-places.ts';

const DARK = '#0d1713';
const CHALK = '#fbfaf4';
/** What is to be done, on any grass: the accent of the dark theme, which reads on a photo. */
const ACT = '#f0a875';

/** Radius of the ring on a proper place, CSS px; larger on the chosen one. */
const RING = 7;
const CHOSEN_RING = 9;
/** Length of an arrow's head, CSS px. */
const HEAD = 9;

type Stroke = { readonly colour: string; readonly width: number; readonly dash?: readonly number[] };

/** The same path twice: dark and wide, then in its colour, so that it shows on grass and on paint. */
const strokeTwice = (
  context: CanvasRenderingContext2D,
  path: () => void,
  { colour, width, dash = [] }: Stroke,
): void => {
  for (const [style, wide] of [
    [DARK, width + 2.5],
    [colour, width],
  ] as const) {
    context.beginPath();
    path();
    context.setLineDash(dash as number[]);
    context.strokeStyle = style;
    context.lineWidth = wide;
    context.stroke();
  }
  context.setLineDash([]);
};

const ring = (context: CanvasRenderingContext2D, at: FramePoint, radius: number, stroke: Stroke): void =>
  strokeTwice(context, () => context.arc(at.left, at.top, radius, 0, 2 * Math.PI), stroke);

/** The head of an arrow at `to`; an arrow shorter than its head has a head of its own length. */
const headOf = (from: FramePoint, to: FramePoint): [FramePoint, FramePoint] | null => {
  const length = Math.hypot(to.left - from.left, to.top - from.top);
  if (length < 1) return null;
  const size = Math.min(HEAD, length);
  const [ux, uy] = [(to.left - from.left) / length, (to.top - from.top) / length];
  const side = (sign: number): FramePoint => ({
    left: to.left - size * (ux + 0.55 * sign * uy),
    top: to.top - size * (uy - 0.55 * sign * ux),
  });
  return [side(1), side(-1)];
};

const arrow = (context: CanvasRenderingContext2D, from: FramePoint, to: FramePoint, sure: boolean): void => {
  strokeTwice(
    context,
    () => {
      context.moveTo(from.left, from.top);
      context.lineTo(to.left, to.top);
    },
    { colour: ACT, width: 3, ...(!sure && { dash: [1, 6] }) },
  );
  const head = headOf(from, to);
  if (!head) return;
  strokeTwice(
    context,
    () => {
      context.moveTo(head[0].left, head[0].top);
      context.lineTo(to.left, to.top);
      context.lineTo(head[1].left, head[1].top);
    },
    { colour: ACT, width: 3 },
  );
};

/**
 * The things of a court on the photo: a ring where each should stand, dashed when it was not seen; a dot where it was found; and, for what
 * is off or may be, an arrow from where it stands to where it belongs, at its true length.
 */
export const drawPlaces = (
  context: CanvasRenderingContext2D,
  { view }: Stage,
  seen: readonly SeenPlace[],
  chosen: string | null,
): void => {
  context.lineCap = 'round';
  context.lineJoin = 'round';
  for (const { place, proper, found } of seen) {
    const standing = standingOf(place);
    const to = toFrame(view, proper);
    ring(context, to, place.name === chosen ? CHOSEN_RING : RING, {
      colour: CHALK,
      width: place.name === chosen ? 3 : 1.8,
      ...(standing === 'unseen' && { dash: [3, 5] }),
    });
    if (!found) continue;
    const from = toFrame(view, found);
    if (standing !== 'fine') arrow(context, from, to, standing === 'off');
    context.beginPath();
    context.arc(from.left, from.top, 3.2, 0, 2 * Math.PI);
    context.fillStyle = standing === 'fine' ? CHALK : ACT;
    context.fill();
    context.lineWidth = 1.5;
    context.strokeStyle = DARK;
    context.stroke();
  }
};

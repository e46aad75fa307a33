import { ballContour } from '../../server/camera/ball-outline.ts';
import type { Camera } from '../../server/camera/types.ts';
import { BALL_DIAMETER } from '../../server/lawn/ball.ts';
import type { Court } from '../../server/lawn/court.ts';
import { type ImagePoint, lawnPoint } from '../../server/units/points.ts';
import type { Stage } from '../photo/photo-stage.tsx';
import { toFrame } from '../photo/view.ts';
import { seenLine } from './reading-camera.ts';

type Line = { readonly axis: 'x' | 'y'; readonly at: number };
type Place = { readonly x: number; readonly y: number };

/** How far the small marks at the ends of the line reach up, metres, and their distance outside the boundary. */
const MARK_HEIGHT = 0.2;

const endsOf = (court: Court, { axis, at }: Line): [readonly [number, number], readonly [number, number]] =>
  axis === 'x'
    ? [
        [at, 0],
        [at, court.length],
      ]
    : [
        [0, at],
        [court.width, at],
      ];

const trace = (context: CanvasRenderingContext2D, { view }: Stage, points: readonly ImagePoint[]) => {
  points.forEach((point, i) => {
    const { left, top } = toFrame(view, point);
    if (i === 0) context.moveTo(left, top);
    else context.lineTo(left, top);
  });
};

/** Whether a ball stands on the camera's side of the upright plane, and so before it. */
const standsBefore = (camera: Camera, { axis, at }: Line, ball: Place): boolean => {
  const eye = axis === 'x' ? camera.position[0] : camera.position[1];
  return (eye - at) * (ball[axis] - at) > 0;
};

/** Keeps what follows off the balls that stand before the plane. */
const clipBalls = (
  context: CanvasRenderingContext2D,
  stage: Stage,
  camera: Camera,
  balls: readonly Place[],
) => {
  context.beginPath();
  context.rect(0, 0, stage.frame.width, stage.frame.height);
  for (const ball of balls) {
    const outline = ballContour(camera, lawnPoint(ball.x, ball.y), 40);
    if (!outline) continue;
    trace(context, stage, outline);
    context.closePath();
  }
  context.clip('evenodd');
};

const stroke = (
  context: CanvasRenderingContext2D,
  points: () => void,
  widths: readonly [number, string][],
) => {
  for (const [width, colour] of widths) {
    context.beginPath();
    points();
    context.lineWidth = width;
    context.strokeStyle = colour;
    context.stroke();
  }
};

const CHALK: readonly [number, string][] = [
  [4.5, '#0d171399'],
  [2.2, '#fbfaf4'],
];

/**
 * The halfway line as a chalk line on the grass, its end marks, and the upright plane above it as a faint veil as high as a ball; a ball
 * that stands before the plane cuts it, one behind it is veiled.
 */
export const drawHalfway = (
  context: CanvasRenderingContext2D,
  stage: Stage,
  camera: Camera,
  court: Court,
  line: Line,
  balls: readonly Place[],
): void => {
  const [from, to] = endsOf(court, line);
  const foot = seenLine(camera, from, to, 0);
  const head = seenLine(camera, from, to, BALL_DIAMETER);
  if (foot.length < 2) return;
  context.save();
  context.lineCap = 'round';
  clipBalls(
    context,
    stage,
    camera,
    balls.filter((ball) => standsBefore(camera, line, ball)),
  );
  context.beginPath();
  trace(context, stage, [...foot, ...head.toReversed()]);
  context.closePath();
  context.fillStyle = '#fbfaf480';
  context.fill();
  stroke(context, () => trace(context, stage, head), [[1, '#fbfaf4b0']]);
  stroke(context, () => trace(context, stage, foot), CHALK);
  context.restore();
  for (const [x, y] of [from, to]) {
    const mark = seenLine(camera, [x, y], [x, y], 0).slice(0, 1);
    const top = seenLine(camera, [x, y], [x, y], MARK_HEIGHT).slice(0, 1);
    stroke(context, () => trace(context, stage, [...mark, ...top]), [
      [7, '#0d1713b0'],
      [4, '#fbfaf4'],
    ]);
  }
};

/** The outlines of balls, thin and ringed dark, so that they can be checked against the photo. */
export const drawOutlines = (
  context: CanvasRenderingContext2D,
  stage: Stage,
  outlines: readonly { readonly points: readonly ImagePoint[] | null; readonly strong?: boolean }[],
): void => {
  for (const { points, strong } of outlines) {
    if (!points) continue;
    const round = () => {
      trace(context, stage, points);
      context.closePath();
    };
    stroke(context, round, [
      [strong ? 4.5 : 3, '#0d1713'],
      [strong ? 2.4 : 1.4, '#fbfaf4'],
    ]);
  }
};

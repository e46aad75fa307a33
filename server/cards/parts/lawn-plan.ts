import type { Letters } from '../../contract/settings.ts';
import type { BallColour } from '../../lawn/colours.ts';
import { acrossCourt, type Court } from '../../lawn/court.ts';
import type { HalfwayLine } from '../../lawn/halfway-lines.ts';
import { HOOP_NUMBERS, type HoopNumber, hoopPlace, pegPlace } from '../../lawn/hoops.ts';
import { MARKER_NAMES, markerPlace } from '../../lawn/named-points.ts';
import { line, round, type Shape } from '../sheet/shapes.ts';
import { ballMark } from './ball-mark.ts';
import { LOOK } from './look.ts';
import { spread } from './spread.ts';
import { text } from './text.ts';

/** A ball on a plan: metres, standard deviations and their correlation. */
export type PlanBall = {
  readonly colour: BallColour;
  readonly x: number;
  readonly y: number;
  readonly sdX?: number;
  readonly sdY?: number;
  readonly correlation?: number;
};

/** Where a plan lies on its sheet: its top-left corner in pt, and pt for each metre of the lawn. */
export type PlanFrame = { readonly x: number; readonly y: number; readonly scale: number };

/** Metres of grass shown around the boundary. */
export const PLAN_MARGIN = 1.3;

/** Size of a plan on its sheet, pt. */
export const planSize = (court: Court, scale: number): { width: number; height: number } => ({
  width: (court.width + 2 * PLAN_MARGIN) * scale,
  height: (court.length + 2 * PLAN_MARGIN) * scale,
});

/** The place on the sheet, pt, of a point of the lawn, metres. North is up. */
export const onPlan =
  (court: Court, { x, y, scale }: PlanFrame) =>
  (lawnX: number, lawnY: number): readonly [number, number] => [
    x + (PLAN_MARGIN + lawnX) * scale,
    y + (PLAN_MARGIN + court.length - lawnY) * scale,
  ];

const STRIPES = 8;

const grass = (court: Court, frame: PlanFrame): Shape[] => {
  const { width, height } = planSize(court, frame.scale);
  const at = onPlan(court, frame);
  const stripe = acrossCourt(court, 28 / STRIPES);
  const [left, top] = at(0, court.length);
  const [right, bottom] = at(court.width, 0);
  return [
    { kind: 'rect', x: frame.x, y: frame.y, width, height, radius: 4, fill: LOOK.turf },
    ...Array.from({ length: STRIPES / 2 }, (_, index): Shape => {
      const x = at((2 * index + 1) * stripe, 0)[0];
      return {
        kind: 'rect',
        x,
        y: top,
        width: stripe * frame.scale,
        height: bottom - top,
        fill: LOOK.stripe,
      };
    }),
    {
      kind: 'rect',
      x: left,
      y: top,
      width: right - left,
      height: bottom - top,
      stroke: { colour: LOOK.chalk, width: Math.max(0.16 * frame.scale, 0.9) },
    },
  ];
};

const hoopShapes = (court: Court, frame: PlanFrame, hoop: HoopNumber): Shape[] => {
  const place = hoopPlace(court, hoop);
  const [x, y] = onPlan(court, frame)(place.x, place.y);
  const half = 0.45 * frame.scale;
  const foot = 0.17 * frame.scale;
  return [
    line(x - half, y, x + half, y, { colour: LOOK.chalk, width: 0.13 * frame.scale }),
    { kind: 'ellipse', x: x - half, y, rx: foot, ry: foot, fill: LOOK.chalk },
    { kind: 'ellipse', x: x + half, y, rx: foot, ry: foot, fill: LOOK.chalk },
    text(x + half + 0.45 * frame.scale, y + 0.36 * frame.scale, String(hoop), {
      size: 1.1 * frame.scale,
      weight: 600,
      colour: LOOK.turfInk,
    }),
  ];
};

const furniture = (court: Court, frame: PlanFrame): Shape[] => {
  const at = onPlan(court, frame);
  const peg = pegPlace(court);
  const [px, py] = at(peg.x, peg.y);
  const dot = 0.2 * frame.scale;
  return [
    ...HOOP_NUMBERS.flatMap((hoop) => hoopShapes(court, frame, hoop)),
    ...MARKER_NAMES.map((name): Shape => {
      const place = markerPlace(court, name);
      const out = 0.4;
      const dx = name === 'markerW' ? -out : name === 'markerE' ? out : 0;
      const dy = name.startsWith('markerS') ? -out : name.startsWith('markerN') ? out : 0;
      const [x, y] = at(place.x + dx, place.y + dy);
      return { kind: 'ellipse', x, y, rx: dot * 0.8, ry: dot * 0.8, fill: LOOK.chalk };
    }),
    {
      kind: 'ellipse',
      x: px,
      y: py,
      rx: dot,
      ry: dot,
      fill: LOOK.chalk,
      stroke: { colour: LOOK.turfInk, width: 0.5 },
    },
  ];
};

/** The halfway line from mark to mark, and a light wash over the part of the lawn past it. */
const lineShapes = (court: Court, frame: PlanFrame, { axis, at, nextHoopSide }: HalfwayLine): Shape[] => {
  const place = onPlan(court, frame);
  const [near, far] = nextHoopSide === 1 ? [at, axis === 'x' ? court.width : court.length] : [0, at];
  const [left, top] = axis === 'x' ? place(near, court.length) : place(0, far);
  const [right, bottom] = axis === 'x' ? place(far, 0) : place(court.width, near);
  const end = 0.7;
  const ends =
    axis === 'x'
      ? [place(at, -end), place(at, court.length + end)]
      : [place(-end, at), place(court.width + end, at)];
  const [[x1, y1], [x2, y2]] = ends as [readonly [number, number], readonly [number, number]];
  const width = Math.max(0.18 * frame.scale, 1);
  return [
    {
      kind: 'rect',
      x: left,
      y: top,
      width: right - left,
      height: bottom - top,
      fill: LOOK.chalk,
      opacity: 0.2,
    },
    line(x1, y1, x2, y2, { colour: LOOK.turfInk, width: width * 1.9 }),
    line(x1, y1, x2, y2, { colour: LOOK.chalk, width, dash: [0.8 * frame.scale, 0.45 * frame.scale] }),
  ];
};

/** 95 % point of χ² with two degrees of freedom, −2 ln 0.05. */
const CHI_SQUARE_95 = -2 * Math.log(0.05);

/** Half axes (metres) and direction (degrees, counter-clockwise from east) of the 95 % region: the eigenvalues of the covariance. */
export const regionOf = ({ sdX = 0, sdY = 0, correlation = 0 }: PlanBall) => {
  const [xx, yy, xy] = [sdX * sdX, sdY * sdY, correlation * sdX * sdY];
  const [mean, half] = [(xx + yy) / 2, Math.hypot((xx - yy) / 2, xy)];
  return {
    major: Math.sqrt(CHI_SQUARE_95 * (mean + half)),
    minor: Math.sqrt(CHI_SQUARE_95 * Math.max(0, mean - half)),
    angle: (Math.atan2(2 * xy, xx - yy) * 90) / Math.PI,
  };
};

const DISC = 0.78;

const ballShapes = (
  court: Court,
  frame: PlanFrame,
  balls: readonly PlanBall[],
  letters: Letters,
): Shape[] => {
  const at = onPlan(court, frame);
  const places = balls.map(({ x, y }) => at(x, y)).map(([x, y]) => ({ x, y }));
  const radius = Math.max(DISC * frame.scale, 4.2);
  const discs = spread(places, radius);
  return balls.flatMap((ball, index) => {
    const [place, disc] = [places[index]!, discs[index]!];
    const { major, minor, angle } = regionOf(ball);
    const away = Math.hypot(disc.x - place.x, disc.y - place.y) > 0.5;
    const region: Shape = {
      kind: 'ellipse',
      ...place,
      rx: Math.max(major * frame.scale, 0.1),
      ry: Math.max(minor * frame.scale, 0.1),
      turn: -angle,
      stroke: { colour: LOOK.turfInk, width: 0.6 },
    };
    const tie = [
      line(place.x, place.y, disc.x, disc.y, { colour: LOOK.turfInk, width: 0.8 }),
      { kind: 'ellipse', ...place, rx: 1.2, ry: 1.2, fill: LOOK.turfInk } as const,
    ];
    return [region, ...(away ? tie : []), ...ballMark(ball.colour, [disc.x, disc.y], radius, letters)];
  });
};

/** What a plan shows. */
export type PlanContent = {
  readonly court: Court;
  readonly balls: readonly PlanBall[];
  readonly line?: HalfwayLine | null;
  readonly letters: Letters;
};

/** The lawn from above, to scale, north at the top. Discs that would cover each other are drawn apart and tied to where their balls rest. */
export const lawnPlan = (
  { court, balls, line: halfway, letters }: PlanContent,
  frame: PlanFrame,
): Shape[] => [
  ...grass(court, frame),
  ...(halfway ? lineShapes(court, frame, halfway) : []),
  ...furniture(court, frame),
  ...ballShapes(court, frame, balls, letters),
];

/** A bar of `metresLong` metres below a plan, with its length in words. */
export const scaleBar = (x: number, y: number, scale: number, metresLong: number, words: string): Shape[] => {
  const width = round(metresLong * scale);
  const stroke = { colour: LOOK.soft, width: 0.8 };
  return [
    line(x, y, x + width, y, stroke),
    line(x, y - 2.5, x, y + 2.5, stroke),
    line(x + width, y - 2.5, x + width, y + 2.5, stroke),
    text(x + width + 5, y + 3, words, { size: 8, colour: LOOK.soft }),
  ];
};

import { projectPoint } from '../../server/camera/camera-model.ts';
import type { Camera } from '../../server/camera/types.ts';
import { STANDARD_COURT as COURT } from '../../server/lawn/court.ts';
import { HOOP_HEIGHT, HOOP_NUMBERS, hoopPlace, PEG_HEIGHT, pegPlace } from '../../server/lawn/hoops.ts';
import { pixels } from '../../server/units/numbers.ts';
import { lawnPoint3 } from '../../server/units/points.ts';
import { BallMark } from '../plan/ball-disc.tsx';
import style from './home.module.css';

const WIDTH = 400;
const HEIGHT = 190;
/** How far the camera looks down, radians. */
const DOWN = 0.36;

/** A camera on a terrace south of the lawn, looking north and down. */
const CAMERA: Camera = {
  position: [12.2, -15, 9.5],
  rotation: [1, 0, 0, 0, -Math.sin(DOWN), -Math.cos(DOWN), 0, Math.cos(DOWN), -Math.sin(DOWN)],
  focal: pixels(258),
  radial: [0, 0],
  width: pixels(WIDTH),
  height: pixels(HEIGHT),
};

const at = (x: number, y: number, z = 0): string => {
  const point = projectPoint(CAMERA, lawnPoint3(x, y, z))!;
  return `${point.x.toFixed(1)} ${point.y.toFixed(1)}`;
};
const area = (corners: readonly (readonly [number, number])[]): string =>
  `M${corners.map(([x, y]) => at(x, y)).join('L')}Z`;

const stripe = (west: number, east: number): string =>
  area([
    [west, -14],
    [west, 70],
    [east, 70],
    [east, -14],
  ]);

const hoop = (x: number, y: number): string =>
  `M${at(x - 0.16, y)}L${at(x - 0.16, y, 2 * HOOP_HEIGHT)}L${at(x + 0.16, y, 2 * HOOP_HEIGHT)}L${at(x + 0.16, y)}`;

/** West edges of the mown stripes, metres. */
const STRIPES = [-24, -16, -8, 0, 8, 16, 24, 32, 40];

const { width, length } = COURT;
const HALF = length / 2;

/** A lawn seen from a terrace, drawn by the same camera that judges: the halfway line, its upright plane, two balls. Decoration only. */
export const LawnScene = () => {
  const near = projectPoint(CAMERA, lawnPoint3(8.4, HALF - 1.5, 0))!;
  const far = projectPoint(CAMERA, lawnPoint3(17, HALF + 2.6, 0))!;
  const peg = pegPlace(COURT);
  return (
    <svg
      className={style.scene}
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      preserveAspectRatio="xMidYMid slice"
      aria-hidden="true"
    >
      <rect width={WIDTH} height={HEIGHT} fill="var(--turf)" />
      {STRIPES.map((west) => (
        <path key={west} d={stripe(west, west + 4)} fill="var(--turf-stripe)" />
      ))}
      <path
        d={area([
          [0, 0],
          [0, length],
          [width, length],
          [width, 0],
        ])}
        fill="none"
        stroke="var(--chalk)"
        strokeWidth="2"
      />
      <path
        d={`M${at(0, HALF)}L${at(width, HALF)}L${at(width, HALF, 1)}L${at(0, HALF, 1)}Z`}
        fill="var(--chalk)"
        opacity=".38"
      />
      <path
        d={`M${at(-0.5, HALF)}L${at(width + 0.5, HALF)}`}
        stroke="var(--chalk)"
        strokeWidth="1.6"
        strokeDasharray="5 4"
      />
      {HOOP_NUMBERS.map((number) => {
        const place = hoopPlace(COURT, number);
        return (
          <path key={number} d={hoop(place.x, place.y)} fill="none" stroke="var(--chalk)" strokeWidth="1.6" />
        );
      })}
      <path
        d={`M${at(peg.x, peg.y)}L${at(peg.x, peg.y, 2 * PEG_HEIGHT)}`}
        stroke="var(--chalk)"
        strokeWidth="2.4"
      />
      <BallMark colour="yellow" x={near.x} y={near.y} radius={8} />
      <BallMark colour="blue" x={far.x} y={far.y} radius={7} />
    </svg>
  );
};

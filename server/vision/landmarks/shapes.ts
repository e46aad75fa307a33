import { outwardNormal, type Side } from '../../lawn/court.ts';
import { HOOP_HEIGHT, HOOP_OPENING, HOOP_UPRIGHT, PEG_DIAMETER, PEG_HEIGHT } from '../../lawn/hoops.ts';
import { type LawnPoint, lawnPoint } from '../../units/points.ts';
import type { Rod } from './rod.ts';

/**
 * Something upright on the lawn whose place is to be measured. Its parameters: displacement east and north (metres), then its own; `rods`
 * draws it, `start` and `spread` give each parameter's prior mean and standard deviation. `layers` counts its brightnesses; layer 0 is
 * white.
 */
export type Shape = {
  readonly layers: number;
  /** How many of the first layers are white and speak for the thing being there. */
  readonly whites: number;
  /** Layer of the shadow on the ground, when one is drawn: it darkens the ground in proportion. */
  readonly shadow?: number;
  /** Whether light from one side is fitted too. Bands of colour leave too little of each part for that. */
  readonly shaded: boolean;
  readonly start: readonly number[];
  readonly spread: readonly number[];
  /** Whether a displacement (metres) is looked for at all. */
  readonly admits: (dx: number, dy: number) => boolean;
  readonly rods: (parameters: ArrayLike<number>) => readonly Rod[];
};

/**
 * Hidden foot of anything upright, metres above the lawn's plane. That plane is the plane of the paint, which lies on the blades, so hardly
 * anything is hidden; the spread is half a lawn's cut (from memory).
 */
const GRASS = { mean: 0.001, sd: 0.004 } as const;
/**
 * Spread of the height of a hoop's top above the ground and of its opening, metres, from memory. The stated height is taken to the crown's
 * under side by some and to its top by others, so the mean lies between.
 */
const HOOP_SPREAD = { height: 0.012, opening: 0.003 } as const;
/** Spread of a hoop's turn out of the parallel and of its lean, radians (5° and 3°). Common practice, no source. */
const TURN_SPREAD = 0.09;
const LEAN_SPREAD = 0.05;
/** Height of the peg's white part (Western Australia's sports dimensions guide: at least 150 mm; how much more is the maker's choice), metres. */
const PEG_WHITE = { mean: 0.19, sd: 0.035 } as const;
/** Spread of the peg's height above the ground, metres. */
const PEG_SPREAD = 0.01;
/** Coloured bands above it: blue, red, black, yellow from the top (common practice, no source). */
const PEG_BANDS = 4;
/** The crown's axis lies half its thickness below the hoop's top. */
const CROWN = HOOP_UPRIGHT / 2;

/** Places of a hoop's turn and lean among its parameters. */
export const HOOP_TURN = 4;
export const HOOP_LEAN = 6;

/**
 * A hoop whose feet's middle should be at `place`. Parameters: dx, dy, hidden foot, height, turn (radians, anticlockwise seen from above), opening,
 * lean about the line through its feet (radians, towards the north for a hoop that is not turned).
 */
export const hoopShape = (place: LawnPoint, reach: number): Shape => ({
  layers: 2,
  whites: 1,
  shaded: true,
  start: [0, 0, GRASS.mean, HOOP_HEIGHT + CROWN, 0, HOOP_OPENING, 0],
  spread: [reach, reach, GRASS.sd, HOOP_SPREAD.height, TURN_SPREAD, HOOP_SPREAD.opening, LEAN_SPREAD],
  admits: (dx, dy) => Math.hypot(dx, dy) <= reach,
  rods: (p) => {
    const half = (p[5]! + HOOP_UPRIGHT) / 2;
    const [c, s] = [Math.cos(p[HOOP_TURN]!), Math.sin(p[HOOP_TURN]!)];
    const [sl, cl] = [Math.sin(p[HOOP_LEAN]!), Math.cos(p[HOOP_LEAN]!)];
    // Along the upright of one side (−1 or 1) by `up` metres from the ground.
    const at = (side: number, up: number): readonly [number, number, number] => [
      place.x + p[0]! + side * half * c - up * sl * s,
      place.y + p[1]! + side * half * s + up * sl * c,
      up * cl,
    ];
    const top = p[3]! - 2 * CROWN;
    const radius = HOOP_UPRIGHT / 2;
    return [
      { from: at(-1, p[2]!), to: at(-1, top), radius, layer: 0 },
      { from: at(1, p[2]!), to: at(1, top), radius, layer: 0 },
      { from: at(-1, top + CROWN), to: at(1, top + CROWN), radius, layer: 1 },
    ];
  },
});

/** The peg, which should stand at `place`. Parameters: dx, dy, hidden foot, height, height of the white part. Its white lower part is layer 0; its bands are the others. */
export const pegShape = (place: LawnPoint, reach: number): Shape => ({
  layers: 1 + PEG_BANDS,
  whites: 1,
  shaded: false,
  start: [0, 0, GRASS.mean, PEG_HEIGHT, PEG_WHITE.mean],
  spread: [reach, reach, GRASS.sd, PEG_SPREAD, PEG_WHITE.sd],
  admits: (dx, dy) => Math.hypot(dx, dy) <= reach,
  rods: (p) => {
    const x = place.x + p[0]!;
    const y = place.y + p[1]!;
    const radius = PEG_DIAMETER / 2;
    const white = p[4]!;
    const band = (p[3]! - white) / PEG_BANDS;
    const part = (from: number, to: number, layer: number): Rod => ({
      from: [x, y, from],
      to: [x, y, to],
      radius,
      layer,
    });
    const bands = Array.from({ length: PEG_BANDS }, (_, k) =>
      part(white + k * band, white + (k + 1) * band, k + 1),
    );
    return [part(p[2]!, white, 0), ...bands];
  },
});

/**
 * A boundary marker: its foot's usual distance outside the inner edge of the boundary and that distance's spread; a small peg's height and
 * half thickness; half the size of a painted dot. Metres, from memory: clubs use what they have.
 */
const MARKER = {
  out: 0.06,
  outSd: 0.02,
  height: 0.09,
  heightSd: 0.04,
  radius: 0.01,
  radiusSd: 0.004,
  dot: 0.025,
} as const;

/** From a marker's proper place on the boundary's inner edge to its foot, metres. */
export const markerFootOffset = (side: Side): readonly [number, number] => {
  const [nx, ny] = outwardNormal(side);
  return [nx * MARKER.out, ny * MARKER.out];
};

/** Where a marker's foot stands for its proper place on the boundary's inner edge. */
export const markerFoot = (place: LawnPoint, [nx, ny]: readonly [number, number]): LawnPoint =>
  lawnPoint(place.x + nx * MARKER.out, place.y + ny * MARKER.out);

const beside = (reach: number, [nx, ny]: readonly [number, number], outSd: number) => {
  const spread = (n: number): number => (n === 0 ? reach : outSd);
  return {
    spread: [spread(nx), spread(ny)],
    admits: (dx: number, dy: number): boolean =>
      Math.abs(dx * nx + dy * ny) <= 2.25 * outSd && Math.abs(dx * ny - dy * nx) <= reach,
  };
};

/** Length of a marker's top that may be lit otherwise than its body, metres. */
const TOP = 0.02;

/** A small white peg whose foot should be at `foot`, outside the boundary with outward normal `normal`, give or take `outSd` metres along it. Parameters: dx, dy, hidden foot, height, radius. */
export const markerPegShape = (
  foot: LawnPoint,
  normal: readonly [number, number],
  reach: number,
  outSd: number = MARKER.outSd,
): Shape => {
  const { spread, admits } = beside(reach, normal, outSd);
  return {
    layers: 2,
    whites: 2,
    shaded: false,
    start: [0, 0, GRASS.mean, MARKER.height, MARKER.radius],
    spread: [...spread, GRASS.sd, MARKER.heightSd, MARKER.radiusSd],
    admits,
    rods: (p) => {
      const x = foot.x + p[0]!;
      const y = foot.y + p[1]!;
      const height = Math.max(p[3]!, p[2]! + 1.5 * TOP);
      const radius = Math.max(0.003, p[4]!);
      return [
        { from: [x, y, p[2]!], to: [x, y, height - TOP], radius, layer: 0 },
        { from: [x, y, height - TOP], to: [x, y, height], radius, layer: 1 },
      ];
    },
  };
};

/** A painted white dot on the ground, placed as a small peg is. Parameters: dx, dy, half its size. */
export const markerDotShape = (
  foot: LawnPoint,
  normal: readonly [number, number],
  reach: number,
  outSd: number = MARKER.outSd,
): Shape => {
  const { spread, admits } = beside(reach, normal, outSd);
  return {
    layers: 1,
    whites: 1,
    shaded: true,
    start: [0, 0, MARKER.dot],
    spread: [...spread, MARKER.dot / 3],
    admits,
    rods: (p) => {
      const x = foot.x + p[0]!;
      const y = foot.y + p[1]!;
      const size = Math.max(0.005, p[2]!);
      return [{ from: [x - size, y, 0], to: [x + size, y, 0], radius: size, layer: 0 }];
    },
  };
};

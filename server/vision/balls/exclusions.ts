import { projectPoint } from '../../camera/camera-model.ts';
import type { Camera } from '../../camera/types.ts';
import { BALL_COLOURS, type BallColour } from '../../lawn/colours.ts';
import { type Court, outwardNormal, SIDES, sideEnds } from '../../lawn/court.ts';
import {
  HOOP_HEIGHT,
  HOOP_NUMBERS,
  HOOP_OPENING,
  HOOP_UPRIGHT,
  hoopPlace,
  PEG_DIAMETER,
  PEG_HEIGHT,
  pegPlace,
} from '../../lawn/hoops.ts';
import { CORNER_NAMES, MARKER_NAMES, markerPlace, markerSide, namedPlace } from '../../lawn/named-points.ts';
import { type LawnPoint, lawnPoint3 } from '../../units/points.ts';

/** A known thing that stands on the lawn, as a straight piece of it in the picture: what looks like a ball on it hardly is one. */
export type KnownThing = {
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  /** How near to the piece a ball's centre must be to be doubted, px. */
  readonly near: number;
  /** ln odds that each of BALL_COLOURS loses there. */
  readonly doubt: Float64Array;
  /** Whether it is the peg or one of a hoop's uprights, under which a ball may well stand. */
  readonly upright?: boolean;
};

/** ln odds lost on the peg and on a hoop's crown (all colours), on a hoop's uprights (white), on a flag (those its cloth may have), and outside the boundary (white: pegs and marks). */
const PEG_DOUBT = 7;
const CROWN_DOUBT = 6;
const UPRIGHT_DOUBT = 2;
const FLAG_DOUBT = 6;
const OUTSIDE_DOUBT = 4;
/** How far hoops and peg may stand from their places and lean, metres. Common practice, no source. */
const LEANING = 0.03;
/** The peg's and an upright's lowest part is left to balls that lie right behind it, metres. */
const FOOT = 0.12;
/** Flags stand within a metre of their corner, up to this high, and their cloth reaches this far, metres. Common practice, no source. */
const FLAG_TOP = 0.9;
const FLAG_CLOTH = 0.35;
/** A ball's centre this far outside still belongs to a ball on the line, metres. */
const OUTSIDE = 0.03;
/** ln odds that white and pink lose on the paint of a boundary, and how near to its middle that is, metres: a ball there must show its outline well. */
const PAINT_DOUBT = 3;
const PAINT_REACH = 0.06;

type Place = readonly [number, number, number];

const onColours = (colours: readonly BallColour[], doubt: number): Float64Array => {
  const odds = new Float64Array(BALL_COLOURS.length);
  for (let c = 0; c < odds.length; c++) if (colours.includes(BALL_COLOURS[c]!)) odds[c] = -doubt;
  return odds;
};

/** The thing from `a` to `b` (metres), `wide` metres to either side; null out of view. */
const thing = (camera: Camera, a: Place, b: Place, wide: number, doubt: Float64Array): KnownThing | null => {
  const from = projectPoint(camera, lawnPoint3(...a));
  const to = projectPoint(camera, lawnPoint3(...b));
  const [cx, cy, cz] = camera.position;
  const distance = Math.hypot(a[0] - cx, a[1] - cy, a[2] - cz);
  if (!from || !to) return null;
  return { ax: from.x, ay: from.y, bx: to.x, by: to.y, near: (wide * camera.focal) / distance, doubt };
};

const upright = (found: KnownThing | null): KnownThing | null => found && { ...found, upright: true };

const pegThings = (camera: Camera, { x, y }: LawnPoint): (KnownThing | null)[] => [
  upright(
    thing(
      camera,
      [x, y, FOOT],
      [x, y, PEG_HEIGHT + LEANING],
      PEG_DIAMETER / 2 + LEANING,
      onColours(BALL_COLOURS, PEG_DOUBT),
    ),
  ),
];

const hoopThings = (camera: Camera, { x, y }: LawnPoint): (KnownThing | null)[] => {
  const half = (HOOP_OPENING + HOOP_UPRIGHT) / 2;
  const white = onColours(['white'], UPRIGHT_DOUBT);
  const uprightAt = (dx: number): KnownThing | null =>
    upright(thing(camera, [x + dx, y, FOOT], [x + dx, y, HOOP_HEIGHT], HOOP_UPRIGHT / 2 + LEANING, white));
  const crown = thing(
    camera,
    [x - half, y, HOOP_HEIGHT],
    [x + half, y, HOOP_HEIGHT],
    HOOP_UPRIGHT / 2 + LEANING,
    onColours(BALL_COLOURS, CROWN_DOUBT),
  );
  return [uprightAt(-half), uprightAt(half), crown];
};

/** Directions away from the court at the corners 1 to 4. */
const OUTWARD = [
  [-1, -1],
  [-1, 1],
  [1, 1],
  [1, -1],
] as const;
/** The balls' colours that a flag's cloth may have in the sun or in shade, at the corners 1 to 4. */
const CLOTHS: readonly (readonly BallColour[])[] = [
  ['blue', 'black'],
  ['red', 'brown'],
  ['black', 'brown', 'blue'],
  ['yellow'],
];
/** How far outside its corner a flag may stand, metres along both axes. */
const FLAG_STANDS = [0, 0.35, 0.7] as const;

const flagThings = (camera: Camera, court: Court): (KnownThing | null)[] =>
  CORNER_NAMES.flatMap((name, i) => {
    const { x, y } = namedPlace(court, name);
    const [dx, dy] = OUTWARD[i]!;
    const doubt = onColours(CLOTHS[i]!, FLAG_DOUBT);
    return FLAG_STANDS.map((out) =>
      thing(
        camera,
        [x + dx * out, y + dy * out, 0.15],
        [x + dx * out, y + dy * out, FLAG_TOP],
        FLAG_CLOTH,
        doubt,
      ),
    );
  });

/** ln odds that white loses on a boundary marker, how far outside its place, how high and how far aside it may stand, metres. Common practice, no source. */
const MARKER_DOUBT = 5;
const MARKER_OUTSIDE = 0.06;
const MARKER_HEIGHT = 0.15;
const MARKER_REACH = 0.12;

const markerThings = (camera: Camera, court: Court): (KnownThing | null)[] =>
  MARKER_NAMES.map((name) => {
    const { x, y } = markerPlace(court, name);
    const [nx, ny] = outwardNormal(markerSide(name));
    const [ox, oy] = [x + MARKER_OUTSIDE * nx, y + MARKER_OUTSIDE * ny];
    const doubt = onColours(['white'], MARKER_DOUBT);
    return thing(camera, [ox, oy, 0], [ox, oy, MARKER_HEIGHT], MARKER_REACH, doubt);
  });

/** ln odds that every colour loses on a painted corner, and how near that is, metres: two lines that meet make a blob of a ball's size. */
const PAINT_CORNER_DOUBT = 7;
const PAINT_CORNER_REACH = 0.12;

const cornerThings = (camera: Camera, court: Court): (KnownThing | null)[] =>
  CORNER_NAMES.map((name) => {
    const { x, y } = namedPlace(court, name);
    return thing(
      camera,
      [x, y, 0],
      [x, y, 0.01],
      PAINT_CORNER_REACH,
      onColours(BALL_COLOURS, PAINT_CORNER_DOUBT),
    );
  });

const paintThings = (camera: Camera, court: Court): (KnownThing | null)[] =>
  SIDES.map((side) => {
    const [a, b] = sideEnds(court, side);
    return thing(
      camera,
      [a.x, a.y, 0],
      [b.x, b.y, 0],
      PAINT_REACH,
      onColours(['white', 'pink'], PAINT_DOUBT),
    );
  });

/** The peg, the hoops, the painted lines and the corner flags of `court` as `camera` sees them. */
export const knownThings = (camera: Camera, court: Court): KnownThing[] =>
  [
    ...pegThings(camera, pegPlace(court)),
    ...HOOP_NUMBERS.flatMap((hoop) => hoopThings(camera, hoopPlace(court, hoop))),
    ...flagThings(camera, court),
    ...paintThings(camera, court),
    ...markerThings(camera, court),
    ...cornerThings(camera, court),
  ].filter((found) => found !== null);

/** Distance in px of image (`x`, `y`) from the piece. */
export const distanceTo = ({ ax, ay, bx, by }: KnownThing, x: number, y: number): number => {
  const dx = bx - ax;
  const dy = by - ay;
  const length2 = dx * dx + dy * dy;
  const t = length2 === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / length2));
  const [offX, offY] = [x - ax - t * dx, y - ay - t * dy];
  return Math.sqrt(offX * offX + offY * offY);
};

/** The peg and the hoops' uprights among `things` that come within `reach` px of image (`x`, `y`). */
export const uprightsNear = (
  things: readonly KnownThing[],
  x: number,
  y: number,
  reach: number,
): KnownThing[] =>
  things.filter((known) => known.upright && distanceTo(known, x, y) < known.near + reach + 1);

/**
 * ln odds that a candidate loses by colour (in BALL_COLOURS' order, 0 or negative) because of where its centre is: at image (`x`, `y`) px, which is `place`
 * on the lawn.
 */
export const placeDoubts = (
  things: readonly KnownThing[],
  court: Court,
  x: number,
  y: number,
  place: LawnPoint,
): Float64Array => {
  const doubts = new Float64Array(BALL_COLOURS.length);
  for (const known of things) {
    if (distanceTo(known, x, y) > known.near + 0.5) continue;
    for (let c = 0; c < doubts.length; c++) doubts[c] = Math.min(doubts[c]!, known.doubt[c]!);
  }
  const outside = Math.max(-place.x, -place.y, place.x - court.width, place.y - court.length);
  const white = BALL_COLOURS.indexOf('white');
  if (outside > OUTSIDE) doubts[white] = Math.min(doubts[white]!, -OUTSIDE_DOUBT);
  return doubts;
};

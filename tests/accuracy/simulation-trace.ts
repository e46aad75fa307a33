import { projectionJacobian } from '../../server/camera/camera-model.ts';
import { DEFAULT_SETTING_SD } from '../../server/camera/mark-places.ts';
import { EDGE_SETTING_SD } from '../../server/camera/refine-camera.ts';
import type { Camera, LineSample, MarkedPoint } from '../../server/camera/types.ts';
import { outwardNormal, SIDES, type Side, STANDARD_COURT, sideEnds } from '../../server/lawn/court.ts';
import { CORNER_NAMES, HOOP_NAMES, namedPlace, type PointName } from '../../server/lawn/named-points.ts';
import { pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { between, normal } from './random.ts';
import { type Ground, seenAt } from './simulation-scene.ts';

/** Standard deviation of a simulated finger, px. */
export const FINGER_SD = 2;

/** The marks of one point, off by the court's setting and the finger; none when it is out of the picture. */
const markOf = (random: () => number, camera: Camera, ground: Ground, name: PointName): MarkedPoint[] => {
  const kind = name.startsWith('corner') ? 'corner' : name === 'peg' ? 'peg' : 'hoop';
  const sd = DEFAULT_SETTING_SD[kind];
  const place = namedPlace(STANDARD_COURT, name);
  const image = seenAt(camera, ground, place.x + sd * normal(random), place.y + sd * normal(random));
  if (!image) return [];
  const marked = imagePoint(image.x + FINGER_SD * normal(random), image.y + FINGER_SD * normal(random));
  const inside = marked.x >= 0 && marked.y >= 0 && marked.x <= camera.width && marked.y <= camera.height;
  return inside ? [{ name, image: marked }] : [];
};

/** Marks as people make them: the four corners; hoops and the peg as well when a corner is out of the picture, and now and then otherwise. */
export const randomMarks = (random: () => number, camera: Camera, ground: Ground): MarkedPoint[] => {
  const corners = CORNER_NAMES.flatMap((name) => markOf(random, camera, ground, name));
  if (corners.length === 4 && random() < 0.7) return corners;
  return [
    ...corners,
    ...(['peg', ...HOOP_NAMES] as const).flatMap((name) => markOf(random, camera, ground, name)),
  ];
};

/** Stations along a side at which a trace looks for the edge. */
const STATIONS = 80;
/** Width in stations of what hides a line: a person, a mallet, a bare patch. */
const HIDDEN = 8;

/** Which stations of a side are seen: all, none (one side in eight), or without one or two hidden stretches. */
const seenStations = (random: () => number): boolean[] => {
  const seen = new Array<boolean>(STATIONS).fill(random() >= 0.125);
  const stretches = Math.floor(random() * 3);
  for (let i = 0; i < stretches; i++) {
    const start = Math.floor(random() * STATIONS);
    seen.fill(false, start, start + Math.floor(between(random, 1, 3 * HIDDEN)));
  }
  return seen;
};

/** Errors of the stations in standard deviations: normal, with heavy tails (one in twenty), and in one side of four a stretch that follows something else. */
const stationErrors = (random: () => number): number[] => {
  const errors = Array.from({ length: STATIONS }, () =>
    random() < 0.05 ? 8 * normal(random) : normal(random),
  );
  if (random() < 0.25) {
    const start = Math.floor(random() * STATIONS);
    const shift = 12 * normal(random);
    for (let i = start; i < Math.min(STATIONS, start + HIDDEN); i++) errors[i]! += shift;
  }
  return errors;
};

const sampleAt = (
  camera: Camera,
  ground: Ground,
  side: Side,
  share: number,
  shift: number,
  offset: number,
  sd: number,
): LineSample[] => {
  const [a, b] = sideEnds(STANDARD_COURT, side);
  const [outX, outY] = outwardNormal(side);
  const x = a.x + share * (b.x - a.x) + shift * outX;
  const y = a.y + share * (b.y - a.y) + shift * outY;
  const jacobian = seenAt(camera, ground, x, y) && projectionJacobian(camera, lawnPoint3(x, y, ground(x, y)));
  if (!jacobian) return [];
  const [px, py, , qx, qy] = jacobian.point as unknown as [number, number, number, number, number];
  const tx = px * (b.x - a.x) + py * (b.y - a.y);
  const ty = qx * (b.x - a.x) + qy * (b.y - a.y);
  const length = Math.hypot(tx, ty);
  const normalTo = [-ty / length, tx / length] as const;
  const image = imagePoint(jacobian.image.x + offset * normalTo[0], jacobian.image.y + offset * normalTo[1]);
  return [{ side, image, normal: normalTo, sd: pixels(sd) }];
};

/** Traced samples of the four boundaries as far as they are in the picture: 0.25 to 0.5 px of noise a sample, on edges that are themselves a few mm off. */
export const randomTrace = (random: () => number, camera: Camera, ground: Ground): LineSample[] =>
  SIDES.flatMap((side) => {
    const sd = between(random, 0.25, 0.5);
    const shift = EDGE_SETTING_SD * normal(random);
    const seen = seenStations(random);
    const errors = stationErrors(random);
    return errors.flatMap((error, i) =>
      seen[i] ? sampleAt(camera, ground, side, (i + 0.5) / STATIONS, shift, error * sd, sd) : [],
    );
  });

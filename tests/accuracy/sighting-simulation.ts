import { moveCamera, pointAtHeight, projectPoint } from '../../server/camera/camera-model.ts';
import { lookAt } from '../../server/camera/rotation.ts';
import { type SightedMark, solveSighting } from '../../server/camera/solve-sighting.ts';
import type { Camera } from '../../server/camera/types.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { outwardNormal, STANDARD_COURT } from '../../server/lawn/court.ts';
import { halfwayLine, SCORED_POINTS, type ScoredPoint } from '../../server/lawn/halfway-lines.ts';
import { type MarkerName, namedPlace, type PointName } from '../../server/lawn/named-points.ts';
import { lineEnds } from '../../server/reading/line-ends.ts';
import { pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint, lawnPoint3 } from '../../server/units/points.ts';
import { between, normal, seeded } from './random.ts';

/** One simulated sighting: error across the line, metres, and its stated standard deviation. */
export type SightingTrial = {
  readonly error: number;
  readonly sd: number;
  readonly beyond: number;
  readonly truth: number;
};

const COURT = STANDARD_COURT;
const FOCAL = 2357;
const SIZE = { width: 3264, height: 2448 } as const;
const MARK_SD = 0.6;
const BALL_SD = 0.3;

const sideOf = (name: MarkerName) =>
  (({ W: 'west', E: 'east', S: 'south', N: 'north' }) as const)[
    name['marker'.length] as 'W' | 'E' | 'S' | 'N'
  ];

/** Foot of a marker that stands `out` metres outside the boundary. */
const foot = (name: MarkerName, out: number) => {
  const place = namedPlace(COURT, name);
  const [nx, ny] = outwardNormal(sideOf(name));
  return lawnPoint3(place.x + nx * out, place.y + ny * out, 0);
};

/** A person behind end `near`, `behind` metres back and `aside` beside the line, who holds a phone `height` metres up, a little askew. */
const handHeld = (random: () => number, near: MarkerName, far: MarkerName): Camera => {
  const a = namedPlace(COURT, near);
  const b = namedPlace(COURT, far);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const [ux, uy] = [(b.x - a.x) / length, (b.y - a.y) / length];
  const behind = between(random, 1, 6);
  const aside = between(random, -0.6, 0.6);
  const position: [number, number, number] = [
    a.x - ux * behind - uy * aside,
    a.y - uy * behind + ux * aside,
    between(random, 1.2, 2),
  ];
  const target: [number, number, number] = [a.x + ux * 12, a.y + uy * 12, 0];
  return {
    position,
    rotation: lookAt(position, target, 0.05 * normal(random)),
    focal: pixels(FOCAL * Math.exp(0.02 * normal(random))),
    radial: [0.01 * normal(random), 0],
    width: pixels(SIZE.width),
    height: pixels(SIZE.height),
  };
};

const EXTRA: readonly PointName[] = ['peg', 'hoop1', 'hoop2', 'hoop3', 'hoop4', 'hoop5', 'hoop6'];

/** Marks of both ends and of up to three hoops or the peg that are in the picture, each off by the court's setting and the hand. */
const takeMarks = (
  random: () => number,
  camera: Camera,
  ends: readonly [MarkerName, MarkerName],
): SightedMark[] => {
  const marked = (name: PointName, x: number, y: number): SightedMark[] => {
    const image = projectPoint(camera, lawnPoint3(x, y, 0.005 * normal(random)));
    if (!image || image.x < 0 || image.y < 0 || image.x > SIZE.width || image.y > SIZE.height) return [];
    const at = imagePoint(image.x + MARK_SD * normal(random), image.y + MARK_SD * normal(random));
    return [{ mark: { name, image: at }, sd: MARK_SD }];
  };
  const wanted = EXTRA.filter(() => random() < 0.4);
  return [
    ...ends.flatMap((name) => {
      const at = foot(name, 0.06 + 0.02 * normal(random));
      return marked(name, at.x, at.y);
    }),
    ...wanted.flatMap((name) => {
      const place = namedPlace(COURT, name);
      return marked(name, place.x + 0.015 * normal(random), place.y + 0.015 * normal(random));
    }),
  ];
};

/** Standard deviation of the ball's coordinate `axis` on z = 46 mm from the camera's covariance, its own image and the height of the ground it stands on. */
const sdAcross = (
  camera: Camera,
  covariance: Float64Array,
  image: { x: number; y: number },
  axis: 'x' | 'y',
  unevenness: number,
): number => {
  const at = (moved: Camera, dx = 0, dy = 0, dz = 0): number =>
    pointAtHeight(moved, imagePoint(image.x + dx, image.y + dy), (BALL_RADIUS + dz) as typeof BALL_RADIUS)![
      axis
    ];
  const here = at(camera);
  const slope = Array.from({ length: 9 }, (_, k) => {
    const step = new Float64Array(9);
    step[k] = 1e-6;
    return (at(moveCamera(camera, step)) - here) / 1e-6;
  });
  let variance = BALL_SD ** 2 * ((at(camera, 0.01) - here) ** 2 + (at(camera, 0, 0.01) - here) ** 2) * 1e4;
  variance += (unevenness * (at(camera, 0, 0, 1e-4) - here) * 1e4) ** 2;
  for (let a = 0; a < 9; a++)
    for (let b = 0; b < 9; b++) variance += slope[a]! * covariance[a * 9 + b]! * slope[b]!;
  return Math.sqrt(variance);
};

const trial = (random: () => number): SightingTrial | null => {
  const scored = SCORED_POINTS[Math.floor(random() * SCORED_POINTS.length)] as ScoredPoint;
  const line = halfwayLine(COURT, scored);
  const names = lineEnds(line, scored);
  const [near, far] = random() < 0.5 ? names : [names[1], names[0]];
  const camera = handHeld(random, near, far);
  const marks = takeMarks(random, camera, [near, far]);
  const end = (name: string) => marks.find(({ mark }) => mark.name === name)?.mark;
  const [nearMark, farMark] = [end(near), end(far)];
  if (!nearMark || !farMark) return null;
  const along = between(random, 2, (line.axis === 'y' ? COURT.width : COURT.length) - 2);
  const off = between(random, -0.15, 0.15) + line.at;
  const ball = line.axis === 'y' ? lawnPoint(along, off) : lawnPoint(off, along);
  const height = 0.005 * normal(random);
  const seen = projectPoint(camera, lawnPoint3(ball.x, ball.y, BALL_RADIUS + height));
  if (!seen || seen.x < 0 || seen.y < 0 || seen.x > SIZE.width || seen.y > SIZE.height) return null;
  const image = imagePoint(seen.x + BALL_SD * normal(random), seen.y + BALL_SD * normal(random));
  const distance = Math.hypot(ball.x - camera.position[0], ball.y - camera.position[1], camera.position[2]);
  const diameter = ((camera.focal * 0.092) / distance) * (1 + 0.03 * normal(random));
  const solved = solveSighting({
    court: COURT,
    ...SIZE,
    ends: [nearMark, farMark],
    marks,
    balls: random() < 0.5 ? [{ image, diameter, sd: 0.03 }] : [],
    focalPrior: { focal: pixels(FOCAL), sd: 0.028 },
    unevenness: 0.005,
  });
  if (!solved.ok) return null;
  const found = pointAtHeight(solved.value.camera, image, BALL_RADIUS);
  if (!found) return null;
  const sd = sdAcross(solved.value.camera, solved.value.covariance, image, line.axis, 0.005);
  const radius = BALL_RADIUS;
  return {
    error: found[line.axis] - ball[line.axis],
    sd,
    beyond: line.nextHoopSide * (found[line.axis] - line.at) - radius,
    truth: line.nextHoopSide * (ball[line.axis] - line.at) - radius,
  };
};

/** `count` simulated sightings with places, stances, hands, hoops and lawns drawn from `seed`. */
export const simulateSightings = (count: number, seed: number): SightingTrial[] => {
  const random = seeded(seed);
  const trials: SightingTrial[] = [];
  for (let tries = 0; trials.length < count && tries < 3 * count; tries++) {
    const one = trial(random);
    if (one) trials.push(one);
  }
  return trials;
};

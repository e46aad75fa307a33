import { describe, expect, it } from 'vitest';
import { positionBound } from '../../server/camera/bound.ts';
import { projectionJacobian } from '../../server/camera/camera-model.ts';
import { locateBall } from '../../server/camera/locate-ball.ts';
import { refineCamera } from '../../server/camera/refine-camera.ts';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import type { Camera, LineSample, SolvedCamera } from '../../server/camera/types.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { outwardNormal, SIDES, type Side, STANDARD_COURT, sideEnds } from '../../server/lawn/court.ts';
import { CORNER_NAMES } from '../../server/lawn/named-points.ts';
import { pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint, lawnPoint3 } from '../../server/units/points.ts';
import { normal, seeded } from '../accuracy/random.ts';
import { cameraAt, marksOf, TERRACE } from './cameras.ts';

type TraceOptions = {
  readonly sides?: readonly Side[];
  readonly count?: number;
  readonly noise?: number;
  readonly sd?: number;
  /** Added to the error (px) of the sample at `share` of `side`. */
  readonly disturb?: (side: Side, share: number, random: () => number) => number;
  /** Height of the ground, m. */
  readonly ground?: (x: number, y: number) => number;
};

/** Samples of the boundary as `camera` sees it, seeded. */
const trace = (camera: Camera, seed: number, options: TraceOptions = {}): LineSample[] => {
  const { sides = SIDES, count = 60, noise = 0.3, sd = 0.3, disturb, ground = () => 0 } = options;
  const random = seeded(seed);
  return sides.flatMap((side) => {
    const [a, b] = sideEnds(STANDARD_COURT, side);
    return Array.from({ length: count }, (_, i) => (i + 0.5) / count).flatMap((share) => {
      const [x, y] = [a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)];
      const seen = projectionJacobian(camera, lawnPoint3(x, y, ground(x, y)));
      const error = noise * normal(random) + (disturb?.(side, share, random) ?? 0);
      if (!seen) return [];
      const [outX, outY] = outwardNormal(side);
      const tx = seen.point[0]! * Math.abs(outY) + seen.point[1]! * Math.abs(outX);
      const ty = seen.point[3]! * Math.abs(outY) + seen.point[4]! * Math.abs(outX);
      const length = Math.hypot(tx, ty);
      const n = [-ty / length, tx / length] as const;
      const image = imagePoint(seen.image.x + error * n[0], seen.image.y + error * n[1]);
      const inside = image.x > 0 && image.y > 0 && image.x < camera.width && image.y < camera.height;
      return inside ? [{ side, image, normal: n, sd: pixels(sd) }] : [];
    });
  });
};

const inputOf = (camera: Camera, markError = 0, seed = 1) => {
  const random = seeded(seed);
  const points = marksOf(camera, CORNER_NAMES).map(({ name, image }) => ({
    name,
    image: imagePoint(image.x + markError * normal(random), image.y + markError * normal(random)),
  }));
  return { points, court: STANDARD_COURT, width: camera.width, height: camera.height };
};

const start = (input: Parameters<typeof solveCamera>[0]): SolvedCamera => {
  const result = solveCamera(input);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};

const off = (solved: SolvedCamera, camera: Camera): number =>
  Math.hypot(...camera.position.map((value, i) => solved.camera.position[i]! - value));

const WIDE = cameraAt([14.8, -8.8, 5.4], [12.8, 10, 0], { focal: pixels(1624) });

describe('refining on traced lines', () => {
  it.each([
    { name: 'terrace', camera: TERRACE },
    { name: 'wide lens with barrel distortion', camera: WIDE },
    {
      name: 'corner',
      camera: cameraAt([-9, -10, 6.4], [14, 17, 0], { radial: [0, 0], focal: pixels(2400) }),
    },
    { name: 'mast', camera: cameraAt([12, -14, 19], [12.8, 14, 0], { radial: [0.03, -0.002] }) },
  ])('brings a rough camera within a few of its stated deviations of the truth: $name', ({ camera }) => {
    const input = inputOf(camera, 3, 5);
    const solved = refineCamera(start(input), { ...input, lines: trace(camera, 8) });
    for (let i = 0; i < 3; i++) {
      const sd = Math.sqrt(solved.covariance[i * 10]!);
      expect(Math.abs(solved.camera.position[i]! - camera.position[i]!)).toBeLessThan(3.5 * sd);
    }
    expect(off(solved, camera)).toBeLessThan(off(start(input), camera));
    expect(solved.traceResidual).toBeLessThan(0.4);
    expect(solved.scatter).toBeLessThan(1.3);
  });

  it('finds the camera exactly where marks and lines are exact', () => {
    const camera = cameraAt([2, -14, 7], [13, 14, 0], {
      radial: [-0.05, 1.8 * 0.05 ** 2],
      focal: pixels(2200),
    });
    const input = inputOf(camera);
    const solved = refineCamera(start(input), { ...input, lines: trace(camera, 1, { noise: 0 }) });
    expect(off(solved, camera)).toBeLessThan(0.005);
    expect(solved.camera.radial[0]).toBeCloseTo(-0.05, 3);
  });

  it('comes back from a start that is far off: corners 12 px wrong', () => {
    const input = { ...inputOf(WIDE, 12, 3), markSd: 12 };
    const solved = refineCamera(start(input), { ...input, lines: trace(WIDE, 2) });
    expect(off(solved, WIDE)).toBeLessThan(0.1);
  });

  it('without lines is the fit of the marks', () => {
    const input = inputOf(TERRACE, 1);
    const marks = start(input);
    const solved = refineCamera(marks, { ...input, lines: [] });
    expect(off(solved, marks.camera)).toBeLessThan(0.02);
    expect(solved.covariance[20]! / marks.covariance[20]!).toBeCloseTo(1, 1);
  });

  it('splits its covariance into parts that add up', () => {
    const input = inputOf(TERRACE, 1);
    const { covariance, parts } = refineCamera(start(input), { ...input, lines: trace(TERRACE, 4) });
    covariance.forEach((value, i) => {
      const sum = parts!.marks[i]! + parts!.trace[i]! + parts!.lens[i]! + parts!.ground[i]!;
      expect(Math.abs(sum - value)).toBeLessThan(1e-9 * (1 + Math.abs(value)));
    });
  });

  it('changes none of its arguments and answers the same again', () => {
    const input = { ...inputOf(TERRACE, 2), lines: trace(TERRACE, 6) };
    const first = start(input);
    const before = structuredClone({ input, first });
    const once = refineCamera(first, input);
    expect(refineCamera(first, input)).toEqual(once);
    expect({ input, first }).toEqual(before);
  });
});

describe('lines that are not all there', () => {
  it.each(SIDES)('one that is missing only widens the answer: %s', (missing) => {
    const input = inputOf(TERRACE, 2, 9);
    const all = refineCamera(start(input), { ...input, lines: trace(TERRACE, 5) });
    const sides = SIDES.filter((side) => side !== missing);
    const some = refineCamera(start(input), { ...input, lines: trace(TERRACE, 5, { sides }) });
    expect(some.covariance[10]!).toBeGreaterThan(all.covariance[10]!);
    expect(Math.abs(some.camera.position[1] + 19.5)).toBeLessThan(3.5 * Math.sqrt(some.covariance[10]!));
  });

  it('people standing on a line do no harm', () => {
    const input = inputOf(TERRACE, 2, 4);
    // A third of the south line and a fifth of the west one follow a shoe or a hedge.
    const disturb = (side: Side, share: number): number =>
      (side === 'south' && share > 0.4 && share < 0.73) || (side === 'west' && share < 0.2) ? 9 : 0;
    const solved = refineCamera(start(input), { ...input, lines: trace(TERRACE, 3, { disturb }) });
    const clean = refineCamera(start(input), { ...input, lines: trace(TERRACE, 3) });
    expect(off(solved, TERRACE)).toBeLessThan(off(clean, TERRACE) + 0.05);
    const disturbed = trace(TERRACE, 3).map(({ side, image }, i) => ({ side, image, i }));
    const south = disturbed.filter(({ side }) => side === 'south');
    expect(solved.sampleWeights![south[Math.floor(south.length * 0.55)]!.i]).toBe(0);
  });

  it('heavy tails do no harm: one sample in eight is ten times as noisy', () => {
    const input = inputOf(WIDE, 2, 2);
    const disturb = (_: Side, __: number, random: () => number): number =>
      random() < 0.125 ? 3 * normal(random) : 0;
    const solved = refineCamera(start(input), { ...input, lines: trace(WIDE, 12, { disturb }) });
    expect(off(solved, WIDE)).toBeLessThan(
      3.5 * Math.sqrt(solved.covariance[0]! + solved.covariance[10]! + solved.covariance[20]!),
    );
    expect(solved.scatter).toBeLessThan(1.4);
  });
});

describe('the covariance is honest', () => {
  const sdOf = (solved: SolvedCamera): number => Math.sqrt(solved.covariance[10]!);

  it('lines noisier than they say widen it', () => {
    const input = { ...inputOf(TERRACE, 1), unevenness: 0 };
    const fine = refineCamera(start(input), { ...input, lines: trace(TERRACE, 2) });
    const poor = refineCamera(start(input), { ...input, lines: trace(TERRACE, 2, { noise: 0.9 }) });
    expect(poor.scatter).toBeGreaterThan(2.5);
    expect(sdOf(poor) / sdOf(fine)).toBeGreaterThan(1.8);
  });

  it('lines less noisy than they say do not shrink it', () => {
    const input = { ...inputOf(TERRACE, 1), unevenness: 0 };
    const honest = refineCamera(start(input), { ...input, lines: trace(TERRACE, 2) });
    const modest = refineCamera(start(input), { ...input, lines: trace(TERRACE, 2, { noise: 0.05 }) });
    expect(modest.scatter).toBe(1);
    expect(sdOf(modest) / sdOf(honest)).toBeGreaterThan(0.9);
  });

  it('ten times as many samples on uneven ground are not ten times the witnesses', () => {
    const ground = (x: number, y: number): number => 0.007 * Math.sin(x / 2.3 + 1) * Math.cos(y / 2.9);
    const input = { ...inputOf(TERRACE, 1), unevenness: 0.005 };
    const few = refineCamera(start(input), { ...input, lines: trace(TERRACE, 2, { ground }) });
    const many = refineCamera(start(input), { ...input, lines: trace(TERRACE, 2, { ground, count: 600 }) });
    // Independent samples would divide it by √10 = 3.2.
    expect(sdOf(few) / sdOf(many)).toBeLessThan(1.8);
  });

  it('learns from the lines how uneven the ground is', () => {
    const input = { ...inputOf(TERRACE, 1), unevenness: 0.005 };
    const flat = refineCamera(start(input), { ...input, lines: trace(TERRACE, 7) });
    const ground = (x: number, y: number): number => 0.013 * Math.sin(x / 2 + y / 3);
    const uneven = refineCamera(start(input), { ...input, lines: trace(TERRACE, 7, { ground }) });
    expect(flat.unevenness).toBeLessThan(0.004);
    expect(uneven.unevenness).toBeGreaterThan(0.006);
  });

  it('a lawn stated to be flat stays flat', () => {
    const input = { ...inputOf(TERRACE, 1), unevenness: 0 };
    expect(refineCamera(start(input), { ...input, lines: trace(TERRACE, 7) }).unevenness).toBe(0);
  });
});

describe("the photo's focal length beside traced lines", () => {
  it.each([0.4, 0.7, 1.3, 2.2])('is dropped when the lines contradict it: %f times too long', (factor) => {
    const input = { ...inputOf(TERRACE, 1), focalPrior: { focal: pixels(2357 * factor), sd: 0.028 } };
    const solved = refineCamera(start(input), { ...input, lines: trace(TERRACE, 2) });
    expect(solved.focalPriorUsed).toBe(false);
    expect(solved.camera.focal / 2357).toBeCloseTo(1, 2);
  });

  it('is used when it agrees', () => {
    const input = { ...inputOf(TERRACE, 1), focalPrior: { focal: pixels(2357 * 1.03), sd: 0.028 } };
    const solved = refineCamera(start(input), { ...input, lines: trace(TERRACE, 2) });
    expect(solved.focalPriorUsed).toBe(true);
    expect(solved.camera.focal / 2357).toBeCloseTo(1, 2);
  });
});

describe('against the bound', () => {
  it('a flat lawn is read within a fifth of the best that its picture can do', () => {
    const ball = lawnPoint(12.8, 16);
    const input = { ...inputOf(TERRACE, 1), unevenness: 0 };
    const lines = trace(TERRACE, 2, { noise: 0.35, sd: 0.35 });
    const solved = refineCamera(start(input), { ...input, lines });
    const image = projectionJacobian(TERRACE, lawnPoint3(ball.x, ball.y, BALL_RADIUS))!.image;
    const own = { xx: 0.0625, xy: 0, yy: 0.0625 };
    const { covariance } = locateBall(solved, image, own, { unevenness: 0, grass: 0 })!;
    const bound = positionBound(TERRACE, { points: CORNER_NAMES, court: STANDARD_COURT, ball })!;
    expect(Math.sqrt(covariance.yy) / bound.sdY).toBeGreaterThan(1);
    // The edges' own setting (4 mm) and the second radial term are not in the bound.
    expect(Math.sqrt(covariance.yy) / bound.sdY).toBeLessThan(1.2);
  });
});

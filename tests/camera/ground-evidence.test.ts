import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { refineCamera } from '../../server/camera/refine-camera.ts';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import type { LineSample, SolvedCamera } from '../../server/camera/types.ts';
import { SIDES, type Side, STANDARD_COURT, sideEnds } from '../../server/lawn/court.ts';
import { CORNER_NAMES } from '../../server/lawn/named-points.ts';
import { pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { normal, seeded } from '../accuracy/random.ts';
import { marksOf, TERRACE } from './cameras.ts';

type Ground = (x: number, y: number) => number;

/** Samples along a side and their noise, px. */
const SAMPLES = 100;
const NOISE = 0.1;
const STATED = 0.005;

/** What a perfect tracer with `NOISE` sees of one side that lies on `ground`. */
const traceSide = (side: Side, ground: Ground, random: () => number): LineSample[] => {
  const [a, b] = sideEnds(STANDARD_COURT, side);
  const seen = (t: number) => {
    const [x, y] = [a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)];
    return projectPoint(TERRACE, lawnPoint3(x, y, ground(x, y)))!;
  };
  return Array.from({ length: SAMPLES }, (_, i) => {
    const [p, q] = [seen((i + 0.5) / SAMPLES), seen((i + 0.6) / SAMPLES)];
    const length = Math.hypot(q.x - p.x, q.y - p.y);
    const across = [-(q.y - p.y) / length, (q.x - p.x) / length] as const;
    const off = NOISE * normal(random);
    return {
      side,
      image: imagePoint(p.x + across[0] * off, p.y + across[1] * off),
      normal: across,
      sd: pixels(NOISE),
    };
  });
};

const refinedOn = (ground: Ground): SolvedCamera => {
  const random = seeded(5);
  const { width, height } = TERRACE;
  const points = marksOf(TERRACE, CORNER_NAMES);
  const input = { points, court: STANDARD_COURT, width, height, unevenness: STATED };
  const start = solveCamera(input);
  if (!start.ok) throw new Error(`Expected a camera but received ${start.error.message}`);
  const lines = SIDES.flatMap((side) => traceSide(side, ground, random));
  return refineCamera(start.value, { ...input, lines });
};

/** A plane wave of standard deviation `sd` (m), `along` and `across` metres long east and north. */
const wave = (sd: number, along: number, across: number): Ground => {
  const turn = 2 * Math.PI;
  return (x, y) => sd * Math.SQRT2 * Math.cos(turn * (x / along + y / across) + 1);
};

describe('how uneven the ground is, from the lines alone', () => {
  it('is little on flat ground, though five times as much was stated', () => {
    expect(refinedOn(() => 0).unevenness).toBeLessThan(0.4 * STATED);
  });

  // The true standard deviation is that of the wave, by construction. Ground that is taken to undulate over a few metres only explains long swells by the camera, and says two thirds of it.
  it.each([
    { name: 'askew', sd: 0.008, ground: wave(0.008, 40, 26) },
    { name: 'along the court', sd: 0.008, ground: wave(0.008, Number.POSITIVE_INFINITY, 22) },
  ])('is at least eight tenths of the truth in long swells $name', ({ sd, ground }) => {
    const learned = refinedOn(ground).unevenness!;
    expect(learned).toBeGreaterThan(0.8 * sd);
    expect(learned).toBeLessThan(1.6 * sd);
  });
});

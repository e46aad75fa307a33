import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { lookAt } from '../../server/camera/rotation.ts';
import { rollOf, solveSighting } from '../../server/camera/solve-sighting.ts';
import type { Camera } from '../../server/camera/types.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { simulateSightings } from '../accuracy/sighting-simulation.ts';

const SIZE = { width: 3264, height: 2448 } as const;
const FOCAL = 2400;

const phone = (x: number, y: number, z: number, roll = 0): Camera => ({
  position: [x, y, z],
  rotation: lookAt([x, y, z], [12, 16.002, 0], roll),
  focal: pixels(FOCAL),
  radial: [0, 0],
  width: pixels(SIZE.width),
  height: pixels(SIZE.height),
});

/** Feet of the markers W and E, 60 mm outside the boundary, as the phone sees them. */
const ends = (camera: Camera) => {
  const see = (name: 'markerW' | 'markerE', x: number) => {
    const { x: px, y: py } = projectPoint(camera, lawnPoint3(x, 16.002, 0))!;
    return { name, image: imagePoint(px, py) };
  };
  return [see('markerW', -0.06), see('markerE', 25.6632)] as const;
};

const solve = (camera: Camera, order: 'right' | 'reversed' = 'right') => {
  const [west, east] = ends(camera);
  return solveSighting({
    court: STANDARD_COURT,
    ...SIZE,
    ends: order === 'right' ? [west, east] : [east, west],
    marks: [west, east].map((mark) => ({ mark, sd: 0.5 })),
    balls: [],
    focalPrior: { focal: pixels(FOCAL), sd: 0.02 },
    unevenness: 0.005,
  });
};

describe('two marked ends are enough to see along the line', () => {
  // Expected values: the simulated phone itself. What two marks cannot tell, height and distance, is held by the stance alone.
  const cases = [
    { name: 'in the line', x: -3, y: 16.002, z: 1.6 },
    { name: '0.6 m beside it', x: -3, y: 16.6, z: 1.6 },
    { name: 'low and near', x: -1.2, y: 15.8, z: 1.25 },
    { name: 'far back', x: -6, y: 16.3, z: 1.9 },
  ];
  for (const { name, x, y, z } of cases)
    it(name, () => {
      const camera = phone(x, y, z);
      const solved = solve(camera);
      expect(solved.ok).toBe(true);
      if (!solved.ok) return;
      const [px, py, pz] = solved.value.camera.position;
      const sd = (k: number) => Math.sqrt(solved.value.covariance[k * 10]!);
      expect(Math.abs(px - x)).toBeLessThan(3 * sd(0));
      expect(Math.abs(py - y)).toBeLessThan(3 * sd(1));
      expect(Math.abs(pz - z)).toBeLessThan(3 * sd(2));
      expect(Math.abs(rollOf(solved.value.camera))).toBeLessThan(0.2);
    });

  it('refuses the ends when the far one is marked below the near one', () => {
    const solved = solve(phone(-3, 16, 1.6), 'reversed');
    expect(solved.ok).toBe(false);
    if (!solved.ok) expect(solved.error.code).toBe('ends-reversed');
  });

  it('reads the roll that the phone was held with', () => {
    for (const roll of [-0.1, 0, 0.08]) expect(rollOf(phone(-3, 16, 1.6, roll))).toBeCloseTo(roll, 6);
  });
});

/**
 * Hand calculation. A phone in the line, h = 1.6 m up, sees the two markers' feet in one upright line of the picture. A ball whose centre is 60 mm
 * beside the line and 12 m away stands 60/12000 × focal = 0.005 × 2400 = 12.0 px beside it.
 */
it('sees a ball 60 mm beside the line 12 px beside it from 12 m', () => {
  const camera = { ...phone(0, 16.002, 1.6), rotation: lookAt([0, 16.002, 1.6], [12, 16.002, 1.6]) };
  const onLine = projectPoint(camera, lawnPoint3(12, 16.002, 0.046))!;
  const beside = projectPoint(camera, lawnPoint3(12, 16.062, 0.046))!;
  expect(onLine.x - beside.x).toBeCloseTo(12, 6);
});

describe('stated margins of simulated sightings', () => {
  const trials = simulateSightings(600, 11);
  const inside = (z: number) =>
    trials.filter(({ error, sd }) => Math.abs(error) <= z * sd).length / trials.length;

  // Two-sided quantiles of the normal distribution: NIST/SEMATECH e-Handbook 1.3.6.7.1. With 600 trials a share of 0.95 has a standard
  // deviation of 0.9 %, so the bounds are the asked 93–97 % and half a standard deviation.
  it('hold 95 in 100', () => {
    expect(inside(1.96)).toBeGreaterThan(0.925);
    expect(inside(1.96)).toBeLessThan(0.975);
  });
  it('hold 50 in 100', () => {
    expect(inside(0.6745)).toBeGreaterThan(0.44);
    expect(inside(0.6745)).toBeLessThan(0.6);
  });
  it('give no wrong firm call at certainty 0.99 in more than 1 of 100', () => {
    const firm = trials.filter(({ beyond, sd }) => Math.abs(beyond) >= 2.326 * sd);
    const wrong = firm.filter(({ beyond, truth }) => beyond > 0 !== truth > 0);
    expect(firm.length).toBeGreaterThan(300);
    expect(wrong.length / firm.length).toBeLessThanOrEqual(0.01);
  });
});

import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { SIDES, type Side, STANDARD_COURT, sideEnds } from '../../server/lawn/court.ts';
import { lawnPoint3 } from '../../server/units/points.ts';
import { boundaryCurve } from '../../server/vision/lines/boundary-curve.ts';
import { type Band, fitBand, type ProfilePoints } from '../../server/vision/lines/fit-band.ts';
import { lightAt } from '../../server/vision/lines/linear-light.ts';
import { normalBelow, normalDensity } from '../../server/vision/lines/normal-tables.ts';
import { estimateNoise } from '../../server/vision/lines/sample-noise.ts';
import { smoothCourse } from '../../server/vision/lines/smooth-course.ts';
import { inverseDiagonal, solveSmall } from '../../server/vision/small-solve.ts';
import { CAMERA, makeNormal, makeRandom } from './lines-scene.ts';

describe('tables of the normal distribution', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: area from 0 to z, plus one half.
  const TABLE = [
    [0, 0.5],
    [0.5, 0.69146],
    [1, 0.84134],
    [1.28, 0.89973],
    [1.96, 0.975],
    [2.58, 0.99506],
    [3, 0.99865],
  ] as const;
  for (const [z, area] of TABLE)
    it(`hold the published area below ${z}`, () => {
      expect(normalBelow(z)).toBeCloseTo(area, 5);
      expect(normalBelow(-z)).toBeCloseTo(1 - area, 5);
    });

  it('are each other’s derivative, and flat far out', () => {
    for (const z of [-2.3, -0.4, 0.9, 3.1])
      expect((normalBelow(z + 0.01) - normalBelow(z - 0.01)) / 0.02).toBeCloseTo(normalDensity(z), 4);
    expect([normalBelow(-9), normalBelow(9), normalDensity(9)]).toEqual([0, 1, 0]);
  });
});

describe('linear light', () => {
  it('is that of IEC 61966-2-1 for greys', () => {
    // The standard's own examples: code 0, 255, and 188 (half of the light, 0.5029).
    const grey = (v: number) => lightAt(Uint8Array.of(v, v, v), 0);
    expect([grey(0), grey(255)]).toEqual([0, 1]);
    expect(grey(188)).toBeCloseTo(0.5029, 3);
  });
});

describe('the boundary’s curve', () => {
  for (const side of SIDES)
    it(`lies on the projected ${side} side, its normal out of the court and across it`, () => {
      const curve = boundaryCurve(CAMERA, STANDARD_COURT, side)!;
      const [a, b] = sideEnds(STANDARD_COURT, side);
      const length = Math.hypot(b.x - a.x, b.y - a.y);
      expect(curve.visibleLength).toBeGreaterThan(0.98 * length);
      for (const i of [0, curve.count >> 1, curve.count - 2]) {
        const t = curve.at[i]! / length;
        const q = projectPoint(CAMERA, lawnPoint3(a.x + t * (b.x - a.x), a.y + t * (b.y - a.y), 0))!;
        expect(Math.hypot(q.x - curve.x[i]!, q.y - curve.y[i]!)).toBeLessThan(1e-9);
        const along = [curve.x[i + 1]! - curve.x[i]!, curve.y[i + 1]! - curve.y[i]!];
        expect(Math.abs(along[0]! * curve.nx[i]! + along[1]! * curve.ny[i]!)).toBeLessThan(0.01);
        // 1 cm outward moves by `across` px per metre along the normal; 1 cm up by `rise`.
        const out = outwards(side, 0.01);
        const p = projectPoint(
          CAMERA,
          lawnPoint3(a.x + t * (b.x - a.x) + out[0], a.y + t * (b.y - a.y) + out[1], 0),
        )!;
        const moved = (p.x - q.x) * curve.nx[i]! + (p.y - q.y) * curve.ny[i]!;
        expect(moved / 0.01 / curve.across[i]!).toBeCloseTo(1, 2);
        expect(curve.across[i]!).toBeGreaterThan(0);
      }
    });

  it('is null for a side behind the camera', () => {
    const turned = { ...CAMERA, rotation: CAMERA.rotation.map((v, i) => (i < 3 || i > 5 ? -v : v)) };
    expect(boundaryCurve(turned, STANDARD_COURT, 'north')).toBeNull();
  });
});

const outwards = (side: Side, by: number): [number, number] =>
  ({ south: [0, -by], west: [-by, 0], north: [0, by], east: [by, 0] })[side] as [number, number];

describe('fitting a band', () => {
  /** A profile by direct integration over a box pixel of a Gaussian-blurred band: not the model's formula. */
  const profile = (band: Band, noise: number, seed: number): ProfilePoints => {
    const normal = makeNormal(makeRandom(seed));
    const count = 60;
    const points = {
      count,
      place: new Float64Array(count),
      light: new Float64Array(count),
      weight: new Float64Array(count).fill(4),
    };
    const at = (e: number): number =>
      Math.abs(e - band.middle) < band.width / 2 ? band.paint : e < band.middle ? band.inner : band.outer;
    for (let i = 0; i < count; i++) {
      const e = -6 + (12 * (i + 0.5)) / count;
      let sum = 0;
      let weight = 0;
      for (let u = -4; u <= 4; u += 0.01) {
        const w = Math.exp((-u * u) / 2);
        sum += w * at(e + u * band.blur);
        weight += w;
      }
      points.place[i] = e;
      points.light[i] = sum / weight + (noise / 2) * normal();
    }
    return points;
  };
  const truth: Band = { inner: 0.15, paint: 0.6, outer: 0.22, middle: 0.37, width: 2.1, blur: 0.6 };

  it('recovers place, width and blur of a clean profile', () => {
    const fit = fitBand(
      profile(truth, 0, 1),
      { ...truth, middle: -0.3, width: 1.5, blur: 0.8, inner: 0, paint: 0, outer: 0 },
      2,
      { width: { mean: 1.5, sd: 5 }, blur: { mean: 0.8, sd: 5 } },
    )!;
    // The sum above has steps of 0.006 px.
    for (const key of ['middle', 'width', 'blur'] as const)
      expect(Math.abs(fit.band[key] - truth[key]), key).toBeLessThan(0.01);
    for (const key of ['inner', 'paint', 'outer'] as const)
      expect(Math.abs(fit.band[key] - truth[key]), key).toBeLessThan(0.01);
  });

  it('states the scatter of the middle that repeated noise gives', () => {
    const errors: number[] = [];
    let stated = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const fit = fitBand(profile(truth, 0.05, seed), { ...truth, middle: 0 }, 2)!;
      errors.push(fit.band.middle - truth.middle);
      stated += fit.middleSd / 150;
    }
    const rms = Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
    // 150 trials fix a standard deviation to 6 %; three of them.
    expect(rms / stated).toBeGreaterThan(0.82);
    expect(rms / stated).toBeLessThan(1.18);
  });

  it('gives up where the profile is too short or the band out of reach', () => {
    const points = profile(truth, 0, 1);
    expect(fitBand({ ...points, count: 4 }, truth, 2)).toBeNull();
    expect(fitBand(profile({ ...truth, middle: 3 }, 0, 1), { ...truth, middle: 1.2 }, 0.5)).toBeNull();
  });
});

describe('small equations', () => {
  it('are solved, with the inverse’s diagonal', () => {
    // By hand: [[4, 2], [2, 3]] has determinant 8 and inverse [[3, −2], [−2, 4]] / 8.
    const matrix = Float64Array.of(4, 2, 2, 3);
    const right = Float64Array.of(2, 5);
    expect(solveSmall(matrix, right, 2)).toBe(true);
    expect(right[0]).toBeCloseTo((3 * 2 - 2 * 5) / 8, 12);
    expect(right[1]).toBeCloseTo((-2 * 2 + 4 * 5) / 8, 12);
    expect(inverseDiagonal(matrix, 2, 0)).toBeCloseTo(3 / 8, 12);
    expect(inverseDiagonal(matrix, 2, 1)).toBeCloseTo(4 / 8, 12);
  });

  it('are refused when they have no unique solution', () => {
    expect(solveSmall(Float64Array.of(1, 1, 1, 1), Float64Array.of(1, 1), 2)).toBe(false);
  });
});

describe('the smooth course', () => {
  const t = Array.from({ length: 80 }, (_, i) => i / 79);
  const bend = (x: number): number => 1.5 - 2 * x + 3 * x * x;

  it('passes people by', () => {
    const normal = makeNormal(makeRandom(4));
    const values = t.map((x, i) => bend(x) + 0.1 * normal() + (i % 9 === 0 ? 4 : 0));
    const course = smoothCourse(
      t,
      values,
      t.map(() => 0.1),
    )!;
    // 70 good stations of 0.1 px and five unknowns: 0.03 px typical, more at the ends.
    for (const [i, x] of t.entries()) expect(Math.abs(course.value[i]! - bend(x))).toBeLessThan(0.15);
    expect(course.spread).toBeGreaterThan(0.7);
    expect(course.spread).toBeLessThan(1.4);
  });

  it('is null without data', () => {
    expect(
      smoothCourse(
        t,
        t,
        t.map(() => Number.POSITIVE_INFINITY),
      ),
    ).toBeNull();
  });
});

describe('noise of the samples', () => {
  const normal = makeNormal(makeRandom(8));
  const across = Array.from({ length: 150 }, (_, i) => 20 + i);
  const fit = across.map(() => 0.05);

  for (const ragged of [0.001, 0.003])
    it(`tells raggedness of ${1000 * ragged} mm from noise of the fit`, () => {
      const residual = across.map((m, i) => Math.hypot(fit[i]!, ragged * m) * normal());
      const found = estimateNoise(residual, fit, across, 0.0042);
      // Steps of the search are a factor of about 1.5.
      expect(found.ragged).toBeGreaterThan(0.5 * ragged);
      expect(found.ragged).toBeLessThan(2 * ragged);
    });

  it('is what was expected when there is nothing to look at', () => {
    expect(estimateNoise([], [], [], 0.0042)).toEqual({ ragged: 0.0042, factor: 1 });
  });
});

import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { pointAtHeight, projectPoint } from '../../server/camera/camera-model.ts';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import type { Camera, MarkedPoint } from '../../server/camera/types.ts';
import { type Side, STANDARD_COURT } from '../../server/lawn/court.ts';
import type { PointName } from '../../server/lawn/named-points.ts';
import { metres } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { traceAndRefine } from '../../server/vision/lines/trace-and-refine.ts';
import { fingerMarks, markedCamera } from './lines-marks.ts';
import { CAMERA, drawScene, type Scene } from './lines-scene.ts';

const FLAT = { paintHeight: metres(0) };

/** Error on the lawn, m, of `camera` at the court's middle, a ball's height up, when the picture is that of the true camera. */
const errorAtMiddle = (camera: Camera): number => {
  const middle = { x: STANDARD_COURT.width / 2, y: STANDARD_COURT.length / 2 };
  const image = projectPoint(CAMERA, lawnPoint3(middle.x, middle.y, 0.046))!;
  const p = pointAtHeight(camera, image, metres(0.046))!;
  return Math.hypot(p.x - middle.x, p.y - middle.y);
};

describe('refining the camera on the traced boundary', () => {
  const cases: readonly {
    name: string;
    scene: Omit<Scene, 'seed'>;
    seed: number;
    least: number;
    lost?: Side;
  }[] = [
    { name: 'four clean sides', scene: {}, seed: 11, least: 0.03 },
    { name: 'other marks', scene: {}, seed: 14, least: 0.03 },
    {
      name: 'worn, ragged and compressed',
      scene: { strength: 0.6, ragged: 0.006, gaps: 0.15, quality: 75 },
      seed: 12,
      least: 0.03,
    },
    // With the far side missing the depth rests on the near side and the two long ones.
    { name: 'no north line', scene: { missing: ['north'] }, seed: 13, least: 0.06, lost: 'north' },
  ];
  for (const { name, scene, seed, least, lost } of cases)
    it(`brings the court’s middle to its place: ${name}`, async () => {
      const raster = await drawScene({ seed: 21, ...scene });
      const points = fingerMarks(seed, 2);
      const start = markedCamera(points);
      const { solved, sides } = traceAndRefine(raster, start, { points, court: STANDARD_COURT, ...FLAT });
      // 3.4 px/m at the far side and 35 m of distance: 0.1 px there is 3 cm, and a third of that in the middle.
      expect(errorAtMiddle(solved.camera)).toBeLessThan(least);
      for (const { side, share } of sides) {
        if (side === lost) expect(share).toBe(0);
        else expect(share, side).toBeGreaterThan(0.5);
      }
    });

  it('corrects marks that a slipped finger put six px off', async () => {
    const raster = await drawScene({ seed: 22 });
    const points = fingerMarks(11, 6);
    const { solved } = traceAndRefine(raster, markedCamera(points), {
      points,
      court: STANDARD_COURT,
      markSd: 6,
      ...FLAT,
    });
    expect(errorAtMiddle(solved.camera)).toBeLessThan(0.03);
  });

  it('leaves the camera of the marks as it is when no line is there', async () => {
    const raster = await drawScene({ seed: 23, missing: ['south', 'west', 'north', 'east'] });
    const points = fingerMarks(11, 2);
    const start = markedCamera(points);
    const { solved, sides } = traceAndRefine(raster, start, { points, court: STANDARD_COURT, ...FLAT });
    expect(solved.camera).toEqual(start.camera);
    expect(sides.every(({ share }) => share === 0)).toBe(true);
  });

  it('does not follow another court’s line that contradicts the marks', async () => {
    // The south line is gone and a line as white lies 1.2 m outside it: 29 px, fourteen of a finger's standard deviations.
    const raster = await drawScene({ seed: 24, missing: ['south'], second: 1.2 });
    const points = fingerMarks(11, 2);
    const { solved, sides } = traceAndRefine(raster, markedCamera(points), {
      points,
      court: STANDARD_COURT,
      ...FLAT,
    });
    expect(sides.find(({ side }) => side === 'south')).toMatchObject({ share: 0, samples: [] });
    expect(errorAtMiddle(solved.camera)).toBeLessThan(0.1);
  });
});

describe('refining on rendered photographs with known truth', () => {
  type Truth = {
    image: Record<string, [number, number]>;
    points: Record<string, [number, number]>;
    camera: { position: [number, number, number]; f_px: number };
    undulation_m: number;
  };
  const folder = new URL('../../fixtures/photos/', import.meta.url);
  const read = (name: string): unknown => JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
  for (const name of ['d1-terrace', 'd2-balcony', 'd3-corner', 'd4-mast', 'd5-secondary', 'd6-partial'])
    it(`puts every known point of ${name} where it is`, async () => {
      const file = new URL(`${name}.jpg`, folder).pathname;
      const { data, info } = await sharp(file)
        .rotate()
        .removeAlpha()
        .raw()
        .toBuffer({ resolveWithObject: true });
      const raster = { width: info.width, height: info.height, data: new Uint8Array(data) };
      const marks = read(`${name}.marks.json`) as { points: Record<PointName, [number, number]> };
      const truth = read(`${name}.truth.json`) as Truth;
      const points = Object.entries(marks.points).map(
        ([point, [x, y]]): MarkedPoint => ({ name: point as PointName, image: imagePoint(x, y) }),
      );
      const start = solveCamera({ points, court: STANDARD_COURT, width: info.width, height: info.height });
      if (!start.ok) throw new Error(start.error.message);
      const { solved, sides } = traceAndRefine(raster, start.value, { points, court: STANDARD_COURT });
      for (const { side, share } of sides) expect(share, side).toBeGreaterThan(0.9);
      for (const [point, [x, y]] of Object.entries(truth.points)) {
        const seen = truth.image[point];
        if (!seen || point.startsWith('marker')) continue;
        const q = projectPoint(solved.camera, lawnPoint3(x, y, 0))!;
        // At a near corner: paint seen a few mm below the true ground (0.3 px) and half the error of its width (0.3 px). On the uneven lawn the points themselves lie up to 15 mm off the plane.
        expect(Math.hypot(q.x - seen[0], q.y - seen[1]), point).toBeLessThan(
          truth.undulation_m > 0 ? 2.5 : 0.8,
        );
      }
    });
});

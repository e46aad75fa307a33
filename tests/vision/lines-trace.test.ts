import { describe, expect, it } from 'vitest';
import { SIDES, type Side, STANDARD_COURT } from '../../server/lawn/court.ts';
import { metres } from '../../server/units/numbers.ts';
import { traceBoundary } from '../../server/vision/lines/trace-boundary.ts';
import { fingerMarks, markedCamera } from './lines-marks.ts';
import { measureSide } from './lines-measure.ts';
import { CAMERA, drawScene, type Scene } from './lines-scene.ts';

/** The scenes are drawn with the paint on the ground itself. */
const FLAT = { paintHeight: metres(0) };

type Case = {
  readonly name: string;
  readonly scene: Omit<Scene, 'seed'>;
  /** Greatest |bias| of a side in px, and why so much. */
  readonly bias: number;
  readonly why: string;
  /** Least share of the sides that are there: of the near three, and of the far one. */
  readonly share: number;
  readonly far: number;
  readonly lost?: readonly Side[];
};

// Drawn at 24 px/m (south, paint 1 px wide) to 3.4 px/m (north, a seventh of a px): a picture of 1760 px, coarser than any phone's.
const CASES: readonly Case[] = [
  { name: 'clean paint', scene: {}, bias: 0.1, why: 'the bar of the project', share: 0.9, far: 0.85 },
  {
    name: 'paint ragged by 6 mm',
    scene: { ragged: 0.006 },
    bias: 0.1,
    why: 'raggedness averages out over 32 m',
    share: 0.9,
    far: 0.85,
  },
  {
    name: 'a sharpened picture',
    scene: { sharpen: 0.6 },
    bias: 0.1,
    why: 'halos are symmetric',
    share: 0.9,
    far: 0.8,
  },
  {
    name: 'a soft picture',
    scene: { blur: 1.1 },
    bias: 0.2,
    why: 'the band is 1 px wide under a blur of 1.1 px: its width is not resolved, half of the error of its prior remains',
    share: 0.9,
    far: 0.75,
  },
  {
    name: 'JPEG at quality 55',
    scene: { quality: 55, noise: 4 },
    bias: 0.3,
    why: 'compression widens the band by a third of a px on both sides; shared by all sides',
    share: 0.9,
    far: 0.75,
  },
  {
    name: 'dusk: much noise',
    scene: { noise: 8, quality: 75 },
    bias: 0.25,
    why: 'as above',
    share: 0.9,
    far: 0.6,
  },
  {
    name: 'worn paint with a quarter of it gone',
    scene: { strength: 0.5, gaps: 0.25, ragged: 0.004 },
    bias: 0.15,
    why: 'fewer stations',
    share: 0.7,
    far: 0.45,
  },
  {
    name: 'shade across the lines',
    scene: { shade: 14 },
    bias: 0.12,
    why: 'the rim crosses few stations',
    share: 0.9,
    far: 0.8,
  },
  {
    name: 'people on the lines',
    scene: { people: [4, 9, 16, 22] },
    bias: 0.12,
    why: 'they are left out',
    share: 0.7,
    far: 0.8,
  },
  {
    name: 'a second white line 0.8 m outside',
    scene: { second: 0.8 },
    bias: 0.12,
    why: 'the nearer line to the prediction is the boundary',
    share: 0.9,
    far: 0.8,
  },
  {
    name: 'lighter grass from 1.5 m outside',
    scene: { mown: 1.5 },
    bias: 0.12,
    why: 'an edge without a ridge is no line',
    share: 0.9,
    far: 0.7,
  },
  {
    name: 'wide paint',
    scene: { paint: 0.06 },
    bias: 0.15,
    why: '1.4 px of paint: half of what its width’s prior leaves',
    share: 0.95,
    far: 0.9,
  },
  {
    name: 'no north line',
    scene: { missing: ['north'] },
    bias: 0.12,
    why: 'as clean',
    share: 0.9,
    far: 0,
    lost: ['north'],
  },
  {
    name: 'no south line but another one 2 m outside and an edge of mowing',
    scene: { missing: ['south'], second: 2, mown: 1 },
    bias: 0.2,
    why: 'fewer bands to tell the width',
    share: 0.9,
    far: 0,
    lost: ['south'],
  },
  {
    name: 'a string on the near sides',
    scene: { paint: 0.003, string: true, missing: ['north'] },
    bias: 0.25,
    why: 'an eighth of a px of string against noise',
    share: 0.6,
    far: 0,
    lost: ['north'],
  },
];

describe('tracing the boundary of a drawn lawn', () => {
  for (const { name, scene, bias, why, share, far, lost } of CASES)
    it(`finds the inner edge: ${name} (${why})`, async () => {
      const raster = await drawScene({ seed: 3, ...scene });
      const sides = traceBoundary(raster, markedCamera(fingerMarks(11, 2)), STANDARD_COURT, FLAT);
      expect(sides.map(({ side }) => side)).toEqual([...SIDES]);
      for (const side of SIDES) {
        const found = measureSide(sides, side, CAMERA);
        if (lost?.includes(side)) {
          expect(found, side).toBeNull();
          continue;
        }
        if (!found) {
          expect(side === 'north' ? far : share, `${side} not found`).toBe(0);
          continue;
        }
        expect(found.share, side).toBeGreaterThanOrEqual(side === 'north' ? far : share);
        // Far paint is a seventh of a px wide: there the bias may be what 60 samples of 0.35 px leave, three times over.
        expect(Math.abs(found.bias), side).toBeLessThan(side === 'north' ? Math.max(bias, 0.15) : bias);
        // The bar of the project: no worse than 60 independent samples with 0.35 px of noise. String, noise and blur make that harder than it assumes.
        expect(found.scatter60, side).toBeLessThan(scene.string || scene.noise || scene.blur ? 0.5 : 0.4);
        // Stated and true scatter agree; the pixel grid's own 0.03 px is always granted.
        expect(found.ratio, side).toBeLessThan(1.7);
        expect(found.ratio, side).toBeGreaterThan(0.2);
      }
    });

  it('tells string from paint, and states the paint’s width only where it is resolved', async () => {
    const marked = markedCamera(fingerMarks(11, 2));
    const string = traceBoundary(
      await drawScene({ seed: 3, paint: 0.003, string: true }),
      marked,
      STANDARD_COURT,
      FLAT,
    );
    const paint = traceBoundary(await drawScene({ seed: 3, paint: 0.06 }), marked, STANDARD_COURT, FLAT);
    expect(string.find(({ side }) => side === 'south')).toMatchObject({ kind: 'string', paintWidth: null });
    expect(paint.find(({ side }) => side === 'south')!.kind).toBe('band');
    const { paintWidth, systematicSd } = paint.find(({ side }) => side === 'south')!;
    // Drawn 60 mm wide; the stated standard deviation is that of half of it.
    if (paintWidth !== null) expect(Math.abs(paintWidth - 0.06)).toBeLessThan(3 * 2 * systematicSd!);
  });

  // The rim between a light and a dark mowing stripe lies exactly on the west side of these lawns.
  for (const [name, scene] of [
    ['with an edge of mowing and shade', { mown: 1.2, shade: 20 }],
    ['compressed, with noise', { quality: 60, noise: 5, mown: 2 }],
  ] as const)
    it(`finds nothing on a lawn without lines, and says so: ${name}`, async () => {
      const raster = await drawScene({ seed: 5, missing: SIDES, ...scene });
      for (let seed = 30; seed < 38; seed++)
        for (const traced of traceBoundary(raster, markedCamera(fingerMarks(seed, 2)), STANDARD_COURT, FLAT))
          expect(traced, `marks ${seed}`).toMatchObject({
            share: 0,
            samples: [],
            kind: 'none',
            paintWidth: null,
          });
    });

  it('is not moved by being asked twice, nor changes the picture', async () => {
    const raster = await drawScene({ seed: 7 });
    const copy = Uint8Array.from(raster.data);
    const marked = markedCamera(fingerMarks(13, 2));
    const first = traceBoundary(raster, marked, STANDARD_COURT, FLAT);
    expect(traceBoundary(raster, marked, STANDARD_COURT, FLAT)).toEqual(first);
    expect(Buffer.compare(raster.data, copy)).toBe(0);
  });

  it('lowers the samples by what the paint lies below the balls’ ground', async () => {
    const raster = await drawScene({ seed: 7 });
    const marked = markedCamera(fingerMarks(13, 2));
    const flat = measureSide(traceBoundary(raster, marked, STANDARD_COURT, FLAT), 'south', CAMERA)!;
    const low = measureSide(
      traceBoundary(raster, marked, STANDARD_COURT, { paintHeight: metres(-0.01) }),
      'south',
      CAMERA,
    )!;
    // By hand: the line is 17 m away and 8 m below, 18.8 m along the ray, where a metre upright spans 1040/18.8 · 17/18.8 = 50 px; a hundredth of it is taken back.
    expect(flat.bias - low.bias).toBeCloseTo(0.5, 1);
  });
});

import { existsSync, readFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import type { PointName } from '../../server/lawn/named-points.ts';
import { imagePoint } from '../../server/units/points.ts';
import { findBalls, judgeCandidates } from '../../server/vision/balls/find-balls.ts';

const FOLDER = new URL('../../fixtures/photos/', import.meta.url).pathname;
const RENDERED = new URL('../../fixtures/rendered/', import.meta.url).pathname;
const NAMES = ['d1-terrace', 'd3-corner', 'd4-mast', 'd6-partial'].filter((name) =>
  existsSync(`${FOLDER}${name}.jpg`),
);

type Truth = {
  readonly width: number;
  readonly height: number;
  readonly image: Readonly<Record<string, readonly [number, number]>>;
  readonly balls: readonly { readonly colour: BallColour; readonly image: readonly [number, number] }[];
};

const open = async (name: string, folder = FOLDER) => {
  const truth = JSON.parse(readFileSync(`${folder}${name}.truth.json`, 'utf8')) as Truth;
  const { data, info } = await sharp(`${folder}${name}.jpg`)
    .rotate()
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const names = Object.keys(truth.image).filter((each) => !each.startsWith('marker')) as PointName[];
  const solved = solveCamera({
    points: names.map((each) => ({ name: each, image: imagePoint(...truth.image[each]!) })),
    court: STANDARD_COURT,
    width: truth.width,
    height: truth.height,
    markSd: 0.5,
  });
  if (!solved.ok) throw new Error(solved.error.message);
  return {
    truth,
    camera: solved.value.camera,
    raster: { width: info.width, height: info.height, data: new Uint8Array(data) },
  };
};

describe.each(NAMES)('findBalls on the rendered photograph %s', (name) => {
  it('finds nearly all balls, each with its colour and none where no ball is', async () => {
    const { truth, camera, raster } = await open(name);
    const colours = truth.balls.map((ball) => ball.colour);
    const found = findBalls(raster, camera, STANDARD_COURT, { colours });
    for (const { colour, image } of found) {
      // The renderer's own projection of the ball's centre is the truth; it wrote the picture.
      const [x, y] = truth.balls.find((ball) => ball.colour === colour)!.image;
      expect(Math.hypot(image.x - x, image.y - y), colour).toBeLessThan(2);
    }
    expect(found.length).toBeGreaterThanOrEqual(colours.length - 1);
  });
});

describe('the light of a rendered photograph', () => {
  it('has no sun under an overcast sky, though every ball is dark about its foot', async () => {
    const { camera, raster } = await open('gallery-overcast', RENDERED);
    const candidates = judgeCandidates(raster, camera, STANDARD_COURT);
    expect(candidates.length).toBeGreaterThan(6);
    for (const { sun } of candidates) expect(sun).toBeNull();
  });

  it('has one on a clear day, with shadows that take a third of the lawn’s brightness or so', async () => {
    const { camera, raster } = await open('d6-partial');
    const lit = judgeCandidates(raster, camera, STANDARD_COURT).filter(({ sun }) => sun !== null);
    expect(lit.length).toBeGreaterThan(2);
    for (const { sun } of lit) expect(sun!.shadow.share).toBeGreaterThan(0.3);
  });
});

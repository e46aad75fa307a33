import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseMarks } from '../../server/contract/parse.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { markedPose, refinedPose } from '../../server/reading/pose-of-photo.ts';
import type { Raster } from '../../server/units/raster.ts';
import { findBalls, judgeCandidates } from '../../server/vision/balls/find-balls.ts';
import { hideColumns, isOther, isThing } from '../../server/vision/balls/hidden-columns.ts';
import { cutPatch } from '../../server/vision/balls/patch.ts';
import { unmixColumns } from '../../server/vision/balls/unmix-columns.ts';
import { toYcc } from '../../server/vision/ycc.ts';
import { loadFixtures } from '../accuracy/fixtures.ts';
import { centreOf, lookAt, render, type SceneBall, type SceneBox } from './balls-scene.ts';
import { CAMERA, LAWN, LAWN_COLOUR, type Rgb, VIEW } from './plain-lawn.ts';

/** The thing's edge: half of its column is the thing. */
const EDGE = VIEW.x - 0.2 * VIEW.radius;

/** How much of column `x` is a thing left of EDGE, blurred over some px. */
const shareOf = (x: number): number => 1 / (1 + Math.exp((x + 0.5 - EDGE) / 0.6));

/** A disc of colour `ball` on lawn, before which a thing of colour `thing` stands, down to row `to`; one of colour `under` from there on. */
const picture = (ball: Rgb, thing: Rgb, to = Number.POSITIVE_INFINITY, under: Rgb | null = null): Raster => {
  const { width, height } = CAMERA;
  const data = new Uint8Array(3 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const inside = Math.hypot(x + 0.5 - VIEW.x, y + 0.5 - VIEW.y) < VIEW.radius;
      const here = y < to ? thing : under;
      const share = here === null ? 0 : shareOf(x);
      const behind = inside ? ball : LAWN;
      for (let c = 0; c < 3; c++)
        data[3 * (y * width + x) + c] = Math.round(share * (here ?? LAWN)[c]! + (1 - share) * behind[c]!);
    }
  return { width, height, data };
};

/** Mean of the trusted cells within 0.8 radii of the middle: Y, Cb, Cr. */
const seenOf = (raster: Raster, unmix: boolean): number[] => {
  const patch = cutPatch(raster, VIEW);
  hideColumns(patch, VIEW, LAWN_COLOUR);
  if (unmix) unmixColumns(raster, patch, VIEW, LAWN_COLOUR);
  const sum = [0, 0, 0];
  let weight = 0;
  for (let i = 0; i < patch.count; i++) {
    if (Math.hypot(patch.x[i]! - VIEW.x, patch.y[i]! - VIEW.y) > 0.8 * VIEW.radius) continue;
    weight += patch.trust[i]!;
    for (let c = 0; c < 3; c++) sum[c] = sum[c]! + patch.trust[i]! * patch.values[3 * i + c]!;
  }
  return sum.map((each) => each / weight);
};

const missOf = (mean: readonly number[], [y, cb, cr]: readonly [number, number, number]): number =>
  Math.hypot(mean[0]! - y, mean[1]! - cb, mean[2]! - cr);

describe('what stands before a ball', () => {
  it.each<[string, Rgb, Rgb]>([
    ['grey flannel before red', [180, 40, 40], [150, 150, 150]],
    ['white trousers before black', [25, 25, 25], [225, 225, 220]],
    ['navy before blue', [30, 60, 170], [25, 28, 60]],
    ['black trousers before pink', [230, 150, 170], [20, 20, 22]],
  ])('is taken off the cells beside it: %s', (_, ball, thing) => {
    const raster = picture(ball, thing);
    const before = missOf(seenOf(raster, false), toYcc(...ball));
    const after = missOf(seenOf(raster, true), toYcc(...ball));
    expect(before).toBeGreaterThan(4);
    // Rounding to whole grey levels is all that is left.
    expect(after).toBeLessThan(3);
  });

  // A thing that ends behind the ball, and a jacket above grey trousers: the difference of the two once made a green ball.
  it.each<[string, Rgb, Rgb | null]>([
    ['a thing that ends there', [150, 150, 150], null],
    ['a red jacket above grey trousers', [210, 60, 60], [125, 120, 125]],
  ])('is one thing above the ball and below it, not %s', (_, above, under) => {
    const raster = picture([180, 40, 40], above, Math.round(VIEW.y), under);
    const patch = cutPatch(raster, VIEW);
    const values = patch.values.slice();
    unmixColumns(raster, patch, VIEW, LAWN_COLOUR);
    expect(patch.values).toEqual(values);
    expect(patch.trust.every((trust) => trust === 1)).toBe(true);
  });

  it('may be darker than any shadow of it, as no lawn is', () => {
    const inLight = (light: number) => Float64Array.from(LAWN_COLOUR.ycc, (v) => light * v);
    expect([isThing(inLight(0.2), 0, LAWN_COLOUR), isOther(inLight(0.2), 0, LAWN_COLOUR)]).toEqual([
      true,
      false,
    ]);
    expect(isThing(inLight(0.5), 0, LAWN_COLOUR)).toBe(false);
  });
});

/** A trouser leg that hides `ball` from `from` radii right of its middle on. */
const legBefore = (ball: SceneBall, from: number, rgb: Rgb): SceneBox => ({
  at: [ball.x + from * 0.046, ball.x + from * 0.046 + 0.13, ball.y - 0.5, ball.y - 0.42, 0, 0.9],
  rgb,
});

describe('a small ball of which a leg leaves two fifths', () => {
  // A radius is 3.6 px here; a vertical edge 0.15 radii left of the middle of a disc leaves 0.4 of it.
  const camera = lookAt([11.3, 2, 6], [11.3, 14], 1050, 400, 260);
  it.each([
    ['red', [0.3, 0.3, 0.32]],
    ['white', [0.02, 0.02, 0.05]],
    ['blue', [0.3, 0.3, 0.32]],
    ['yellow', [0.02, 0.02, 0.02]],
  ] as const)('%s is found where it is, with its own colour', (colour, trousers) => {
    const ball: SceneBall = { colour, x: 11.3, y: 14 };
    const raster = render(camera, { balls: [ball], boxes: [legBefore(ball, -0.15, trousers)], noise: 2 });
    const [found, ...others] = findBalls(raster, camera, STANDARD_COURT, {
      colours: ['red', 'white', 'blue', 'yellow'],
    });
    expect(others).toEqual([]);
    expect(found?.colour).toBe(colour);
    const truth = centreOf(camera, ball);
    expect(Math.hypot(found!.image.x - truth.x, found!.image.y - truth.y)).toBeLessThan(1.2);
  });
});

/** A fixture with the camera that its lines give. */
const poseOf = async (name: string) => {
  const { photo, marks } = loadFixtures().find((each) => each.name === name)!;
  const { raster, focal35 } = await openPhoto(readFileSync(photo));
  const { width, height } = raster;
  const marked = markedPose({ width, height, focal35 }, parseMarks(marks), () => {});
  const { solved, court } = refinedPose(raster, marked, () => {});
  return { raster, camera: solved.camera, court };
};

describe('the sun of a picture in which legs hide most balls', () => {
  /** In which light a fixture's balls are seen: towards the sun, or null. */
  const sunOf = async (name: string) => {
    const { raster, camera, court } = await poseOf(name);
    return judgeCandidates(raster, camera, court).find(({ sun }) => sun !== null)?.sun ?? null;
  };

  it('is none under a closed sky, though white shoes are lit from a side', async () => {
    expect(await sunOf('legs-north')).toBeNull();
  });

  it('stands on the side where it is, though half a ball is lit as if from the other', async () => {
    const [east, north] = (await sunOf('hidden-balls'))!.towards;
    // The scene's sun: 160° from north.
    const off = (Math.atan2(east, north) * 180) / Math.PI - 160;
    expect(Math.cos((off * Math.PI) / 180)).toBeGreaterThan(Math.cos(Math.PI / 4));
  });
});

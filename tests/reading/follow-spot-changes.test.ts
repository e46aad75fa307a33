import { readFileSync } from 'node:fs';
import sharp, { type Sharp } from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Guess } from '../../server/contract/photo.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { openPhoto, type UprightPhoto } from '../../server/photo/open-photo.ts';
import { followSpot } from '../../server/reading/follow-spot.ts';
import { focalPriorOf } from '../../server/reading/from-marks.ts';
import { imagePoint } from '../../server/units/points.ts';
import type { Raster } from '../../server/units/raster.ts';
import { loadFixtures } from '../accuracy/fixtures.ts';

type Pair = readonly [number, number];

const fixture = loadFixtures().find(({ name }) => name === 'd1-terrace')!;
const corners = Object.entries(fixture.truth.image as Record<string, Pair>).filter(([name]) =>
  name.startsWith('corner'),
);

const opened = ({ data, width, height }: Raster): Sharp =>
  sharp(Buffer.from(data.buffer, data.byteOffset, data.length), { raw: { width, height, channels: 3 } });
const closed = async (picture: Sharp): Promise<Raster> => {
  const { data, info } = await picture.removeAlpha().raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data: new Uint8Array(data) };
};

/** A part of the picture of the former size about its middle, moved by (`dx`, `dy`) px; grass-green where nothing was. */
const windowOf = async (picture: Sharp, size: Raster, dx = 0, dy = 0): Promise<Raster> => {
  const margin = 300;
  const wide = sharp(
    await picture
      .extend({
        top: margin,
        bottom: margin,
        left: margin,
        right: margin,
        background: { r: 70, g: 110, b: 60 },
      })
      .png({ compressionLevel: 0 })
      .toBuffer(),
  );
  const { width, height } = await wide.metadata();
  const left = Math.round((width - size.width) / 2 - dx);
  const top = Math.round((height - size.height) / 2 - dy);
  return closed(wide.extract({ left, top, width: size.width, height: size.height }));
};

/** The next picture from the spot: how it is made of the last one, and where it shows what was seen at (`x`, `y`) px from the middle. */
type Change = {
  readonly name: string;
  readonly make: (raster: Raster) => Promise<Raster>;
  readonly moves: (x: number, y: number) => Pair;
  /** Px that a corner may be off: the lines are traced, but the picture was resampled. */
  readonly allowed?: number;
};

const turned = (degrees: number): Change => {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return {
    name: `turned by ${degrees}°`,
    make: async (raster) => {
      const background = { r: 70, g: 110, b: 60 };
      const picture = await opened(raster)
        .rotate(degrees, { background })
        .png({ compressionLevel: 0 })
        .toBuffer();
      return windowOf(sharp(picture), raster);
    },
    // Clockwise on the screen, where y points down.
    moves: (x, y) => [c * x - s * y, s * x + c * y],
  };
};

const CHANGES: readonly Change[] = [
  {
    name: 'moved by 60 px and 40 px',
    make: (raster) => windowOf(opened(raster), raster, 60, -40),
    moves: (x, y) => [x + 60, y - 40],
    // A phone that turns moves its picture almost so; the lens' middle, which a shift takes along, leaves some px.
    allowed: 5,
  },
  turned(2),
  turned(-2),
  {
    name: 'zoomed in by 5 %',
    make: (raster) =>
      windowOf(
        opened(raster).resize(Math.round(raster.width * 1.05), Math.round(raster.height * 1.05)),
        raster,
      ),
    moves: (x, y) => [1.05 * x, 1.05 * y],
  },
  { name: 'upside down', make: (raster) => closed(opened(raster).rotate(180)), moves: (x, y) => [-x, -y] },
  {
    name: 'in the light of another hour, darker and warmer',
    make: (raster) => closed(opened(raster).linear([0.62, 0.55, 0.42], [4, 4, 4])),
    moves: (x, y) => [x, y],
  },
];

let photo: UprightPhoto;
beforeAll(async () => {
  photo = await openPhoto(readFileSync(fixture.photo));
});

const follow = (raster: Raster): Guess =>
  followSpot(raster, {
    former: {
      points: corners.map(([name, [x, y]]) => ({ name: name as 'corner1', image: imagePoint(x, y) })),
      width: photo.raster.width,
      height: photo.raster.height,
    },
    court: STANDARD_COURT,
    focalPrior: focalPriorOf(photo.focal35, raster.width, raster.height),
  });

describe('the next picture from a spot', () => {
  it.each(CHANGES)(
    'keeps its marks when it is $name',
    async ({ make, moves, allowed = 2.5 }) => {
      const raster = await make(photo.raster);
      const { points, followed, message } = follow(raster);
      expect(followed).toBe(true);
      expect(message).toContain('Check them');
      const [cx, cy] = [raster.width / 2, raster.height / 2];
      for (const [name, [x, y]] of corners) {
        const [dx, dy] = moves(x - cx, y - cy);
        const inside = Math.abs(dx) < cx && Math.abs(dy) < cy;
        const at = points![name as 'corner1'];
        // A corner outside the picture is left out.
        if (!inside) expect(at).toBeUndefined();
        else expect(Math.hypot(at![0] - cx - dx, at![1] - cy - dy)).toBeLessThan(allowed);
      }
    },
    60_000,
  );

  it.each([
    [
      'of nothing but one grey',
      async ({ width, height }: Raster) => ({
        width,
        height,
        data: new Uint8Array(3 * width * height).fill(90),
      }),
    ],
  ])(
    'asks for corners when it is %s',
    async (_, make) => {
      const { points, followed, message } = follow(await make(photo.raster));
      expect([points, followed]).toEqual([null, false]);
      expect(message).toContain('by hand');
    },
    60_000,
  );
});

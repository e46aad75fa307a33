import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { courtShape } from '../../server/camera/court-shape.ts';
import { refineCamera } from '../../server/camera/refine-camera.ts';
import { lookAt } from '../../server/camera/rotation.ts';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import type { Camera, LineSample } from '../../server/camera/types.ts';
import { SIDES, STANDARD_COURT, sideEnds } from '../../server/lawn/court.ts';
import { CORNER_NAMES, namedPlace } from '../../server/lawn/named-points.ts';
import { pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { normal, seeded } from '../accuracy/random.ts';

const COURT = STANDARD_COURT;
const view: Camera = {
  position: [11, -14, 12],
  rotation: lookAt([11, -14, 12], [12.8, 14, 0]),
  focal: pixels(2000),
  radial: [0, 0],
  width: pixels(3264),
  height: pixels(2448),
};

/** A picture of a court whose points (x, y) stand at (x (1 + stretch) + skew y, y): marks, traces, solved as the square court it should be. */
const measure = (skew: number, stretch: number, seed: number) => {
  const random = seeded(seed);
  const see = (x: number, y: number, sd: number) => {
    const at = projectPoint(view, lawnPoint3(x * (1 + stretch) + skew * y, y, 0))!;
    return imagePoint(at.x + sd * normal(random), at.y + sd * normal(random));
  };
  const points = CORNER_NAMES.map((name) => {
    const { x, y } = namedPlace(COURT, name);
    return { name, image: see(x, y, 1) };
  });
  const lines: LineSample[] = SIDES.flatMap((side) => {
    const [a, b] = sideEnds(COURT, side);
    return Array.from({ length: 60 }, (_, i): LineSample => {
      const t = (i + 0.5) / 60;
      const [x, y] = [a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)];
      const image = see(x, y, 0);
      const ahead = see(x + 0.1 * (b.x - a.x), y + 0.1 * (b.y - a.y), 0);
      const length = Math.hypot(ahead.x - image.x, ahead.y - image.y);
      const across: [number, number] = [-(ahead.y - image.y) / length, (ahead.x - image.x) / length];
      const off = 0.2 * normal(random);
      return {
        side,
        image: imagePoint(image.x + off * across[0], image.y + off * across[1]),
        normal: across,
        sd: pixels(0.2),
      };
    });
  });
  const focalPrior = { focal: pixels(2000), sd: 0.01 };
  const input = { points, court: COURT, width: view.width, height: view.height, focalPrior };
  const start = solveCamera(input);
  if (!start.ok) throw new Error(start.error.message);
  const solved = refineCamera(start.value, { ...input, lines });
  return courtShape(solved, COURT, points, lines, focalPrior)!;
};

// Expected values: the shape that was drawn. Diagonals by Pythagoras on the drawn corners.
describe('the shape of a marked court', () => {
  const cases = [
    { name: 'a true rectangle', skew: 0, stretch: 0 },
    { name: 'a parallelogram, 200 mm over the length', skew: 0.00625, stretch: 0 },
    { name: 'too wide by 150 mm', skew: 0, stretch: 0.00586 },
    { name: 'both, the other way', skew: -0.005, stretch: -0.004 },
  ];
  for (const { name, skew, stretch } of cases)
    it(name, () => {
      const shape = measure(skew, stretch, 4);
      expect(Math.abs(shape.skew - skew)).toBeLessThan(3.5 * shape.skewSd);
      expect(Math.abs(shape.stretch - stretch)).toBeLessThan(3.5 * shape.stretchSd);
      const { width: w, length: l } = COURT;
      const across = w * (1 + stretch);
      const truth = Math.hypot(across + skew * l, l) - Math.hypot(across - skew * l, l);
      expect(Math.abs(shape.diagonals - truth)).toBeLessThan(3.5 * shape.diagonalsSd);
    });

  it('is told to better than 150 mm of the diagonals from a mast with a good focal length', () => {
    expect(measure(0, 0, 9).diagonalsSd).toBeLessThan(0.15);
  });
});

import { describe, expect, it } from 'vitest';
import type { CameraFault } from '../../server/camera/camera-fault.ts';
import { solveCamera } from '../../server/camera/solve-camera.ts';
import type { MarkedPoint } from '../../server/camera/types.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { CORNER_NAMES, type PointName } from '../../server/lawn/named-points.ts';
import { metres, pixels } from '../../server/units/numbers.ts';
import { imagePoint } from '../../server/units/points.ts';
import { cameraAt, marksOf, TERRACE } from './cameras.ts';

const faultOf = (points: readonly MarkedPoint[]): CameraFault => {
  const { width, height } = TERRACE;
  const result = solveCamera({ points, court: STANDARD_COURT, width, height });
  if (result.ok) throw new Error('Expected a fault but received a camera');
  return result.error;
};

const corners = marksOf(TERRACE, CORNER_NAMES);

/** The same marks under other names, in order. */
const renamed = (points: readonly MarkedPoint[], names: readonly PointName[]): MarkedPoint[] =>
  points.map((point, i) => ({ ...point, name: names[i]! }));

const moved = (points: readonly MarkedPoint[], name: PointName, dx: number, dy: number): MarkedPoint[] =>
  points.map((point) =>
    point.name === name ? { name, image: imagePoint(point.image.x + dx, point.image.y + dy) } : point,
  );

describe('marks that fix no camera are refused by name', () => {
  it('no marks, three marks', () => {
    expect(faultOf([])).toMatchObject({ code: 'too-few-points', message: /Found 0 marked points/ });
    const fault = faultOf(corners.slice(0, 3));
    expect(fault.code).toBe('too-few-points');
    expect(fault.message).toMatch(/Found 3 marked points; at least four are needed.*hoops and the peg/);
  });

  it('one point marked twice', () => {
    expect(faultOf([...corners, corners[0]!])).toMatchObject({ code: 'point-twice', point: 'corner1' });
  });

  it('a mark outside the photo, or that is no number', () => {
    const fault = faultOf(moved(corners, 'corner3', 5000, 0));
    expect(fault).toMatchObject({ code: 'point-outside', point: 'corner3' });
    expect(fault.message).toContain('3264 × 2448');
    expect(faultOf(moved(corners, 'corner2', Number.NaN, 0))).toMatchObject({
      code: 'point-outside',
      point: 'corner2',
    });
  });

  it('no four points with no three in line on the lawn', () => {
    // Hoop 1, the peg and hoop 3 lie on one diagonal; so do hoop 2, the peg and hoop 4: five points, but four of them always hold three in line.
    expect(faultOf(marksOf(TERRACE, ['corner1', 'corner2', 'markerW', 'corner3'])).code).toBe(
      'points-in-line',
    );
    const fault = faultOf(marksOf(TERRACE, ['peg', 'hoop5', 'hoop6', 'hoop2']));
    expect(fault.code).toBe('points-in-line');
    expect(fault.message).toMatch(/peg, hoop5 and hoop6|three lie in one line/);
  });

  it('marks that lie in one line in the photo', () => {
    const flat = corners.map((point, i) => ({ ...point, image: imagePoint(300 + 800 * i, 1200 + i) }));
    expect(faultOf(flat)).toMatchObject({ code: 'points-in-line', message: /in one line in the photo/ });
  });

  it('four good corners are not refused', () => {
    const { width, height } = TERRACE;
    expect(solveCamera({ points: corners, court: STANDARD_COURT, width, height }).ok).toBe(true);
  });
});

describe('names in the wrong order are put right', () => {
  const right = CORNER_NAMES.map((name) => corners.find((point) => point.name === name)!.image);

  it.each([
    { name: 'anticlockwise from corner 1', names: ['corner1', 'corner4', 'corner3', 'corner2'] },
    { name: 'mirrored east–west', names: ['corner4', 'corner3', 'corner2', 'corner1'] },
  ] as const)('mirrored: $name', ({ names }) => {
    const fault = faultOf(renamed(corners, names));
    expect(fault.code).toBe('mirrored-order');
    const images = CORNER_NAMES.map((name) => fault.suggestion?.find((point) => point.name === name)?.image);
    // The lawn turned by half a turn looks the same: either is a right order.
    expect([right, [right[2], right[3], right[0], right[1]]]).toContainEqual(images);
  });

  it('keeps the names that can be kept', () => {
    const fault = faultOf(renamed(corners, ['corner1', 'corner4', 'corner3', 'corner2']));
    expect(fault.suggestion).toEqual(corners);
    expect(fault.message).toContain('corner4 is corner2, corner2 is corner4');
  });

  it('crossed over: two neighbours exchanged', () => {
    const fault = faultOf(renamed(corners, ['corner2', 'corner1', 'corner3', 'corner4']));
    expect(fault).toMatchObject({ code: 'crossed-order', suggestion: corners });
  });

  it('hoops mirrored as a whole', () => {
    const points = marksOf(TERRACE, ['hoop1', 'hoop2', 'hoop3', 'hoop4', 'hoop5']);
    const fault = faultOf(renamed(points, ['hoop4', 'hoop3', 'hoop2', 'hoop1', 'hoop5']));
    expect(fault).toMatchObject({ code: 'mirrored-order', suggestion: points });
  });
});

describe('marks that no finger explains', () => {
  it('name the worst point among many', () => {
    const points = marksOf(TERRACE, [...CORNER_NAMES, 'peg', 'hoop1', 'hoop2', 'hoop3', 'hoop4']);
    const fault = faultOf(moved(points, 'hoop2', 60, -25));
    expect(fault).toMatchObject({ code: 'unexplained-residual', point: 'hoop2' });
    expect(fault.message).toMatch(/hoop2 is \d+ px from where the others put it/);
  });

  it('refuse four corners of which one is far off', () => {
    expect(faultOf(moved(corners, 'corner3', 250, 60)).code).toBe('unexplained-residual');
  });

  it('are refused with the right order when the names are turned by a quarter', () => {
    const points = marksOf(TERRACE, ['corner1', 'corner2', 'corner3', 'corner4', 'peg', 'hoop1', 'hoop3']);
    const turned = renamed(points, ['corner2', 'corner3', 'corner4', 'corner1', 'peg', 'hoop1', 'hoop3']);
    const fault = faultOf(turned);
    expect(fault.code).toBe('unexplained-residual');
    expect(fault.suggestion).toEqual(points);
  });

  it('leave alone a hoop that stands 200 mm from its place: the others outvote it', () => {
    const points = marksOf(TERRACE, [...CORNER_NAMES, 'peg', 'hoop1', 'hoop2', 'hoop3', 'hoop4', 'hoop6']);
    // 200 mm east at hoop 1, 26 m from the camera: 2357 · 0.2 / 26 = 18 px.
    const { width, height } = TERRACE;
    const result = solveCamera({
      points: moved(points, 'hoop1', 18, 0),
      court: STANDARD_COURT,
      width,
      height,
    });
    expect(result.ok).toBe(true);
    const position = result.ok ? result.value.camera.position : [];
    expect(Math.abs(position[0]! - 11.5)).toBeLessThan(0.1);
  });
});

describe('a camera too low', () => {
  it('is refused: the marks put it 15 cm above a small court', () => {
    const court = { width: metres(5), length: metres(6.25) };
    const low = cameraAt([2.5, -3, 0.15], [2.5, 3, 0], { focal: pixels(2357), radial: [0, 0] });
    const points = marksOf(low, CORNER_NAMES, court);
    const result = solveCamera({ points, court, width: low.width, height: low.height });
    expect(result).toMatchObject({ ok: false, error: { code: 'camera-below-lawn' } });
    expect(!result.ok && result.error.message).toMatch(/camera 0\.1\d m above the lawn/);
  });
});

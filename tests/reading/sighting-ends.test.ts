import { describe, expect, it } from 'vitest';
import { pointAtHeight, projectPoint } from '../../server/camera/camera-model.ts';
import { type MeasuredEnd, solveSighting } from '../../server/camera/solve-sighting.ts';
import type { MarkedPoint } from '../../server/camera/types.ts';
import { MarksSchema } from '../../server/contract/marks.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { namedPlace, type PointName } from '../../server/lawn/named-points.ts';
import { checkedEnds, checkedNotes, measuredEnds } from '../../server/reading/sighting-ends.ts';
import { scatterWarnings } from '../../server/reading/sighting-warnings.ts';
import { pixels } from '../../server/units/numbers.ts';
import { imagePoint, lawnPoint3 } from '../../server/units/points.ts';
import { phoneAt } from './simulated-answers.ts';

const AT = '2026-05-03T09:30:00.000Z';
const W = { name: 'W', along: 0.12, sd: 0.008 } as const;
const E = { name: 'E', along: -0.03, sd: 0.01 } as const;
const marksWith = (changes: object) =>
  MarksSchema.parse({ points: { markerW: [1, 2], markerE: [3, 4] }, hoopScored: 1, ...changes });
const ENDS = [
  { name: 'markerW', image: imagePoint(1, 2) },
  { name: 'markerE', image: imagePoint(3, 4) },
] as const;

describe('the ends of a sighting by a kept court check', () => {
  it.each([
    ['both were seen', { checked: { at: AT, markers: [E, W] } }, [W, E]],
    ['there was no check', {}, null],
    ['it is switched off', { checked: { at: AT, markers: [E, W] }, useChecked: false }, null],
    ['one was not seen', { checked: { at: AT, markers: [W] } }, null],
  ])('when %s', (_, changes, ends) => {
    expect(checkedEnds(marksWith(changes), ENDS)?.ends ?? null).toEqual(ends);
  });

  it('are named with date, side and millimetres', () => {
    const marks = marksWith({ checked: { at: AT, markers: [E, W] } });
    const [note] = checkedNotes(marks, checkedEnds(marks, ENDS));
    expect(note).toEqual({
      code: 'checked-places',
      message:
        'The line is where it belongs, not between the two markers: the court check of 2026-05-03 found W 120 mm to the north (give or take 16) and E 30 mm to the south (give or take 20) of their proper places.',
    });
  });

  it('are said to be missing when the check did not see both, and not when nobody asked for them', () => {
    const one = marksWith({ checked: { at: AT, markers: [W] } });
    expect(checkedNotes(one, null).map(({ code }) => code)).toEqual(['checked-places-missing']);
    expect(checkedNotes({ ...one, useChecked: false }, null)).toEqual([]);
  });

  it('count wider, since one camera measured both', () => {
    const marks = marksWith({ checked: { at: AT, markers: [E, W] } });
    // 8 mm × √2.
    expect(measuredEnds(checkedEnds(marks, ENDS))[0]).toMatchObject({ name: 'markerW', along: 0.12 });
    expect(measuredEnds(checkedEnds(marks, ENDS))[0]!.sd).toBeCloseTo(0.0113137, 6);
  });
});

/**
 * Hand calculation. The marker W stands 0.12 m too far north, E in its place; a ball lies with its centre on the proper line, y = 16.002, at x = 12.8016, halfway. Measured between the two
 * markers, which pass 0.06 m north of the peg there, it lies 0.06 m south of the line; measured from the checked places it lies on it.
 */
describe('a marker that stands 120 mm out of its place', () => {
  const camera = phoneAt(-3, 16.05, 1.6, 12, 16.002);
  const see = (name: 'markerW' | 'markerE', x: number, y: number) => {
    const image = projectPoint(camera, lawnPoint3(x, y, 0))!;
    return { name, image: imagePoint(image.x, image.y) };
  };
  const ends = [see('markerW', -0.06, 16.122), see('markerE', 25.6632, 16.002)] as const;
  const ball = projectPoint(camera, lawnPoint3(12.8016, 16.002, BALL_RADIUS))!;
  const placeOfBall = (measured: readonly MeasuredEnd[]): number => {
    const solved = solveSighting({
      court: STANDARD_COURT,
      width: camera.width,
      height: camera.height,
      ends,
      marks: ends.map((mark) => ({ mark, sd: 0.3 })),
      balls: [],
      measured,
      focalPrior: { focal: pixels(camera.focal), sd: 0.01 },
      unevenness: 0.005,
    });
    if (!solved.ok) throw new Error(solved.error.message);
    return pointAtHeight(solved.value.camera, ball, BALL_RADIUS)!.y;
  };

  // 5 mm: the height of the phone is known by the stance alone, which moves a ball beside the line by some millimetres.
  it('moves the line by half of that in the middle', () => {
    expect(Math.abs(placeOfBall([]) - 15.942)).toBeLessThan(0.005);
  });
  it('does no harm once a check has measured it', () => {
    const measured = [
      { name: 'markerW', along: 0.12, sd: 0.002 },
      { name: 'markerE', along: 0, sd: 0.002 },
    ];
    expect(Math.abs(placeOfBall(measured) - 16.002)).toBeLessThan(0.005);
  });
});

/**
 * A photo of which a twentieth was cut off at its right: its middle is no longer the lens' middle, so that no camera explains all marks. Expected: the ball between the two ends is still
 * measured by them, to some millimetres, and the others are known not to fit.
 */
describe('a picture cropped on one side', () => {
  const camera = phoneAt(-3, 16.102, 1.55, 12, 16.002);
  const see = (name: PointName): MarkedPoint => {
    const { x, y } = namedPlace(STANDARD_COURT, name);
    const out = name === 'markerW' ? -0.06 : name === 'markerE' ? 0.06 : 0;
    const image = projectPoint(camera, lawnPoint3(x + out, y, 0))!;
    return { name, image: imagePoint(image.x, image.y) };
  };
  const names = ['markerW', 'markerE', 'peg', 'hoop3', 'hoop4', 'corner3', 'corner4'] as const;
  const solve = (share: number) =>
    solveSighting({
      court: STANDARD_COURT,
      width: share * camera.width,
      height: camera.height,
      ends: [see('markerW'), see('markerE')],
      marks: names.map((name) => ({ mark: see(name), sd: 0.6 })),
      balls: [],
      focalPrior: { focal: pixels(camera.focal), sd: 0.03 },
      unevenness: 0.005,
    });
  const solved = solve(0.95);
  it('is held to its line by the two ends', () => {
    if (!solved.ok) throw new Error(solved.error.message);
    for (const x of [6, 10, 16]) {
      const ball = projectPoint(camera, lawnPoint3(x, 16.062, BALL_RADIUS))!;
      const { y } = pointAtHeight(solved.value.camera, ball, BALL_RADIUS)!;
      expect(Math.abs(y - 16.062)).toBeLessThan(0.006);
    }
  });
  it('shows in how the other marks scatter', () => {
    if (!solved.ok) throw new Error(solved.error.message);
    const whole = solve(1);
    expect(whole.ok && whole.value.scatter).toBe(1);
    expect(solved.value.scatter).toBeGreaterThan(1.5);
  });
});

describe('marks that do not fit the two ends', () => {
  const marks = [
    { name: 'markerW', residual: [0.1, 0.2] },
    { name: 'hoop6', residual: [3, -4] },
    { name: 'peg', residual: [0, 30] },
  ] as const;
  const names = ['markerW', 'markerE'];
  it('are said to, beyond chance only, the worst by name', () => {
    for (const scatter of [undefined, 1, 2.4])
      expect(scatterWarnings({ marks, ...(scatter && { scatter }) }, names)).toEqual([]);
    expect(scatterWarnings({ marks, scatter: 6.2 }, names)[0]!.message).toContain('peg worst (30 px)');
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closeUp, fitsCloseUp } from '../../server/cards/parts/close-up.ts';
import { lawnPlan, onPlan, regionOf } from '../../server/cards/parts/lawn-plan.ts';
import { spread } from '../../server/cards/parts/spread.ts';
import { cropAround } from '../../server/cards/photo-crop.ts';
import { runsOf, shortened, widthOf, wrapped } from '../../server/cards/sheet/fonts.ts';
import { gap, pagesOf, scrollOf } from '../../server/cards/sheet/pages.ts';
import { A4, type Shape } from '../../server/cards/sheet/shapes.ts';
import { toSvg } from '../../server/cards/sheet/to-svg.ts';
import type { BallCall } from '../../server/contract/reading.ts';
import { DEFAULT_LETTERS } from '../../server/contract/settings.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { metres } from '../../server/units/numbers.ts';

type Ellipse = Extract<Shape, { kind: 'ellipse' }>;
const ellipses = (shapes: readonly Shape[]) =>
  shapes.filter((shape): shape is Ellipse => shape.kind === 'ellipse');

describe('the plan', () => {
  const frame = { x: 10, y: 20, scale: 8 };

  it('puts corner 1 bottom left and corner 3 top right, 1.3 m inside its edge', () => {
    const at = onPlan(STANDARD_COURT, frame);
    // 10 + 1.3 × 8 and 20 + (1.3 + 32.004) × 8; then 25.6032 × 8 to the right and 32.004 × 8 up.
    expect(at(0, 0)[0]).toBeCloseTo(20.4, 9);
    expect(at(0, 0)[1]).toBeCloseTo(286.432, 9);
    expect(at(25.6032, 32.004)[0]).toBeCloseTo(225.2256, 9);
    expect(at(25.6032, 32.004)[1]).toBeCloseTo(30.4, 9);
  });

  it('draws each ball where it lies, in three rings', () => {
    const content = { court: STANDARD_COURT, letters: DEFAULT_LETTERS };
    const ground = lawnPlan({ ...content, balls: [] }, frame);
    const drawn = lawnPlan({ ...content, balls: [{ colour: 'red', x: 12.8016, y: 16.002 }] }, frame);
    const [x, y] = onPlan(STANDARD_COURT, frame)(12.8016, 16.002);
    const rings = ellipses(drawn.slice(ground.length)).filter((ring) => ring.fill !== undefined);
    expect(rings.map((ring) => [ring.x, ring.y])).toEqual([
      [x, y],
      [x, y],
      [x, y],
    ]);
    expect(drawn.some((shape) => shape.kind === 'text' && shape.text === 'R')).toBe(true);
  });

  it('draws the region that holds a place 19 times in 20', () => {
    // Without correlation the half axes are the standard deviations times √5.991 (χ², two degrees of freedom, 0.95; NIST/SEMATECH 1.3.6.7.4).
    const { major, minor, angle } = regionOf({ colour: 'red', x: 0, y: 0, sdX: 0.3, sdY: 0.1 });
    expect(major).toBeCloseTo(0.3 * Math.sqrt(5.991), 3);
    expect(minor).toBeCloseTo(0.1 * Math.sqrt(5.991), 3);
    expect(angle).toBe(0);
  });

  it('turns the region with the correlation', () => {
    // Equal standard deviations s and correlation ρ: the axes lie at 45°, s√(1 + ρ) and s√(1 − ρ).
    const { major, minor, angle } = regionOf({
      colour: 'red',
      x: 0,
      y: 0,
      sdX: 0.2,
      sdY: 0.2,
      correlation: 0.5,
    });
    expect(angle).toBeCloseTo(45, 9);
    expect(major / minor).toBeCloseTo(Math.sqrt(1.5 / 0.5), 9);
  });
});

describe('discs that would cover each other', () => {
  const place = fc.record({
    x: fc.double({ min: 0, max: 300, noNaN: true }),
    y: fc.double({ min: 0, max: 300, noNaN: true }),
  });

  it('are drawn apart, and those apart already stay', () => {
    fc.assert(
      fc.property(fc.array(place, { maxLength: 8 }), (places) => {
        const moved = spread(places, 5);
        for (const [i, a] of moved.entries())
          for (const b of moved.slice(i + 1)) expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(2 * 5);
      }),
      { seed: 20261124 },
    );
    const apart = [
      { x: 0, y: 0 },
      { x: 30, y: 0 },
    ];
    expect(spread(apart, 5)).toEqual(apart);
  });
});

describe('the close-up', () => {
  const frame = { x: 100, ground: 80, width: 236, scale: 500 };
  const call = (beyond: number, lies: BallCall['lies'] = 'beyond'): BallCall => ({
    colour: 'red',
    beyond,
    sd: 0.01,
    probability: 0.9,
    lies,
  });
  const ball = (shapes: readonly Shape[]) => ellipses(shapes)[0]!;
  /** x of the upright: 170 mm from the left edge. */
  const upright = 100 + 0.17 * 500;

  it.each([0.034, 0, -0.046, -0.092, 0.2])('is true to scale for a ball %f m past the line', (beyond) => {
    const { x, y, rx, ry } = ball(closeUp(call(beyond), frame));
    expect([rx, ry]).toEqual([0.046 * 500, 0.046 * 500]);
    // The ball stands on the grass, and its left side is `beyond` to the right of the upright.
    expect(y + ry).toBeCloseTo(80, 9);
    expect(x - rx - upright).toBeCloseTo(beyond * 500, 9);
  });

  it('shows the band that holds the nearest point 19 times in 20', () => {
    const band = closeUp(call(0.05), frame).find(
      (shape) => shape.kind === 'rect' && shape.opacity === 0.28,
    ) as { x: number; width: number };
    // 1.96 standard deviations of 10 mm on either side (NIST/SEMATECH 1.3.6.7.1), 500 pt a metre.
    expect(band.width).toBeCloseTo(2 * 1.96 * 0.01 * 500, 9);
    expect(band.x + band.width / 2).toBeCloseTo(upright + 0.05 * 500, 9);
  });

  it('shows an open call by its form: hatched and dotted, not filled', () => {
    const open = closeUp(call(0.01, 'tooClose'), frame);
    expect(open.some((shape) => shape.kind === 'rect' && shape.opacity === 0.28)).toBe(false);
    expect(open.filter((shape) => shape.kind === 'path' && shape.stroke?.dash?.[0] === 1.4)).toHaveLength(2);
  });

  it.each([
    [0.034, true],
    [-0.16, true],
    [-0.18, false],
    [1.2, false],
  ])('takes a ball %f m past the line: %s', (beyond, fits) => {
    expect(fitsCloseUp({ beyond }, frame)).toBe(fits);
  });
});

describe('the part of a photo', () => {
  it('lies within it, has the shape asked for, and holds the balls where it can', () => {
    const size = fc.record({
      width: fc.integer({ min: 400, max: 6000 }),
      height: fc.integer({ min: 400, max: 6000 }),
    });
    const share = fc.tuple(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
    );
    fc.assert(
      fc.property(size, fc.array(share, { maxLength: 8 }), (photo, shares) => {
        const places = shares.map(([u, v]) => ({ x: u * photo.width, y: v * photo.height }));
        const box = cropAround(places, photo, 1.42);
        expect(box.x).toBeGreaterThanOrEqual(0);
        expect(box.y).toBeGreaterThanOrEqual(0);
        expect(box.x + box.width).toBeLessThanOrEqual(photo.width + 1e-6);
        expect(box.y + box.height).toBeLessThanOrEqual(photo.height + 1e-6);
        expect(box.width / box.height).toBeCloseTo(1.42, 6);
      }),
      { seed: 20261124 },
    );
    const box = cropAround(
      [
        { x: 1000, y: 1200 },
        { x: 2000, y: 1300 },
      ],
      { width: 3264, height: 2448 },
      1.42,
    );
    expect(box.x < 1000 && box.x + box.width > 2000 && box.y < 1200 && box.y + box.height > 1300).toBe(true);
  });
});

describe('text', () => {
  it.each(['Łukasz Åsa Őrs', 'Γιάννης', 'Жанна', 'Nguyễn', '7 yd 1⅜ in ± 12 mm – “open”'])(
    'sets %s whole',
    (words) => {
      expect(
        runsOf(words, 600)
          .map(({ text }) => text)
          .join(''),
      ).not.toContain('?');
    },
  );

  it('shows a letter that the typeface lacks by a question mark', () => {
    expect(runsOf('a漢b', 400).map(({ text }) => text)).toEqual(['a?b']);
  });

  it('is wrapped and shortened to the width', () => {
    const words = 'The north line could not be followed behind the hedge';
    const lines = wrapped(words, 120, 10, 400);
    expect(lines.join(' ')).toBe(words);
    for (const line of lines) expect(widthOf(line, 10, 400)).toBeLessThanOrEqual(120);
    expect(widthOf(shortened(words, 120, 10, 400), 10, 400)).toBeLessThanOrEqual(120);
    expect(shortened('Hoop 1', 120, 10, 400)).toBe('Hoop 1');
  });
});

describe('a document', () => {
  const frame = { title: 'T', aside: [], footer: 'F', label: 'A & B <c>' };
  const rows = Array.from({ length: 20 }, () => gap(100));

  it('is divided between rows into pages of A4', () => {
    // 842 pt less 58 for the band, 14 under it and 42 at the foot leave 728: seven rows of 100.
    expect(pagesOf(frame, rows).map(({ height }) => height)).toEqual([A4.height, A4.height, A4.height]);
    expect(pagesOf(frame, rows.slice(0, 7))).toHaveLength(1);
    expect(pagesOf(frame, rows.slice(0, 8))).toHaveLength(2);
  });

  it('is one sheet on a screen', () => {
    expect(scrollOf(frame, rows).height).toBe(2000 + 58 + 14 + 42);
  });

  it('is an SVG without anything from elsewhere, its words made safe', () => {
    const svg = toSvg(scrollOf(frame, rows));
    expect(svg).toContain('<title>A &amp; B &lt;c&gt;</title>');
    expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|url\(|<text|font-family/);
  });
});

it('keeps a lawn of another size to its own proportions', () => {
  const small = { width: metres(20), length: metres(25) };
  const at = onPlan(small, { x: 0, y: 0, scale: 10 });
  expect(at(20, 25)).toEqual([expect.closeTo(213, 9), expect.closeTo(13, 9)]);
});

import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { BALL_COLOURS, type BallColour } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { pegPlace } from '../../server/lawn/hoops.ts';
import { type Covariance2, lawnPoint, lawnPoint3 } from '../../server/units/points.ts';
import { isAttached } from '../../server/vision/balls/attachment.ts';
import { colourRatios, lnBallDensities } from '../../server/vision/balls/colour-model.ts';
import { doubtStanding } from '../../server/vision/balls/doubts.ts';
import { knownThings, placeDoubts } from '../../server/vision/balls/exclusions.ts';
import { findBalls, judgeCandidates } from '../../server/vision/balls/find-balls.ts';
import { firstLook, isSure, sceneOf } from '../../server/vision/balls/first-look.ts';
import type { JudgedBall, Scene } from '../../server/vision/balls/judge-ball.ts';
import type { LawnColour } from '../../server/vision/balls/lawn-colour.ts';
import { weighMinima } from '../../server/vision/balls/minima.ts';
import { widening } from '../../server/vision/balls/outline-fit.ts';
import { pooledBlur } from '../../server/vision/balls/picture-blur.ts';
import { sightingOf } from '../../server/vision/balls/sighting-of.ts';
import { legShare } from '../../server/vision/balls/surroundings.ts';
import { blueOf, greenOf, redOf, type Ycc, yccAt } from '../../server/vision/ycc.ts';
import { lookAt, render, type SceneBox, SUNNY } from './balls-scene.ts';

const CAMERA = lookAt([11.3, 2, 6], [11.3, 14], 1600, 400, 300);
const HERE = { x: 11.3, y: 14 };

/** The candidate nearest to where the camera of `scene` sees the lawn point, and what all share. */
const candidateAt = (
  place: { readonly x: number; readonly y: number },
  boxes: readonly SceneBox[],
  colour: BallColour = 'red',
): { scene: Scene; ball: JudgedBall } => {
  const raster = render(CAMERA, { balls: [{ colour, ...place }], boxes });
  const look = firstLook(raster, CAMERA, STANDARD_COURT)!;
  const blur = pooledBlur(look.balls.filter(isSure).map(({ fit }) => fit));
  const [ball] = [...judgeCandidates(raster, CAMERA, STANDARD_COURT)].sort(
    (a, b) =>
      Math.hypot(a.place.x - place.x, a.place.y - place.y) -
      Math.hypot(b.place.x - place.x, b.place.y - place.y),
  );
  return { scene: sceneOf(raster, CAMERA, STANDARD_COURT, look.lawn, blur), ball: ball! };
};

/** A box of a body's size whose near side is `gap` metres behind the ball's centre, in navy. */
const bodyBehind = (gap: number): SceneBox => ({
  at: [HERE.x - 0.2, HERE.x + 0.2, HERE.y + gap, HERE.y + gap + 0.2, 0, 1.6],
  rgb: [0.02, 0.03, 0.09],
});

describe('something large behind a ball', () => {
  it('hangs together with one that touches its picture', () => {
    const { scene, ball } = candidateAt(HERE, [bodyBehind(0.05)]);
    expect(isAttached(scene.raster, ball, scene.lawn.noise, scene.things)).toBe(true);
  });

  it.each([
    ['lies on open lawn', [] as SceneBox[]],
    ['lies a metre before it', [bodyBehind(1)]],
  ])('does not with one that %s', (_, boxes) => {
    const { scene, ball } = candidateAt(HERE, boxes);
    expect(isAttached(scene.raster, ball, scene.lawn.noise, scene.things)).toBe(false);
  });

  it('takes odds from every colour', () => {
    const { scene, ball } = candidateAt(HERE, [bodyBehind(0.05)]);
    const doubted = doubtStanding(scene, ball, scene.lawn.noise);
    for (const [c, odds] of doubted.lnOdds.entries()) expect(odds).toBeLessThan(ball.lnOdds[c]! - 3);
  });
});

describe('colour that bled from a ball', () => {
  const { scene, ball } = candidateAt(HERE, []);
  const [, b, r] = ball.fit.ball.map((value, c) => value - ball.fit.lawn[c]!) as unknown as Ycc;

  /** Whether the ball hangs together with a halo 10 px wide that has the lawn's brightness and its colour changed by (`cb`, `cr`) grey levels. */
  const hangsIn = (cb: number, cr: number): boolean => {
    const { raster } = scene;
    const data = Uint8Array.from(raster.data);
    for (let y = 0; y < raster.height; y++)
      for (let x = 0; x < raster.width; x++) {
        const out = Math.hypot(x + 0.5 - ball.fit.x, y + 0.5 - ball.fit.y) - ball.view.radius;
        if (out < 1 || out > 10) continue;
        const px = yccAt(raster, x, y);
        const changed = [px[0], px[1] + cb, px[2] + cr] as const;
        const rgb = [redOf(changed[0], changed[2]), greenOf(...changed), blueOf(changed[0], changed[1])];
        rgb.forEach((level, c) => {
          data[3 * (y * raster.width + x) + c] = Math.max(0, Math.min(255, Math.round(level)));
        });
      }
    return isAttached({ ...raster, data }, ball, scene.lawn.noise, scene.things);
  };

  it('is no large thing that it hangs together with, while as much colour of another thing is', () => {
    expect(Math.hypot(b, r)).toBeGreaterThan(40);
    expect(hangsIn(0.4 * b, 0.4 * r)).toBe(false);
    expect(hangsIn(0.9 * b, 0.9 * r)).toBe(true);
    expect(hangsIn(-0.6 * r, 0.6 * b)).toBe(true);
    expect(hangsIn(-0.6 * b, -0.6 * r)).toBe(true);
  });
});

describe('a leg behind a ball', () => {
  it('leaves no colour of shoes, trousers or skin likely, however round it is', () => {
    // A trouser leg of 11 cm, which leaves lawn on both sides.
    const leg: SceneBox = {
      at: [HERE.x - 0.055, HERE.x + 0.055, HERE.y + 0.05, HERE.y + 0.16, 0, 0.8],
      rgb: [0.02, 0.03, 0.09],
    };
    const { scene, ball } = candidateAt(HERE, [leg], 'white');
    const likely = { ...ball, lnOdds: ball.lnOdds.map((odds) => odds + 40) };
    const doubted = doubtStanding(scene, likely, scene.lawn.noise);
    expect(doubted.lnOdds[BALL_COLOURS.indexOf('yellow')]).toBeGreaterThan(-2);
    for (const colour of ['blue', 'black', 'brown', 'white', 'pink'] as const)
      expect(doubted.lnOdds[BALL_COLOURS.indexOf(colour)]).toBeLessThanOrEqual(-2);
  });
});

describe('a thing that the court is known to have', () => {
  const camera = lookAt([12.8, -12, 7], [12.8, 14], 2400, 1600, 1200);
  const things = knownThings(camera, STANDARD_COURT);
  /** Colours that lose odds at a point of the scene. */
  const doubtedAt = (x: number, y: number, z: number): BallColour[] => {
    const image = projectPoint(camera, lawnPoint3(x, y, z))!;
    const inside = lawnPoint(12.8, 16);
    const doubts = placeDoubts(things, STANDARD_COURT, image.x, image.y, inside);
    return BALL_COLOURS.filter((_, c) => doubts[c]! < -4);
  };

  it('a boundary marker is white', () => {
    // The east end of the across line stands on the boundary, 17.5 of 35 yd up (32.004 m).
    expect(doubtedAt(STANDARD_COURT.width + 0.06, 16.002, 0.08)).toEqual(['white']);
    expect(doubtedAt(STANDARD_COURT.width + 0.06, 17.5, 0.08)).toEqual([]);
  });

  it("a flag's cloth may look brown where it is red, and blue or brown where it is black", () => {
    const { width, length } = STANDARD_COURT;
    expect(doubtedAt(-0.35, length + 0.35, 0.5)).toEqual(['red', 'brown']);
    expect(doubtedAt(width + 0.35, length + 0.35, 0.5)).toEqual(['blue', 'black', 'brown']);
  });
});

describe('the peg above a ball', () => {
  const peg = pegPlace(STANDARD_COURT);
  const white: SceneBox = {
    at: [peg.x - 0.02, peg.x + 0.02, peg.y - 0.02, peg.y + 0.02, 0, 0.45],
    rgb: [0.8, 0.8, 0.8],
  };
  const before = { x: peg.x, y: peg.y - 0.2 };

  it('is no leg', () => {
    const { scene, ball } = candidateAt(before, [white], 'blue');
    const share = (things: Scene['things']): number =>
      legShare(scene.raster, ball.view, ball.fit, scene.lawn.noise, things);
    expect(share(knownThings(CAMERA, STANDARD_COURT))).toBeLessThan(0.3);
    expect(share([])).toBeGreaterThan(share(scene.things));
  });

  it('costs a blue ball before it nothing', () => {
    const raster = render(CAMERA, { balls: [{ colour: 'blue', ...before }], boxes: [white] });
    const found = findBalls(raster, CAMERA, STANDARD_COURT, { colours: BALL_COLOURS });
    expect(found.map(({ colour }) => colour)).toEqual(['blue']);
  });
});

describe('the error of a measured colour', () => {
  const lawn: LawnColour = {
    rgb: [0.14, 0.27, 0.07],
    ycc: [118, -26, -14],
    redness: Math.log(0.14 / 0.27),
    blueness: Math.log(0.07 / 0.27),
    rednessSd: 0.05,
    bluenessSd: 0.05,
    noise: { luma: 4, colour: 1.5 },
  };
  const measure = (luma: number, radius: number) => colourRatios([luma, 2, -2], radius, lawn.ycc, lawn)[0]!;

  it('is larger in the dark than in the light, where a level is a smaller share', () => {
    expect(measure(25, 3).error[5]).toBeGreaterThan(4 * measure(150, 3).error[5]!);
  });

  it('is larger for a small ball', () => {
    expect(measure(60, 2).error[0]).toBeGreaterThan(3 * measure(60, 8).error[0]!);
  });

  it('by hand: in the light it is the derivative of ln of linear light', () => {
    // At 190 levels Cr adds 1.402 to red for each level: d ln r = 2.4 · 1.402 · sd / (v + 14.025) by the curve of IEC 61966-2-1, sd = √(2² + (10/8)²).
    const sd = Math.hypot(2, 10 / 8);
    const red = 190 + 1.402 * -2;
    expect(Math.sqrt(measure(190, 8).error[0]!)).toBeCloseTo((2.4 * 1.402 * sd) / (red + 14.025), 2);
  });

  it('lets four levels of blue tell little of a dark ball, and much of a lit one', () => {
    const blueOverBlack = (luma: number, cb: number): number => {
      const ln = lnBallDensities(colourRatios([luma, cb, -2], 3, lawn.ycc, lawn), 3);
      return ln[BALL_COLOURS.indexOf('blue')]! - ln[BALL_COLOURS.indexOf('black')]!;
    };
    const told = Math.abs(blueOverBlack(20, 4) - blueOverBlack(20, 0));
    expect(told).toBeLessThan(2);
    expect(blueOverBlack(55, 32) - blueOverBlack(55, 0)).toBeGreaterThan(4);
  });
});

describe('a fit that is not the only one', () => {
  const { scene, ball } = candidateAt(HERE, []);

  it('stays where it is when other starts lead to the same place', () => {
    const weighed = weighMinima(scene, ball, ball.sun, []);
    const moved = Math.hypot(weighed.fit.x - ball.fit.x, weighed.fit.y - ball.fit.y);
    expect(moved).toBeLessThan(ball.view.radius / 20);
    expect(moved).toBeLessThan(1.5 * Math.sqrt(weighed.fit.yy));
    expect(Math.sqrt(weighed.fit.yy)).toBeLessThan(Math.sqrt(ball.fit.yy) + 0.2);
  });

  it('is taken as it is for a ball much brighter than the lawn, which stands out all around', () => {
    const bright = { ...ball, fit: { ...ball.fit, ball: ball.fit.lawn.map((value) => 1.5 * value) } };
    expect(weighMinima(scene, bright, ball.sun, [])).toBe(bright);
  });

  it('is drawn to the better places and states their distance when it is half a radius off', () => {
    const off = 0.5 * ball.view.radius;
    const bad = {
      ...ball,
      fit: { ...ball.fit, y: ball.fit.y + off },
      evidence: { ...ball.evidence, round: ball.evidence.round - 1 },
    };
    const weighed = weighMinima(scene, bad, ball.sun, []);
    // The other starts lead back to the true place; the bad one keeps some weight w, and two places `off` apart scatter by off · √(w (1 − w)): 0.15 is w = 2 %.
    expect(weighed.fit.y).toBeLessThan(bad.fit.y - 0.5 * off);
    expect(Math.sqrt(weighed.fit.yy)).toBeGreaterThan(0.15 * off);
  });

  it('is placed with more doubt down the picture when light may mislead it: dark in the sun, small and dark, or like the lawn without one', () => {
    const covariance = (brightness: number, sun: JudgedBall['sun'], radius = 4): Covariance2 => {
      const lit = { ...ball.fit, ball: ball.fit.lawn.map((value) => brightness * value) };
      const view = { ...ball.view, radius };
      return sightingOf({ ...ball, view, sun, fit: lit }, 'red', 1, []).covariance;
    };
    const more = (brightness: number, sun: JudgedBall['sun'], radius = 4): number =>
      covariance(brightness, sun, radius).yy - covariance(0.5, sun, radius).yy;
    const sunny = { towards: [0, 0, 1], shadow: { share: 0.4, sd: 0.1 } } as const;
    // Down the picture and down the outline are nearly one here.
    expect(more(0.2, sunny)).toBeCloseTo(0.1 ** 2, 4);
    expect(more(0.2, null, 2.2)).toBeCloseTo(0.35 ** 2, 3);
    expect(more(0.2, sunny, 2.2)).toBeCloseTo(0.35 ** 2 + 0.1 ** 2, 3);
    expect(more(0.8, null)).toBeCloseTo(0.3 ** 2, 3);
    expect(more(0.8, sunny)).toBe(0);
    expect(more(0.2, null)).toBe(0);
    expect(more(0.45, null, 2.2)).toBe(0);
    const aside = covariance(0.8, null).xx - covariance(0.5, null).xx;
    expect(aside).toBeLessThan(0.01 * more(0.8, null));
  });

  it('is placed with more doubt when the picture would have the ball smaller', () => {
    const sd = (radiusOffset: number, radiusSd = 0): number =>
      Math.sqrt(
        sightingOf({ ...ball, fit: { ...ball.fit, radiusOffset, radiusSd } }, 'red', 1, []).covariance.yy,
      );
    // 0.6 − 0.3 px are added, less what the picture does not tell of the radius: of an offset of two deviations a quarter.
    expect(sd(-0.6) ** 2 - sd(0) ** 2).toBeCloseTo(0.3 ** 2, 6);
    expect(sd(0.6, 0.3) ** 2 - sd(0) ** 2).toBeCloseTo((0.75 * 0.3) ** 2, 6);
    expect(sd(0.6, 0.7)).toBe(sd(0));
    expect(sd(0.6)).toBeCloseTo(sd(-0.6), 12);
    expect(sd(0.2)).toBe(sd(0));
  });
});

describe('what a fit states', () => {
  it('by hand: grows with the misfit of the cells that are seen, from 0.8 of what the cells alone make it', () => {
    const trust = Float64Array.from({ length: 10 }, (_, i) => (i < 4 ? 1 : 0));
    const all = new Float64Array(10).fill(1);
    expect(widening({ trust: all, count: 10 }, 1)).toBe(0.8);
    expect(widening({ trust: all, count: 10 }, 2)).toBeCloseTo(1.4, 12);
    expect(widening({ trust, count: 10 }, 0.8)).toBeCloseTo(1.4, 12);
  });
});

describe('balls in the sun', () => {
  it('are found with places that the truth agrees with', () => {
    const balls = [
      { colour: 'red', x: 10.6, y: 14.6 },
      { colour: 'blue', x: 11.9, y: 13.2 },
      { colour: 'yellow', x: 11.2, y: 12.6 },
    ] as const;
    const found = findBalls(render(CAMERA, { balls, sun: SUNNY }), CAMERA, STANDARD_COURT, {
      colours: BALL_COLOURS,
    });
    expect(found.map(({ colour }) => colour)).toEqual(['blue', 'red', 'yellow']);
  });
});

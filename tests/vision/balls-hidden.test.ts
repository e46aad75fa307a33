import { describe, expect, it } from 'vitest';
import { BALL_COLOURS, type BallColour } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { viewBall } from '../../server/vision/balls/ball-view.ts';
import { findBalls, judgeCandidates } from '../../server/vision/balls/find-balls.ts';
import {
  distinct,
  firstLook,
  fitSieved,
  lookOf,
  sceneOf,
  sieveLawn,
} from '../../server/vision/balls/first-look.ts';
import { doFits, type FitWork, fitTogether, type MadeOf } from '../../server/vision/balls/fit-work.ts';
import { explainBlot } from '../../server/vision/balls/hidden-behind.ts';
import { bestOdds, type JudgedBall, judgeBall, placedAgain } from '../../server/vision/balls/judge-ball.ts';
import { hiddenViews } from '../../server/vision/balls/neighbours.ts';
import { cutPatch } from '../../server/vision/balls/patch.ts';
import { hideShaded, peelBall, standsBehind } from '../../server/vision/balls/peel.ts';
import { ANY_DEPTH } from '../../server/vision/balls/shadow-depth.ts';
import { sightingOf } from '../../server/vision/balls/sighting-of.ts';
import { lookAt, render, type SceneBall } from './balls-scene.ts';

/** As from a balcony 6 m high, 26 m away: a ball is some 5 px in radius, one behind another shows a crescent. */
const CAMERA = lookAt([14, -12, 6], [14, 14], 2700, 700, 420);
/** Touching: a diameter, and half a millimetre. */
const APART = 0.0925;

/** Two touching balls, the second behind the first and turned by `turn` radians, with two others that show the light. */
const pair = (front: BallColour, rear: BallColour, turn: number): SceneBall[] => {
  const [x, y] = [13.9, 14.2];
  const angle = Math.atan2(y + 12, x - 14) + turn;
  const others = BALL_COLOURS.filter((colour) => colour !== front && colour !== rear);
  return [
    { colour: front, x, y },
    { colour: rear, x: x + APART * Math.cos(angle), y: y + APART * Math.sin(angle) },
    { colour: others[0]!, x: x - 1, y: y - 1.2 },
    { colour: others[3]!, x: x + 1, y: y + 0.8 },
  ];
};

const SUN = [0.5, -0.55, 0.67] as const;

describe('a ball that a touching one hides in part', () => {
  const cases: [BallColour, BallColour, number, typeof SUN | null][] = [
    ['blue', 'yellow', 0, SUN],
    ['yellow', 'red', 0.2, SUN],
    ['black', 'pink', -0.3, SUN],
    ['white', 'blue', 0.1, SUN],
    ['blue', 'white', 0.35, null],
    ['brown', 'pink', -0.2, null],
    ['red', 'yellow', 0.15, null],
    // As one ball these are none that is sure.
    ['brown', 'white', 0.5, SUN],
    ['white', 'brown', 0.5, null],
    ['green', 'pink', 0.3, SUN],
    ['green', 'yellow', 0.1, null],
  ];

  it.each(cases)('%s before %s, turned by %f: both are found where they are', (front, rear, turn, sun) => {
    const balls = pair(front, rear, turn);
    const raster = render(CAMERA, { balls, sun, noise: 3 });
    const found = findBalls(raster, CAMERA, STANDARD_COURT, {
      colours: balls.map(({ colour }) => colour as BallColour),
    });
    for (const { colour, x, y } of balls.slice(0, 2)) {
      const view = viewBall(CAMERA, x, y)!;
      const { image, covariance } = found.find((ball) => ball.colour === colour)!;
      const [dx, dy] = [image.x - view.x - view.centreDx, image.y - view.y - view.centreDy];
      // A fifth of a radius is stated in the sun.
      expect(Math.hypot(dx, dy) / view.radius).toBeLessThan(0.2);
      expect(Math.abs(dx) / Math.sqrt(covariance.xx)).toBeLessThan(3);
      expect(Math.abs(dy) / Math.sqrt(covariance.yy)).toBeLessThan(3);
    }
  });

  it('is not seen behind balls that stand alone', () => {
    for (const sun of [SUN, null]) {
      const balls = pair('blue', 'yellow', 0).map((ball, i) => ({ ...ball, x: ball.x + 0.4 * i }));
      const candidates = judgeCandidates(render(CAMERA, { balls, sun, noise: 3 }), CAMERA, STANDARD_COURT);
      expect(candidates.filter(({ behind }) => behind !== undefined)).toEqual([]);
    }
  });

  it('is placed with more doubt along the line from the front ball, 0.2 radii in the sun and 0.06 without, and none across', () => {
    const balls = pair('red', 'yellow', 0);
    const found = judgeCandidates(render(CAMERA, { balls, sun: null, noise: 3 }), CAMERA, STANDARD_COURT);
    const ball = found.find(({ behind }) => behind !== undefined)!;
    expect(BALL_COLOURS[ball.lnOdds.indexOf(bestOdds(ball))]).toBe('yellow');
    const whole = { ...ball, evidence: { ...ball.evidence, visible: 1 } };
    const doubt = (dx: number, dy: number, sunny: boolean): number[] => {
      const behind = { x: ball.fit.x - dx, y: ball.fit.y - dy, sunny };
      const { behind: _, ...plain } = whole;
      const more = sightingOf({ ...plain, behind }, 'yellow', 1, []).covariance;
      const less = sightingOf(plain, 'yellow', 1, []).covariance;
      return [more.xx - less.xx, more.xy - less.xy, more.yy - less.yy].map((v) => v / ball.view.radius ** 2);
    };
    const near = (found: number[], expected: number[]): void =>
      expected.forEach((value, i) => {
        expect(found[i]).toBeCloseTo(value, 9);
      });
    near(doubt(0, -4, true), [0, 0, 0.04]);
    near(doubt(0, -4, false), [0, 0, 0.0036]);
    near(doubt(3, -4, true), [0.04 * 0.36, -0.04 * 0.48, 0.04 * 0.64]);
    // Of two at one place nothing tells the line: up the picture is where one behind another lies.
    near(doubt(0, 0, true), [0, 0, 0.04]);
  });
});

describe('the doubt about a place', () => {
  const balls = pair('red', 'yellow', 0).slice(0, 1);
  const ball = judgeCandidates(render(CAMERA, { balls, noise: 3 }), CAMERA, STANDARD_COURT)[0]!;
  const variance = (change: Partial<JudgedBall>, misfit = 1): number =>
    sightingOf({ ...ball, ...change, fit: { ...ball.fit, misfit } }, 'red', 1, []).covariance.xx;

  it('is larger where a ball lacks the part of its edge that is seen against another: 0.03 radii', () => {
    expect(variance({ hides: true }) - variance({})).toBeCloseTo((0.03 * ball.view.radius) ** 2, 9);
  });

  it('grows with the share that is hidden: 0.1 radii for all of it', () => {
    const of = (visible: number): number => variance({ evidence: { ...ball.evidence, visible } });
    expect(of(0.25) - of(1)).toBeCloseTo((0.075 * ball.view.radius) ** 2, 9);
  });

  it('is larger where one ball explains the picture badly: 0.3 radii for each misfit above 1.6, of 6 px at most', () => {
    const of = (radius: number, misfit: number): number => {
      const view = { ...ball.view, radius };
      return variance({ view }, misfit) - variance({ view });
    };
    expect(of(4, 1.6)).toBe(0);
    expect(of(4, 2.6)).toBeCloseTo(1.2 ** 2, 9);
    expect(of(20, 2.1)).toBeCloseTo(0.9 ** 2, 9);
  });
});

describe('taking a ball off the picture', () => {
  const [front, rear] = pair('brown', 'yellow', 0) as [SceneBall, SceneBall];
  const of = (balls: readonly SceneBall[]) => render(CAMERA, { balls, sun: null, noise: 0 });
  const both = of([front, rear]);
  const view = viewBall(CAMERA, rear.x, rear.y)!;
  const scene = sceneOf(both, CAMERA, STANDARD_COURT, firstLook(both, CAMERA, STANDARD_COURT)!.lawn);
  const alone = of([front]);
  const fitted = judgeBall({ ...scene, raster: alone }, viewBall(CAMERA, front.x, front.y)!, null, 8)!;

  it('leaves of the ball behind it what a picture of that ball alone shows', () => {
    const truth = cutPatch(of([rear]), view);
    const [x, y, radius] = [fitted.fit.x, fitted.fit.y, fitted.view.radius];
    const missed = (standing: 'behind' | 'beside'): number => {
      const patch = cutPatch(both, view);
      peelBall(patch, fitted, view, standing);
      let [sum, count] = [0, 0];
      for (let i = 0; i < patch.count; i++) {
        const beside = Math.hypot(patch.x[i]! - x, patch.y[i]! - y) < radius + 1;
        const inRear = Math.hypot(patch.x[i]! - view.x, patch.y[i]! - view.y) < 0.8 * view.radius;
        if (patch.trust[i] === 0 || !beside || !inRear) continue;
        for (let c = 0; c < 3; c++) sum += Math.abs(patch.values[3 * i + c]! - truth.values[3 * i + c]!);
        count++;
      }
      expect(count).toBeGreaterThan(3);
      return sum / count;
    };
    expect(missed('behind')).toBeLessThan(0.8 * missed('beside'));
  });

  it('keeps what lies inside a ball before it', () => {
    const front = fitted.view;
    const hidden = judgeBall({ ...scene, raster: of([rear]) }, view, null, 8)!;
    const kept = (standing: 'before' | 'beside'): number => {
      const patch = cutPatch(both, front);
      peelBall(patch, hidden, front, standing);
      let count = 0;
      for (let i = 0; i < patch.count; i++)
        if (Math.hypot(patch.x[i]! - front.x, patch.y[i]! - front.y) < 0.6 * front.radius)
          count += Math.sign(patch.trust[i]!);
      return count;
    };
    expect(kept('before')).toBeGreaterThan(1.3 * kept('beside'));
  });

  it('knows which of two stands behind: one more than half a diameter farther away', () => {
    expect(standsBehind(view, fitted.view)).toBe(true);
    expect(standsBehind(fitted.view, view)).toBe(false);
    expect(standsBehind(viewBall(CAMERA, front.x + APART, front.y)!, fitted.view)).toBe(false);
  });

  it('finds one behind it where it is, and none where it stands alone', () => {
    expect(hiddenViews(both, CAMERA, fitted).length).toBeGreaterThan(0);
    expect(explainBlot({ ...scene, raster: alone }, fitted, fitted, null, [])).toHaveLength(1);
    const [, found] = explainBlot(scene, fitted, fitted, null, []);
    expect(found?.behind).toBeDefined();
    expect(Math.hypot(found!.fit.x - view.x, found!.fit.y - view.y)).toBeLessThan(0.35 * view.radius);
  });

  // By hand: two touching balls, the sun 30° high. The shadow of the nearer one falls on the lower half of the other when the sun stands behind the camera; from the side or from behind, on the lawn.
  it.each([
    ['behind the camera', [0, -Math.cos(Math.PI / 6), 0.5], 0.25],
    ['to the side', [Math.cos(Math.PI / 6), 0, 0.5], 0],
    ['before the camera', [0, Math.cos(Math.PI / 6), 0.5], 0],
  ] as const)('leaves out what lies in its shadow, the sun %s', (_, towards, least) => {
    const [near, far] = [viewBall(CAMERA, 14, 14)!, viewBall(CAMERA, 14, 14 + APART)!];
    const patch = cutPatch(both, far);
    hideShaded(patch, far, { view: near, fit: fitted.fit, sun: { towards, shadow: ANY_DEPTH } });
    let [shaded, inside] = [0, 0];
    for (let i = 0; i < patch.count; i++) {
      if (Math.hypot(patch.x[i]! - far.x, patch.y[i]! - far.y) > 0.95 * far.radius) {
        expect(patch.trust[i]).toBe(1);
        continue;
      }
      inside++;
      if (patch.trust[i] === 0) shaded++;
    }
    expect(shaded / inside).toBeGreaterThanOrEqual(least);
    // Beside the point of touch the shadow's soft edge grazes it.
    if (least === 0) expect(shaded / inside).toBeLessThan(0.1);
  });
});

describe('a thing that would be darker or brighter than a picture can show', () => {
  it('by hand: 30 grey levels below nothing, or above white, cost 2 ln odds', () => {
    const balls = pair('red', 'yellow', 0).slice(0, 1);
    const raster = render(CAMERA, { balls, noise: 3 });
    const ball = judgeCandidates(raster, CAMERA, STANDARD_COURT)[0]!;
    const scene = sceneOf(raster, CAMERA, STANDARD_COURT, firstLook(raster, CAMERA, STANDARD_COURT)!.lawn);
    const odds = (luma: number): number => {
      const colours = Float64Array.from(ball.fit.ball);
      colours[0] = luma;
      return placedAgain(scene, { ...ball, fit: { ...ball.fit, ball: colours } })!.lnOdds[0]!;
    };
    expect(odds(0) - odds(-30)).toBeCloseTo(2, 9);
    expect(odds(0)).toBeCloseTo(odds(80), 9);
    expect(odds(255)).toBeCloseTo(odds(80), 9);
    expect(odds(255) - odds(285)).toBeCloseTo(2, 9);
  });
});

describe('fits that two threads share', () => {
  const raster = render(CAMERA, { balls: pair('blue', 'yellow', 0.2), sun: SUN, noise: 3 });
  const sieved = sieveLawn(raster, CAMERA, STANDARD_COURT)!;
  const counted = (): (() => number) => {
    let rank = 0;
    return () => rank++;
  };
  const firsts = fitSieved(raster, STANDARD_COURT, sieved, counted());
  const look = lookOf(sieved, firsts);
  const scene = sceneOf(raster, CAMERA, STANDARD_COURT, sieved.lawn);
  const around = distinct(look.balls).slice(0, 5);
  const work = { kind: 'explain', sun: null, balls: around, around } as const;

  it('make the same look in whatever order they come', () => {
    expect(lookOf(sieved, [...firsts].reverse())).toEqual(look);
    expect(firstLook(raster, CAMERA, STANDARD_COURT)).toEqual(look);
  });

  it('are those whose turn it is, and all those that another thread took in vain', () => {
    const alone = fitTogether(scene, null, work);
    const asked: FitWork[] = [];
    const takesEveryOther = (rest: (turns: number[]) => readonly MadeOf[]) => (whole: FitWork) => {
      asked.push(whole);
      const even = counted();
      const odd = around.map((_, index) => index).filter((index) => index % 2 === 1);
      return { next: () => 2 * even(), rest: () => rest(odd) };
    };
    const turnOf = (turns: number[]) => {
      const left = [...turns, around.length];
      return () => left.shift()!;
    };
    const helped = takesEveryOther((turns) => doFits(raster, asked.at(-1)!, turnOf(turns)));
    expect(fitTogether(scene, helped, work)).toEqual(alone);
    expect(
      fitTogether(
        scene,
        takesEveryOther(() => []),
        work,
      ),
    ).toEqual(alone);
    expect(asked.map(({ balls }) => balls)).toEqual([around, around]);
  });
});

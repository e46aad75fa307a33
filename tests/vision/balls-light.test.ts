import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { lawnPoint3 } from '../../server/units/points.ts';
import { viewBallAt } from '../../server/vision/balls/ball-view.ts';
import { chancesOf } from '../../server/vision/balls/colour-chances.ts';
import { lawnElsewhere, lnClutterDensities } from '../../server/vision/balls/colour-model.ts';
import { judgeCandidates } from '../../server/vision/balls/find-balls.ts';
import { firstLook, isSure, sceneOf } from '../../server/vision/balls/first-look.ts';
import { columnPriors } from '../../server/vision/balls/fit-priors.ts';
import { type JudgedBall, judgeBall, placedAgain } from '../../server/vision/balls/judge-ball.ts';
import type { LawnColour } from '../../server/vision/balls/lawn-colour.ts';
import { ANY_BLUR, pooledBlur } from '../../server/vision/balls/picture-blur.ts';
import { COLUMN, COLUMNS } from '../../server/vision/balls/shading.ts';
import { ANY_DEPTH, pooledDepth, seenDepth, shadowOdds } from '../../server/vision/balls/shadow-depth.ts';
import { sightingOf } from '../../server/vision/balls/sighting-of.ts';
import { lookAt, render, type SceneBox, type SceneOptions } from './balls-scene.ts';

const CAMERA = lookAt([14, 2, 6], [14, 12], 1600, 700, 460);
const BALLS = [
  { colour: 'yellow', x: 13.2, y: 11.4 },
  { colour: 'red', x: 14.9, y: 12.2 },
  { colour: 'blue', x: 13.7, y: 13.1 },
  { colour: 'white', x: 14.3, y: 10.6 },
] as const satisfies readonly { colour: BallColour; x: number; y: number }[];

const judged = (more: Partial<SceneOptions> = {}): readonly JudgedBall[] =>
  judgeCandidates(render(CAMERA, { balls: BALLS, ...more }), CAMERA, STANDARD_COURT);

const nearest = (candidates: readonly JudgedBall[], place: { readonly x: number; readonly y: number }) =>
  [...candidates].sort(
    (a, b) =>
      Math.hypot(a.place.x - place.x, a.place.y - place.y) -
      Math.hypot(b.place.x - place.x, b.place.y - place.y),
  )[0]!;

describe('how deep shadows are', () => {
  it('is the usual depth when no ball shows one', () => {
    expect(pooledDepth([])).toEqual(ANY_DEPTH);
  });

  it('is that of balls which agree, as uncertain as balls of one picture differ at least', () => {
    const { share, sd } = pooledDepth([0.36, 0.36, 0.36, 0.36].map((each) => ({ share: each, sd: 0.05 })));
    expect(share).toBeCloseTo(0.36, 1);
    expect(sd).toBeGreaterThanOrEqual(0.15);
    expect(sd).toBeLessThan(ANY_DEPTH.sd);
  });

  it('is hardly drawn by one thing that casts none', () => {
    const agreeing = [0.4, 0.42, 0.38, 0.4].map((share) => ({ share, sd: 0.05 }));
    const { share } = pooledDepth([...agreeing, { share: -0.5, sd: 0.05 }]);
    expect(Math.abs(share - pooledDepth(agreeing).share)).toBeLessThan(0.05);
  });

  it('by hand: an answer half way between the prior and the picture, on lawn of 100 grey levels', () => {
    // Prior 0.5 ± (0.2 + 1/100): information 22.676. The picture brings as much again and says 0.3, so the fit ends at 0.4.
    const information = 1 / 0.21 ** 2;
    const seen = seenDepth(-40, 100 ** 2 / (2 * information), 100, { share: 0.5, sd: 0.2 })!;
    expect(seen.share).toBeCloseTo(0.3, 6);
    expect(seen.sd).toBeCloseTo(Math.sqrt(3 / information), 6);
  });

  it('is not seen where the fit learned nothing beyond its prior', () => {
    expect(seenDepth(-50, (100 * 0.21) ** 2 * 0.99, 100, { share: 0.5, sd: 0.2 })).toBeNull();
  });

  it('on pixels: skylight over sky and sun of the traced scene, after the tone curve', () => {
    // Sky 0.55, sun 2 × sin 40°: shadows keep 0.55 / 1.836 of the light, which the tone curve makes 0.578.
    const shadow = 1 - (0.55 / (0.55 + 2 * 0.6428)) ** (1 / 2.2);
    const { sun } = nearest(judged(), BALLS[0]);
    expect(sun).not.toBeNull();
    expect(Math.abs(sun!.shadow.share - shadow)).toBeLessThan(0.08);
  });

  it('is no sun at all under an overcast sky', () => {
    for (const { sun } of judged({ sun: null })) expect(sun).toBeNull();
  });
});

describe('what a fit expects of the cast shadow', () => {
  const colours = { ball: Float64Array.of(60, 5, -5), lawn: Float64Array.of(120, -20, -10) };
  const [mean, precision] = [new Float64Array(COLUMNS), new Float64Array(COLUMNS)];

  it('by hand: the picture’s depth of the lawn’s brightness, and its spread with a level more', () => {
    columnPriors(colours, 0, { share: 0.3, sd: 0.1 }, mean, precision);
    expect(mean[COLUMN.shadow]).toBeCloseTo(-36, 9);
    expect(precision[COLUMN.shadow]).toBeCloseTo(1 / 13 ** 2, 9);
  });

  it('is nothing, nearly exactly, without a sun', () => {
    columnPriors(colours, 0, null, mean, precision);
    expect(mean[COLUMN.shadow]).toBe(0);
    expect(precision[COLUMN.shadow]).toBeGreaterThan(1e5);
  });
});

describe('odds from a cast shadow', () => {
  const known = { share: 0.4, sd: 0.16 };

  it('speak for a ball where it is as deep as others, and against one where there is none', () => {
    expect(shadowOdds({ share: 0.4, sd: 0.05 }, known)).toBeGreaterThan(0.5);
    expect(shadowOdds({ share: -0.1, sd: 0.05 }, known)).toBeLessThan(-1.5);
  });

  it('say nothing where the shadow is hidden, and little where it is hardly seen', () => {
    expect(shadowOdds(null, known)).toBe(0);
    expect(Math.abs(shadowOdds({ share: 0, sd: 2 }, known))).toBeLessThan(0.2);
  });

  it('never exclude a ball: it may lie in the shade of a tree', () => {
    expect(shadowOdds({ share: -0.6, sd: 0.02 }, known)).toBeGreaterThanOrEqual(Math.log(0.06 / 0.8) - 1e-6);
  });

  it('on pixels: balls in the sun have them, a dark patch of the same size has them against it', () => {
    // Grass in the shade of a leaf, lying flat; as wide as a ball and, seen from here, as high.
    const [x, y] = [14.7, 11.3];
    const leaf: SceneBox = {
      at: [x - 0.046, x + 0.046, y - 0.07, y + 0.07, 0, 0.001],
      rgb: [0.13, 0.25, 0.06],
    };
    const raster = render(CAMERA, { balls: BALLS, boxes: [leaf] });
    const candidates = judgeCandidates(raster, CAMERA, STANDARD_COURT);
    for (const ball of BALLS) expect(nearest(candidates, ball).evidence.shadow).toBeGreaterThan(0);
    const { sun } = nearest(candidates, BALLS[1]);
    const scene = sceneOf(raster, CAMERA, STANDARD_COURT, firstLook(raster, CAMERA, STANDARD_COURT)!.lawn);
    const view = viewBallAt(CAMERA, projectPoint(CAMERA, lawnPoint3(x, y, 0))!)!;
    const [inSun, unlit] = [judgeBall(scene, view, sun, 8)!, judgeBall(scene, view, null, 8)!];
    expect(inSun.evidence.shadow).toBeLessThan(-0.5);
    expect(unlit.evidence.shadow).toBe(0);
  });

  it('count in the odds of every colour', () => {
    const raster = render(CAMERA, { balls: BALLS });
    const ball = nearest(judgeCandidates(raster, CAMERA, STANDARD_COURT), BALLS[1]);
    const scene = sceneOf(raster, CAMERA, STANDARD_COURT, firstLook(raster, CAMERA, STANDARD_COURT)!.lawn);
    const without = { ...ball, evidence: { ...ball.evidence, shadow: ball.evidence.shadow - 2 } };
    const [before, after] = [placedAgain(scene, ball)!.lnOdds, placedAgain(scene, without)!.lnOdds];
    for (const [c, odds] of before.entries()) expect(after[c]).toBeCloseTo(odds - 2, 9);
  });
});

describe('lawn as bright as elsewhere, in the shade of a tree', () => {
  const lawn = { rgb: [0.13, 0.25, 0.06] } as unknown as LawnColour;

  it('by hand: the ratio to lawn that is as bright is 0, to lawn at a third of the light ln 3', () => {
    // Y, Cb, Cr of a grey of linear 0.2 and lawn of the same grey.
    const grey = { ...lawn, rgb: [0.2, 0.2, 0.2] as const };
    const level = 255 * (1.055 * 0.2 ** (1 / 2.4) - 0.055);
    const darker = 255 * (1.055 * (0.2 / 3) ** (1 / 2.4) - 0.055);
    for (const ratio of lawnElsewhere([level, 0, 0], grey)) expect(ratio).toBeCloseTo(0, 1);
    for (const ratio of lawnElsewhere([darker, 0, 0], grey)) expect(ratio).toBeCloseTo(Math.log(3), 1);
  });

  it('is likelier to be lawn than the same brightness is where nothing else is as bright', () => {
    const bright = [1.2, 1.2, 1.2] as const;
    expect(lnClutterDensities(bright, bright).lawn).toBeGreaterThan(
      lnClutterDensities(bright, [0, 0, 0]).lawn + 1,
    );
  });
});

describe('the blur of a picture', () => {
  it('is any picture’s while no ball is sure', () => {
    expect(pooledBlur([])).toEqual(ANY_BLUR);
  });

  it('by hand: the geometric mean of its balls and any picture’s', () => {
    const { luma, colour, lnLumaSd, lnColourSd } = pooledBlur([
      { blur: 0.5, colourBlur: 1 },
      { blur: 0.6, colourBlur: 1.2 },
    ]);
    expect(luma).toBeCloseTo((0.5 * 0.6 * 0.75) ** (1 / 3), 9);
    expect(colour).toBeCloseTo((1 * 1.2 * 1.3) ** (1 / 3), 9);
    expect(lnLumaSd).toBeLessThan(ANY_BLUR.lnLumaSd);
    expect(lnColourSd).toBeLessThan(ANY_BLUR.lnColourSd);
  });

  it('by hand on pixels: is what the blur of every last fit is weighed by, with a spread of 0.2 of its logarithm', () => {
    const raster = render(CAMERA, { balls: BALLS });
    const look = firstLook(raster, CAMERA, STANDARD_COURT)!;
    const { luma } = pooledBlur(look.balls.filter(isSure).map(({ fit }) => fit));
    expect(luma).toBeLessThan(ANY_BLUR.luma - 0.05);
    for (const ball of BALLS) {
      const { fit, evidence } = nearest(judgeCandidates(raster, CAMERA, STANDARD_COURT), ball);
      expect(evidence.blur).toBeCloseTo(-((Math.log(fit.blur / luma) / 0.2) ** 2) / 2, 6);
    }
  });
});

describe('a ball brighter than a picture can be', () => {
  it('on pixels: a white one in an overexposed picture is clipped, a blue one is not', () => {
    const candidates = judged({ gains: [2.2, 2.2, 2.2] });
    expect(nearest(candidates, BALLS[3]).evidence.clipped).toBeGreaterThan(0.3);
    expect(nearest(candidates, BALLS[2]).evidence.clipped).toBe(0);
  });

  it('is placed with more doubt the more of it is clipped: 0.4 px times that share', () => {
    const ball = nearest(judged(), BALLS[3]);
    const half = { ...ball, evidence: { ...ball.evidence, clipped: 0.5 } };
    const none = { ...ball, evidence: { ...ball.evidence, clipped: 0 } };
    const more = sightingOf(half, 'white', 1, []).covariance;
    const less = sightingOf(none, 'white', 1, []).covariance;
    expect(more.xx - less.xx).toBeCloseTo(0.04, 9);
    expect(more.yy - less.yy).toBeCloseTo(0.04, 9);
    expect(more.xy).toBe(less.xy);
  });
});

describe('a name that rests on colour alone', () => {
  const ball = nearest(judged(), BALLS[1]);
  const withOutline = (round: number, size: number): JudgedBall => ({
    ...ball,
    evidence: { ...ball.evidence, round, size },
  });

  it('is never sure enough for a firm call', () => {
    expect(sightingOf(withOutline(4, 1), 'red', 0.99, []).confidence).toBeLessThan(0.9);
    expect(sightingOf(withOutline(5, 1.5), 'red', 0.99, []).confidence).toBeLessThan(0.9);
    expect(sightingOf(withOutline(5.5, 2), 'red', 0.99, []).confidence).toBe(0.99);
  });

  it('is not made surer either', () => {
    expect(sightingOf(withOutline(4, 1), 'red', 0.82, []).confidence).toBe(0.82);
  });
});

describe('the look of a picture', () => {
  const balls = judged();
  const [first, ...others] = BALLS.map((place) => nearest(balls, place)) as [JudgedBall, ...JudgedBall[]];
  const colours = BALLS.map(({ colour }) => colour);
  /** What the first ball, twice as bright and redder than it is, makes of the others' chances when its outline and what is clear of it are as told. */
  const chancesBeside = (round: number, clear: number): readonly number[] => {
    const ratios = first.ratios.map(({ ratio, error }) => ({
      ratio: [ratio[0] + 1.2, ratio[1] + 0.7, ratio[2] + 0.7] as const,
      error,
    }));
    const evidence = { ...first.evidence, round, size: 0 };
    return [...chancesOf([{ ...first, ratios, evidence, clear }, ...others], colours)].slice(8);
  };

  it('is told by clear outlines, and by nothing faint or with something upright before it', () => {
    // An outline of 7 ln odds is asked for, and that 0.85 of it be clear (where `coveredBy` begins).
    const clear = chancesBeside(12, 1);
    const faint = chancesBeside(6.9, 1);
    expect(chancesBeside(12, 0.8)).toEqual(faint);
    const change = clear.map((chance, i) => Math.abs(chance - faint[i]!));
    expect(Math.max(...change)).toBeGreaterThan(1e-6);
    expect(chancesBeside(7, 0.86)).toEqual(clear);
  });
});

import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../server/camera/camera-model.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import { STANDARD_COURT } from '../../server/lawn/court.ts';
import { lawnPoint3 } from '../../server/units/points.ts';
import { doubtTrace } from '../../server/vision/balls/doubts.ts';
import { judgeCandidates } from '../../server/vision/balls/find-balls.ts';
import type { JudgedBall } from '../../server/vision/balls/judge-ball.ts';
import { sightingOf } from '../../server/vision/balls/sighting-of.ts';
import { lookAt, render } from './balls-scene.ts';

const CAMERA = lookAt([11.3, 2, 6], [11.3, 14], 1600, 400, 260);
/** A sun 30° high in the south-west; three balls show where it stands. */
const HEIGHT = Math.PI / 6;
const AWAY = [Math.SQRT1_2, Math.SQRT1_2] as const;
const SUN = [-AWAY[0] * Math.cos(HEIGHT), -AWAY[1] * Math.cos(HEIGHT), Math.sin(HEIGHT)] as const;
const WHITE = { colour: 'white', x: 11.3, y: 14 } as const;

const judged = judgeCandidates(
  render(CAMERA, {
    sun: SUN,
    balls: [WHITE, { colour: 'yellow', x: 10.7, y: 14.4 }, { colour: 'red', x: 11.9, y: 13.7 }],
  }),
  CAMERA,
  STANDARD_COURT,
);
const white = judged.find(
  ({ lnOdds }) => lnOdds.indexOf(Math.max(...lnOdds)) === BALL_COLOURS.indexOf('white'),
)!;

/** The centre of the white ball throws its shadow so far, metres. */
const REACH = BALL_RADIUS / Math.tan(HEIGHT);

/** The white ball's fit, moved so many metres away from the sun onto the lawn, with a ball `brightness` times as bright as the lawn. */
const thingAt = (away: number, brightness: number): JudgedBall => {
  const { x, y } = projectPoint(CAMERA, lawnPoint3(WHITE.x + away * AWAY[0], WHITE.y + away * AWAY[1], 0))!;
  const ball = white.fit.lawn.map((value) => brightness * value);
  return { ...white, fit: { ...white.fit, x, y, ball } };
};

/** ln odds that each colour loses. */
const lost = (thing: JudgedBall): number[] => {
  const doubted = doubtTrace(thing, [white]);
  return [...thing.lnOdds].map((odds, c) => odds - doubted.lnOdds[c]!);
};

describe('a dark thing beside a ball in the sun', () => {
  it('is found with the sun known', () => {
    expect(white.sun).not.toBeNull();
  });

  it('is doubted in every colour where the shadow falls', () => {
    for (const loss of lost(thingAt(REACH, 0.4))) expect(loss).toBeGreaterThan(3);
  });

  it.each([
    ['towards the sun', -3 * REACH, 0.4],
    ['beyond the shadow', 5 * REACH, 0.4],
    ['in the shadow but bright', REACH, 1.6],
  ])('keeps its odds %s', (_, away, brightness) => {
    for (const loss of lost(thingAt(away, brightness))) expect(loss).toBe(0);
  });
});

describe('a dark thing with a colour of its own where the shadow falls', () => {
  it('is no shadow and keeps its odds', () => {
    const dark = thingAt(REACH, 0.4);
    const brown = dark.fit.ball.slice();
    brown[2] = brown[2]! + 30;
    for (const loss of lost({ ...dark, fit: { ...dark.fit, ball: brown } })) expect(loss).toBe(0);
  });
});

describe('a ball beside something that is not taken for a ball', () => {
  const spread = (unnamed: readonly JudgedBall[]): number =>
    sightingOf(white, 'white', 1, unnamed).covariance.xx;
  const beside = (radii: number, odds: number): JudgedBall => ({
    ...white,
    fit: { ...white.fit, x: white.fit.x + radii * white.view.radius },
    lnOdds: white.lnOdds.map(() => odds),
  });

  it('is placed with more doubt: a tenth of a radius', () => {
    const more = spread([beside(2, 0)]) - spread([]);
    expect(Math.sqrt(more)).toBeGreaterThan(white.view.radius / 12);
    expect(Math.sqrt(more)).toBeLessThan(white.view.radius / 8);
  });

  it.each([
    ['three radii away', 3, 0],
    ['that is hardly a ball', 2, -8],
  ])('is placed as well as ever beside one %s', (_, radii, odds) => {
    expect(spread([beside(radii, odds)])).toBe(spread([]));
  });
});

import { positionBound } from '../../server/camera/bound.ts';
import type { Camera } from '../../server/camera/types.ts';
import type { FoundBall, Reading } from '../../server/contract/reading.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { POINT_NAMES } from '../../server/lawn/named-points.ts';
import { metres, pixels } from '../../server/units/numbers.ts';
import { lawnPoint } from '../../server/units/points.ts';
import type { Fixture, TrueBall } from './fixtures.ts';

/** A found ball farther than this from its truth counts as false, metres (0.5 m). */
const MATCH_DISTANCE = 0.5;
/** A ball of whose outline less than this is seen counts as hidden; a scene without that knowledge counts every ball in the frame as visible. */
const VISIBLE_AT_ALL = 0.1;

/** One ball found and its truth. */
export type Match = {
  readonly colour: BallColour;
  readonly visible: number;
  /** Distance on the lawn, metres. */
  readonly error: number;
  /** Square of the error in units of the stated covariance: χ² with two degrees of freedom when the statement is honest. */
  readonly chi2: number;
  /** Error ÷ √(bound in x² + bound in y²). */
  readonly boundRatio: number;
  /** Firm call that contradicts the truth. */
  readonly wrongCall: boolean;
  readonly firm: boolean;
  readonly confidence: number;
};

/** How one reading compares with its truth. */
export type PictureScore = {
  readonly name: string;
  /** Visible balls of asked colours, at least half seen and less than half seen. */
  readonly visible: number;
  readonly hidden: number;
  readonly found: number;
  readonly foundHidden: number;
  readonly wrongColour: readonly BallColour[];
  readonly falseBalls: readonly BallColour[];
  readonly missed: readonly BallColour[];
  readonly matches: readonly Match[];
};

const seen = (ball: TrueBall): number => (ball.in_frame ? (ball.visible ?? 1) : 0);

const distance = (found: FoundBall, truth: TrueBall): number =>
  Math.hypot(found.x - truth.x, found.y - truth.y);

const standardizedSquare = (found: FoundBall, truth: TrueBall): number => {
  const dx = (found.x - truth.x) / found.sdX;
  const dy = (found.y - truth.y) / found.sdY;
  const r = found.correlation;
  return (dx * dx - 2 * r * dx * dy + dy * dy) / (1 - r * r);
};

/** Whether all of the ball is across by the truth. */
const trulyAcross = (truth: TrueBall): boolean => truth.beyond_mm / 1000 > BALL_RADIUS;

const cameraOf = ({ camera, photo }: Reading): Camera => ({
  position: camera.position,
  rotation: camera.rotation,
  focal: pixels(camera.focal),
  radial: camera.radial,
  width: pixels(photo.width),
  height: pixels(photo.height),
});

/** The least error √(bound in x² + bound in y²) that the picture allows, with the unevenness that the scene has. */
const boundOf = (fixture: Fixture, reading: Reading, truth: TrueBall): number => {
  const marked = new Set(reading.camera.marks.map(({ name }) => name));
  const bound = positionBound(cameraOf(reading), {
    points: POINT_NAMES.filter((name) => marked.has(name)),
    court: { width: metres(fixture.truth.court.width), length: metres(fixture.truth.court.length) },
    ball: lawnPoint(truth.x, truth.y),
    unevenness: fixture.truth.undulation_m ?? 0,
  });
  return bound ? Math.hypot(bound.sdX, bound.sdY) : Number.NaN;
};

const match = (fixture: Fixture, reading: Reading, found: FoundBall, truth: TrueBall): Match => {
  const call = reading.call?.balls.find(({ colour }) => colour === found.colour);
  const firm = call !== undefined && call.lies !== 'tooClose';
  const bound = boundOf(fixture, reading, truth);
  return {
    colour: found.colour,
    visible: seen(truth),
    error: distance(found, truth),
    chi2: standardizedSquare(found, truth),
    boundRatio: distance(found, truth) / bound,
    firm,
    wrongCall: firm && (call?.lies === 'beyond') !== trulyAcross(truth),
    confidence: found.confidence,
  };
};

const nearest = (found: FoundBall, truths: readonly TrueBall[]): TrueBall | undefined =>
  [...truths].sort((a, b) => distance(found, a) - distance(found, b))[0];

/** Compares a reading with the truth of its picture. */
export const scorePicture = (fixture: Fixture, reading: Reading): PictureScore => {
  const asked = new Set<BallColour>([...reading.balls.map(({ colour }) => colour), ...reading.missing]);
  const truths = fixture.truth.balls.filter((ball) => asked.has(ball.colour) && seen(ball) > VISIBLE_AT_ALL);
  const matches: Match[] = [];
  const wrongColour: BallColour[] = [];
  const falseBalls: BallColour[] = [];
  for (const found of reading.balls) {
    const own = fixture.truth.balls.find(({ colour }) => colour === found.colour);
    const near = nearest(found, fixture.truth.balls);
    if (own && distance(found, own) <= MATCH_DISTANCE) matches.push(match(fixture, reading, found, own));
    else if (near && distance(found, near) <= MATCH_DISTANCE) wrongColour.push(found.colour);
    else falseBalls.push(found.colour);
  }
  const got = (ball: TrueBall): boolean => matches.some(({ colour }) => colour === ball.colour);
  const half = truths.filter((ball) => seen(ball) >= 0.5);
  const hidden = truths.filter((ball) => seen(ball) < 0.5);
  return {
    name: fixture.name,
    visible: half.length,
    hidden: hidden.length,
    found: half.filter(got).length,
    foundHidden: hidden.filter(got).length,
    wrongColour,
    falseBalls,
    missed: truths.filter((ball) => !got(ball)).map(({ colour }) => colour),
    matches,
  };
};

/** The value below which the share `q` of `values` lies; NaN of nothing. */
export const quantile = (values: readonly number[], q: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  if (sorted.length === 0) return Number.NaN;
  const at = q * (sorted.length - 1);
  const low = sorted[Math.floor(at)]!;
  const high = sorted[Math.ceil(at)]!;
  return low + (high - low) * (at - Math.floor(at));
};

/** Root mean square of error ÷ stated uncertainty: √(mean χ² ÷ 2). */
export const rmsRatio = (matches: readonly Match[]): number =>
  Math.sqrt(matches.reduce((sum, { chi2 }) => sum + chi2 / 2, 0) / matches.length);

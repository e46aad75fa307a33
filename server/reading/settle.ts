import type { Marks } from '../contract/marks.ts';
import type { BallCall, Call, FoundBall, Settlement } from '../contract/reading.ts';
import type { Court } from '../lawn/court.ts';
import type { ScoredPoint } from '../lawn/halfway-lines.ts';
import { namedPlace } from '../lawn/named-points.ts';
import { metres } from '../units/numbers.ts';
import { type LawnPoint, lawnPoint } from '../units/points.ts';
import { normalQuantile } from '../units/statistics.ts';
import { type Axis, boundAcross, movedTo } from './bound-across.ts';
import { lineEnds } from './line-ends.ts';
import type { PhotoPose } from './pose-of-photo.ts';

/** A picture along the line is taken from so far behind its end and so high, metres: the middle of what a standing person does. */
const SIGHTING_SPOT = { behind: 3, height: 1.6 } as const;
/** Heights above the present one that are worth naming, as factors, and the highest place a club has, metres. */
const HIGHER = [1.25, 1.5, 2, 2.5, 3] as const;
const HIGHEST = 20;
/** What a test with a string on the grass itself leaves, metres: the string's sag and the eye. Common practice, no source. */
const STRING_SD = 0.003;
/** A boundary of whose length less than this was followed is worth marking. */
const MISSED = 0.25;

/** Behind the end of the line that is nearer to the ball. */
const alongTheLine = (
  pose: PhotoPose,
  call: Call,
  ball: LawnPoint,
  unevenness: number,
): Settlement & { sd: number } => {
  const { axis } = call.line;
  const ends = lineEnds({ ...call.line, at: metres(call.line.at) }, call.hoopScored as ScoredPoint);
  const [first, second] = ends.map((name) => namedPlace(pose.court, name)) as [LawnPoint, LawnPoint];
  const distance = (end: LawnPoint): number => Math.hypot(end.x - ball.x, end.y - ball.y);
  const [near, far] = distance(first) <= distance(second) ? [first, second] : [second, first];
  const length = distance(near) + distance(far);
  const back = (a: number, b: number): number => a + ((a - b) / length) * SIGHTING_SPOT.behind;
  const spot = { x: back(near.x, far.x), y: back(near.y, far.y), height: SIGHTING_SPOT.height };
  const camera = movedTo(pose.solved.camera, [spot.x, spot.y, spot.height], far);
  const sd = boundAcross({ ...camera, radial: [0, 0] }, pose.court, ball, axis, unevenness);
  return {
    action: 'alongTheLine',
    message: `Take a picture from ${SIGHTING_SPOT.behind} m behind the ${endName(near, pose.court)} end of the halfway line, in line with both markers, at eye height.`,
    spot,
    expectedSd: sd,
    sd,
  };
};

const endName = (end: LawnPoint, court: Court): string => {
  if (end.x <= 0) return 'west';
  if (end.x >= court.width) return 'east';
  return end.y <= 0 ? 'south' : 'north';
};

/** The lowest place above the present one from which the ball can be settled. */
const higherSpot = (
  pose: PhotoPose,
  axis: Axis,
  ball: LawnPoint,
  needed: number,
  unevenness: number,
): Settlement[] => {
  const { camera } = pose.solved;
  const [x, y, height] = camera.position;
  const target = lawnPoint(pose.court.width / 2, pose.court.length / 2);
  for (const factor of HIGHER) {
    const up = height * factor;
    if (up > HIGHEST) break;
    const sd = boundAcross(movedTo(camera, [x, y, up], target), pose.court, ball, axis, unevenness);
    if (sd <= needed)
      return [
        {
          action: 'higherSpot',
          message: `Take the picture from the same side but ${up.toFixed(0)} m above the lawn.`,
          spot: { x, y, height: up },
          expectedSd: sd,
        },
      ];
  }
  return [];
};

/** Boundaries that could be followed but were not: marking them by hand helps when the bound with them is small enough. */
const missedLine = (
  pose: PhotoPose,
  axis: Axis,
  ball: LawnPoint,
  needed: number,
  unevenness: number,
): Settlement[] => {
  const missed = pose.sides.filter(({ share }) => share < MISSED).map(({ side }) => side);
  if (missed.length === 0) return [];
  const sd = boundAcross(pose.solved.camera, pose.court, ball, axis, unevenness);
  if (sd > needed) return [];
  return [
    {
      action: 'markMissedLine',
      message: `Clear or mark the ${missed.join(' and ')} line, which could not be followed, and read the photo again.`,
      expectedSd: sd,
    },
  ];
};

const STRING: Settlement = {
  action: 'stringOnLawn',
  message:
    'Stretch a string between the two markers and look straight down beside the ball: the lawn decides where a picture cannot.',
  expectedSd: STRING_SD,
};

const settle = (pose: PhotoPose, call: Call, one: BallCall, ball: FoundBall, marks: Marks): Settlement[] => {
  const { axis } = call.line;
  const at = lawnPoint(ball.x, ball.y);
  const needed = Math.abs(one.beyond) / normalQuantile(marks.certainty);
  const { unevenness } = marks.lawn;
  const { sd, ...along } = alongTheLine(pose, call, at, unevenness);
  return [
    ...missedLine(pose, axis, at, needed, unevenness),
    ...(sd <= needed ? [along] : []),
    ...higherSpot(pose, axis, at, needed, unevenness),
    STRING,
  ];
};

/**
 * Adds to every call that is too close what would settle it, best first: a line that was missed, a picture along the line, a higher place
 * from which the bound of an ideal reader is small enough, and always the string on the lawn, which alone is left when no picture can.
 */
export const suggestSettlements = (
  call: Call,
  pose: PhotoPose,
  balls: readonly FoundBall[],
  marks: Marks,
): Call => ({
  ...call,
  balls: call.balls.map((one) => {
    const ball = balls.find(({ colour }) => colour === one.colour);
    return one.lies === 'tooClose' && ball ? { ...one, settle: settle(pose, call, one, ball, marks) } : one;
  }),
});

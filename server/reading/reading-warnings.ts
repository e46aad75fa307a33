import type { SolvedCamera } from '../camera/types.ts';
import type { Marks } from '../contract/marks.ts';
import type { FoundBall, Warning } from '../contract/reading.ts';
import type { BallColour } from '../lawn/colours.ts';
import type { TracedSide } from '../vision/types.ts';
import { SURE_COLOUR } from './call-balls.ts';

/** A boundary of whose visible length less than this was followed is reported. */
const TRACED_ENOUGH = 0.25;
/** Below this share of its outline a ball counts as half hidden. */
const HALF_HIDDEN = 0.5;

const untraced = (sides: readonly TracedSide[]): Warning[] =>
  sides
    .filter(({ share }) => share < TRACED_ENOUGH)
    .map(({ side, share }) => ({
      code: 'line-not-traced',
      message:
        share > 0
          ? `Only ${Math.round(share * 100)} % of the ${side} line could be followed; it adds little to the answer.`
          : `The ${side} line could not be followed; the answer rests on the marks and the other lines.`,
    }));

const unsure = (balls: readonly FoundBall[]): Warning[] =>
  balls.flatMap((ball) => {
    if (ball.origin === 'placed') return [];
    if (ball.confidence < SURE_COLOUR)
      return [
        {
          code: 'colour-unsure',
          message: `The ${ball.colour} ball may be another colour; look at it and confirm before relying on it.`,
        },
      ];
    if ((ball.visible ?? 1) < HALF_HIDDEN)
      return [
        {
          code: 'ball-half-hidden',
          message: `Less than half of the ${ball.colour} ball is seen; its place is less certain.`,
        },
      ];
    return [];
  });

const notFound = (missing: readonly BallColour[]): Warning[] =>
  missing.map((colour) => ({
    code: 'ball-not-found',
    message: `The ${colour} ball was not found; add it by hand if it is in the picture.`,
  }));

const overGame = (marks: Marks): Warning[] =>
  marks.hoopScored === 13
    ? [{ code: 'game-over', message: 'After hoop 13 the game is over: there is no halfway line to judge.' }]
    : [];

/** A 35 mm equivalent that the lines contradict is left out of the solution and reported. */
const focalConflict = (solved: SolvedCamera): Warning[] =>
  (solved as { focalPriorUsed?: boolean }).focalPriorUsed === false
    ? [
        {
          code: 'focal-length-ignored',
          message:
            'The focal length stored in the photo does not fit the lawn: the picture was cropped, zoomed or edited. It was left out.',
        },
      ]
    : [];

/** The cautions that go with a reading, in a fixed order. */
export const readingWarnings = (
  marks: Marks,
  solved: SolvedCamera,
  sides: readonly TracedSide[],
  balls: readonly FoundBall[],
  missing: readonly BallColour[],
): Warning[] => [
  ...untraced(sides),
  ...focalConflict(solved),
  ...unsure(balls),
  ...notFound(missing),
  ...overGame(marks),
];

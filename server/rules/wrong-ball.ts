import { judgeWrongBall2013, type WrongBall2013Code } from './wrong-ball-2013.ts';
import { judgeWrongBall2022, type WrongBall2022Code } from './wrong-ball-2022.ts';
import type { WrongBallCase, WrongBallRuling } from './wrong-ball-types.ts';

/** What follows from the strokes of `given` under its edition. Without strokes: the ball due is played next. */
export const judgeWrongBall = (
  given: WrongBallCase,
): WrongBallRuling<WrongBall2013Code | WrongBall2022Code> =>
  given.edition === '2013' ? judgeWrongBall2013(given) : judgeWrongBall2022(given);

import type { BallColour } from '../../server/lawn/colours.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { ballName } from '../words/balls.ts';
import style from './new-game.module.css';

/** Balls as answers: each with its letter and its name. */
export const ballOptions = (balls: readonly BallColour[]) =>
  balls.map((ball) => ({
    value: ball,
    name: ballName(ball),
    face: (
      <span className={style.ballFace}>
        <BallDisc colour={ball} size={28} />
        {ballName(ball)}
      </span>
    ),
  }));

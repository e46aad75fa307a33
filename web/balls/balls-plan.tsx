import type { BallColour } from '../../server/lawn/colours.ts';
import { LawnPlan } from '../plan/lawn-plan.tsx';
import { ballName, listed } from '../words/balls.ts';
import type { BallPicture } from './ball-picture.ts';
import style from './balls.module.css';

/** The plan beside the photo, on wide screens. */
export const BallsPlan = ({ seen, chosen }: { seen: BallPicture; chosen: BallColour | null }) => (
  <div className={style.plan}>
    <LawnPlan
      court={seen.court}
      label={`Plan of the lawn with ${listed(seen.balls.map(({ colour }) => ballName(colour))) || 'no balls'}`}
      line={seen.line ?? undefined}
      balls={seen.balls.flatMap(({ x, y, ...ball }) =>
        x === undefined || y === undefined ? [] : [{ ...ball, x, y }],
      )}
      chosen={chosen}
    />
  </div>
);

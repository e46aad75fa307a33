import type { BallColour } from '../../server/lawn/colours.ts';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { ballName } from '../words/balls.ts';
import style from './parts.module.css';

type Props = {
  readonly label: string;
  readonly chosen: readonly BallColour[];
  readonly among?: readonly BallColour[];
  readonly onChange: (balls: BallColour[]) => void;
};

/** Any of the balls, each with its letter and its name: tick boxes to keyboard and screen reader. */
export const BallChoice = ({ label, chosen, among = BALL_COLOURS, onChange }: Props) => (
  <fieldset className={style.tiles} style={{ '--across': 4 } as React.CSSProperties}>
    <legend>{label}</legend>
    <div>
      {among.map((colour) => (
        <label key={colour} className={style.tile}>
          <input
            type="checkbox"
            checked={chosen.includes(colour)}
            onChange={(event) =>
              onChange(
                among.filter((ball) =>
                  ball === colour ? event.currentTarget.checked : chosen.includes(ball),
                ),
              )
            }
          />
          <span className={style.ballFace}>
            <BallDisc colour={colour} size={28} />
            {ballName(colour)}
          </span>
        </label>
      ))}
    </div>
  </fieldset>
);

import type { LawnRecord } from '../../server/contract/record.ts';
import { giveOrTake } from '../../server/contract/words/chances.ts';
import { distance, margin } from '../../server/contract/words/lengths.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { useSettings } from '../settings/use-settings.ts';
import { ballName } from '../words/balls.ts';
import style from './call.module.css';

/** Where each ball lies, from the west and the south boundary. */
export const Places = ({ record }: { record: LawnRecord }) => {
  const { units } = useSettings();
  return (
    <ul className={style.places}>
      {record.balls.map(({ colour, x, y, sdX, sdY }) => (
        <li key={colour}>
          <BallDisc colour={colour} size={40} />
          <span>
            <b>{ballName(colour)}</b>: {distance(x, units)} from the west boundary, {distance(y, units)} from
            the south, give or take {margin(giveOrTake(Math.max(sdX, sdY)), units)}.
          </span>
        </li>
      ))}
    </ul>
  );
};

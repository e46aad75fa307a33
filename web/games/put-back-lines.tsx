import type { UnitSystem } from '../../server/contract/settings.ts';
import { giveOrTake } from '../../server/contract/words/chances.ts';
import { distance, margin } from '../../server/contract/words/lengths.ts';
import { shortPointName } from '../../server/contract/words/places.ts';
import type { PutBackLine } from '../../server/games/put-back.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { useSettings } from '../settings/use-settings.ts';
import { ballName } from '../words/balls.ts';
import style from './games.module.css';

/** Both systems, the club's own first: one tape has inches, the other millimetres. */
const both = (metres: number, units: UnitSystem): string => {
  const other = units === 'imperial' ? 'metric' : 'imperial';
  return `${distance(metres, units)} (${distance(metres, other)})`;
};

/** For each ball the four lengths by which it is put back. */
export const PutBackLines = ({ lines }: { lines: readonly PutBackLine[] }) => {
  const { units } = useSettings();
  return (
    <ul className={style.putBack}>
      {lines.map(({ ball, boundaries, points }) => (
        <li key={ball}>
          <h2>
            <BallDisc colour={ball} size={34} /> {ballName(ball)}
          </h2>
          <dl>
            {boundaries.map(({ side, distance: length, sd }) => (
              <div key={side}>
                <dt>From the {side} boundary</dt>
                <dd>
                  {both(length, units)}, give or take {margin(giveOrTake(sd), units)}
                </dd>
              </div>
            ))}
            {points.map(({ name, distance: length, sd }) => (
              <div key={name}>
                <dt>From {shortPointName(name)}</dt>
                <dd>
                  {both(length, units)}, give or take {margin(giveOrTake(sd), units)}
                </dd>
              </div>
            ))}
          </dl>
        </li>
      ))}
    </ul>
  );
};

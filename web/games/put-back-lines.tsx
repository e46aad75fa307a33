import type { UnitSystem } from '../../server/contract/settings.ts';
import { giveOrTake } from '../../server/contract/words/chances.ts';
import { distance, margin } from '../../server/contract/words/lengths.ts';
import { shortPointName } from '../../server/contract/words/places.ts';
import type { PutBackLine } from '../../server/games/put-back.ts';
import { BallDisc } from '../plan/ball-disc.tsx';
import { useSettings } from '../settings/use-settings.ts';
import { ballName } from '../words/balls.ts';
import style from './put-back.module.css';

type LengthProps = { readonly metres: number; readonly sd: number; readonly units: UnitSystem };

/** A length in both systems, the club's own first: one tape has inches, the other millimetres. */
const Length = ({ metres, sd, units }: LengthProps) => (
  <dd>
    <b>{distance(metres, units)}</b>
    <span> or {distance(metres, units === 'imperial' ? 'metric' : 'imperial')}</span>
    <span className={style.giveOrTake}>give or take {margin(giveOrTake(sd), units)}</span>
  </dd>
);

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
                <dt>{length < 0 ? `Outside the ${side} boundary by` : `From the ${side} boundary`}</dt>
                <Length metres={length} sd={sd} units={units} />
              </div>
            ))}
            {points.map(({ name, distance: length, sd }) => (
              <div key={name}>
                <dt>From {shortPointName(name)}</dt>
                <Length metres={length} sd={sd} units={units} />
              </div>
            ))}
          </dl>
        </li>
      ))}
    </ul>
  );
};

import type { UnitSystem } from '../../server/contract/settings.ts';
import { distance } from '../../server/contract/words/lengths.ts';
import type { PenaltyAdvice, WayToHoop } from '../../server/games/penalty-advice.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import { useSettings } from '../settings/use-settings.ts';
import { ballName } from '../words/balls.ts';
import style from './rulings.module.css';

const degrees = (radians: number): number => Math.round((radians * 180) / Math.PI);

const wayWords = (way: WayToHoop, units: UnitSystem): string =>
  `${distance(way.distance, units)} to the approach zone of hoop ${way.point}, ${degrees(way.angle)}° off its axis`;

/** From which penalty area a directed ball has the longer way to the approach zones of the next two hoops. */
export const AreaAdvice = ({ advice, ball }: { advice: PenaltyAdvice; ball: BallColour }) => {
  const { units } = useSettings();
  return (
    <div className={style.advice}>
      <p>
        {advice.worse
          ? `The ${advice.worse} leaves ${ballName(ball)} worse.`
          : `Neither area leaves ${ballName(ball)} clearly worse.`}
      </p>
      <dl>
        {advice.areas.map(({ area, next, after }) => (
          <div key={area}>
            <dt>From the {area}</dt>
            <dd>
              {[next, after]
                .filter((way) => way !== null)
                .map((way) => (
                  <span key={way.point} className={style.adviceWay}>
                    {wayWords(way, units)}
                  </span>
                ))}
            </dd>
          </div>
        ))}
      </dl>
    </div>
  );
};

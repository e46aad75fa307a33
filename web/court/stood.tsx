import type { SightingRecord } from '../../server/contract/record.ts';
import { distance } from '../../server/contract/words/lengths.ts';
import { shortPointName } from '../../server/contract/words/places.ts';
import type { PointName } from '../../server/lawn/named-points.ts';
import { useSettings } from '../settings/use-settings.ts';
import style from './court.module.css';

/** Less roll than this, degrees, is called level. */
const LEVEL = 0.05;

/** Where the phone was as the picture tells it, for whoever takes the next one: what a sighting is corrected for. */
export const Stood = ({ record }: { record: SightingRecord }) => {
  const { units } = useSettings();
  const { camera } = record;
  if (!camera) return null;
  const { behind, aside, height, roll, end } = camera;
  const figures = [
    ['Behind the mark', distance(behind, units)],
    ['Beside the line', distance(aside, units)],
    ['Above the ground', distance(height, units)],
    ['Turned by', Math.abs(roll) < LEVEL ? 'level' : `${Math.abs(roll).toFixed(1)}°`],
  ] as const;
  return (
    <section className={style.group}>
      <h2>Where the phone was</h2>
      <dl className={style.stood}>
        {figures.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <p className="soft">
        Measured from {shortPointName(end as PointName)}. All four are allowed for in the answer; what doubt
        they leave is told under each ball.
      </p>
    </section>
  );
};

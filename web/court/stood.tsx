import type { SightingRecord } from '../../server/contract/record.ts';
import type { UnitSystem } from '../../server/contract/settings.ts';
import { distance } from '../../server/contract/words/lengths.ts';
import { shortPointName } from '../../server/contract/words/places.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import type { PointName } from '../../server/lawn/named-points.ts';
import { useSettings } from '../settings/use-settings.ts';
import { ballName } from '../words/balls.ts';
import { AllowanceBar } from './allowance-bar.tsx';
import { type AllowedFor, adviceOf, allowancesOf, sayAllowance, scaleOf, tallness } from './allowances.ts';
import style from './sighting.module.css';

type Camera = NonNullable<SightingRecord['camera']>;

/** Less roll than this, degrees, is called level. */
const LEVEL = 0.05;

/** Where the phone was, one figure for each thing that is allowed for. */
const figuresOf = (camera: Camera, units: UnitSystem): Readonly<Record<AllowedFor, [string, string]>> => ({
  aside: ['Beside the line', distance(camera.aside, units)],
  height: ['Above the ground', tallness(camera.height, units)],
  roll: [
    'Turned by',
    Math.abs(camera.roll) < LEVEL ? 'nothing: level' : `${Math.abs(camera.roll).toFixed(1)}°`,
  ],
  lens: ['The lens', 'as measured'],
});

const Effects = ({ ball, camera }: { ball: SightingRecord['balls'][number]; camera: Camera }) => {
  const { units } = useSettings();
  const figures = figuresOf(camera, units);
  if (!ball.contributions) return null;
  const allowances = allowancesOf(ball.contributions);
  const scale = scaleOf(allowances);
  return (
    <>
      <p>
        All four are allowed for in the answer. What each does to <b>{ballName(ball.colour)}</b>:
      </p>
      <dl className={style.effects}>
        {allowances.map((allowance) => (
          <div key={allowance.of}>
            <dt>
              {figures[allowance.of][0]} <b>{figures[allowance.of][1]}</b>
            </dt>
            <dd>
              <AllowanceBar allowance={allowance} scale={scale} />
              {sayAllowance(allowance)}
            </dd>
          </div>
        ))}
      </dl>
      <p className={style.ends} aria-hidden="true">
        <span>short of the line</span>
        <span>past the line</span>
      </p>
      <p>{adviceOf(allowances, ball.sd)}</p>
    </>
  );
};

/** Where the phone was as the picture tells it, what that does to the chosen ball, and what to do better with the next picture. */
export const Stood = ({ record, chosen }: { record: SightingRecord; chosen: BallColour | null }) => {
  const { units } = useSettings();
  const { camera, balls } = record;
  if (!camera) return null;
  const ball = balls.find(({ colour }) => colour === chosen) ?? balls[0];
  return (
    <section className={style.stood}>
      <h2>Where the phone was</h2>
      <p>
        {distance(camera.behind, units)} behind {shortPointName(camera.end as PointName)}.
      </p>
      {ball && <Effects ball={ball} camera={camera} />}
    </section>
  );
};

import type { Stands } from '../../server/contract/stands.ts';
import { giveOrTake } from '../../server/contract/words/chances.ts';
import { BALL_RADIUS } from '../../server/lawn/ball.ts';
import type { Court } from '../../server/lawn/court.ts';
import { down, LawnGround } from '../plan/lawn-ground.tsx';
import { PlanLine } from '../plan/plan-line.tsx';
import style from './court.module.css';

/** A call is settled where half a ball, 46 mm, is more than give or take: metres. */
export const SETTLED: number = BALL_RADIUS;
/** From here to the limit above, some balls can be called and some cannot. */
const NEARLY = 2 * SETTLED;

/** The lawn and its surroundings: places to stand as squares, filled where a call is settled, outlined where it nearly is. */
export const StandPlan = ({ court, stands }: { court: Court; stands: Stands }) => {
  const { cells, step, best, line } = stands;
  const xs = cells.map(({ x }) => x);
  const ys = cells.map(({ y }) => y);
  const margin = step;
  const [west, east] = [Math.min(0, ...xs) - margin, Math.max(court.width, ...xs) + margin];
  const [south, north] = [Math.min(0, ...ys) - margin, Math.max(court.length, ...ys) + margin];
  const size = step * 0.8;
  return (
    <figure className={style.standPlan}>
      <svg
        viewBox={`${west} ${down(court, north)} ${east - west} ${north - south}`}
        role="img"
        aria-label="Plan of the lawn and the places around it from which the call can be settled"
      >
        <rect x={west} y={down(court, north)} width={east - west} height={north - south} fill="var(--turf)" />
        <LawnGround court={court} />
        <PlanLine court={court} line={line} />
        {cells.map(({ x, y, sd }) => {
          const half = giveOrTake(sd);
          if (half > NEARLY)
            return (
              <circle
                key={`${x} ${y}`}
                cx={x}
                cy={down(court, y)}
                r=".12"
                fill="var(--turf-ink)"
                opacity=".5"
              />
            );
          return (
            <rect
              key={`${x} ${y}`}
              x={x - size / 2}
              y={down(court, y) - size / 2}
              width={size}
              height={size}
              rx=".2"
              fill={half <= SETTLED ? 'var(--chalk)' : 'none'}
              stroke="var(--turf-ink)"
              strokeWidth=".12"
              strokeDasharray={half <= SETTLED ? undefined : '.4 .3'}
            />
          );
        })}
        <g transform={`translate(${best.x} ${down(court, best.y)})`}>
          <circle r="1.5" fill="var(--turf-ink)" stroke="var(--chalk)" strokeWidth=".2" />
          <rect x="-.75" y="-.5" width="1.5" height="1" rx=".2" fill="var(--chalk)" />
          <circle r=".3" fill="var(--turf-ink)" />
        </g>
      </svg>
      <figcaption className="soft">
        Filled: settled within half a ball. Dotted: within a whole ball. Dots: less. North is up.
      </figcaption>
    </figure>
  );
};

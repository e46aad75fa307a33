import type { Resting } from '../../server/games/state.ts';
import { BALL_COLOURS } from '../../server/lawn/colours.ts';
import type { Court } from '../../server/lawn/court.ts';
import { down } from '../plan/lawn-ground.tsx';
import style from './games.module.css';

/** Moves shorter than this are no path, metres. */
const NO_PATH = 0.05;

/** The way each ball went between two moments: from a small ring where it lay to where it lies, straight, for the log knows no more. */
export const BallPaths = ({ court, before, after }: { court: Court; before: Resting; after: Resting }) => (
  <g>
    {BALL_COLOURS.map((colour) => {
      const from = before[colour];
      const to = after[colour];
      if (!from || !to || Math.hypot(to.x - from.x, to.y - from.y) < NO_PATH) return null;
      return (
        <g key={`${colour} ${from.x} ${to.x}`} className={style.path}>
          <circle
            cx={from.x}
            cy={down(court, from.y)}
            r=".3"
            fill="none"
            stroke="var(--turf-ink)"
            strokeWidth=".12"
          />
          <path
            d={`M${from.x} ${down(court, from.y)}L${to.x} ${down(court, to.y)}`}
            pathLength="1"
            stroke="var(--turf-ink)"
            strokeWidth=".16"
            fill="none"
          />
        </g>
      );
    })}
  </g>
);
